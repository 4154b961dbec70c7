//! What is left to read of a designation, and the small steps that take something off its front.

use super::NotADesignation;

/// The rest of the text.
#[derive(Clone, Copy)]
pub(super) struct Text<'a>(&'a str);

pub(super) type Read<T> = Result<T, NotADesignation>;

impl<'a> Text<'a> {
    pub(super) fn new(text: &'a str) -> Self {
        Self(text.trim())
    }

    pub(super) fn metric_mark(&mut self) -> bool {
        let mark = self.0.strip_prefix(['M', 'm']).map(str::trim_start);
        match mark {
            Some(rest) if rest.starts_with(|c: char| c.is_ascii_digit()) => {
                self.0 = rest;
                true
            }
            _ => false,
        }
    }

    /// Digits with a decimal point or comma; above zero.
    pub(super) fn decimal(&mut self) -> Read<f64> {
        let end = self
            .0
            .find(|c: char| !(c.is_ascii_digit() || c == '.' || c == ','));
        let (digits, rest) = self.0.split_at(end.unwrap_or(self.0.len()));
        let value = match digits.split_once(',') {
            None => digits.parse(),
            // Both halves are short digits: put together without the heap.
            Some((whole, part)) => return self.comma(whole, part, rest),
        };
        self.0 = rest;
        above_zero(value.map_err(|_| NotADesignation)?)
    }

    fn comma(&mut self, whole: &str, part: &str, rest: &'a str) -> Read<f64> {
        let mut buffer = [0_u8; 16];
        let len = whole.len() + 1 + part.len();
        let text = buffer.get_mut(..len).ok_or(NotADesignation)?;
        text[..whole.len()].copy_from_slice(whole.as_bytes());
        text[whole.len()] = b'.';
        text[whole.len() + 1..].copy_from_slice(part.as_bytes());
        let value = std::str::from_utf8(text).ok().and_then(|t| t.parse().ok());
        self.0 = rest;
        above_zero(value.ok_or(NotADesignation)?)
    }

    pub(super) fn whole(&mut self) -> Read<u16> {
        let end = self
            .0
            .find(|c: char| !c.is_ascii_digit())
            .unwrap_or(self.0.len());
        let (digits, rest) = self.0.split_at(end);
        let value = digits.parse().map_err(|_| NotADesignation)?;
        self.0 = rest;
        Ok(value)
    }

    /// Next word between spaces and dashes.
    pub(super) fn word(&mut self) -> Option<&'a str> {
        self.gap();
        let end = self.0.find([' ', '-']).unwrap_or(self.0.len());
        let (word, rest) = self.0.split_at(end);
        self.0 = rest;
        (!word.is_empty()).then_some(word)
    }

    pub(super) fn take(&mut self, any: impl IntoIterator<Item = char>) -> bool {
        let mut chars = self.0.chars();
        let found = chars
            .next()
            .is_some_and(|c| any.into_iter().any(|a| a == c));
        if found {
            self.0 = chars.as_str();
        }
        found
    }

    /// Takes a word if it comes next and ends there.
    pub(super) fn take_word(&mut self, word: &str) -> bool {
        let next = self.0.trim_start_matches(' ');
        let Some((head, rest)) = next.split_at_checked(word.len()) else {
            return false;
        };
        let ends = || !rest.starts_with(char::is_alphanumeric) || word.ends_with('.');
        let found = head.eq_ignore_ascii_case(word) && (word == "no" || ends());
        if found {
            self.0 = rest;
        }
        found
    }

    pub(super) fn spaces(&mut self) {
        self.0 = self.0.trim_start_matches(' ');
    }

    pub(super) fn gap(&mut self) {
        self.0 = self.0.trim_start_matches([' ', '-']);
    }

    pub(super) fn starts_with(self, text: &str) -> bool {
        self.0.starts_with(text)
    }

    pub(super) fn starts_with_digit(self) -> bool {
        self.0.starts_with(|c: char| c.is_ascii_digit())
    }

    /// Whether the next word is a number and nothing else (`M10-1.5` against `M10-6g`).
    pub(super) fn is_number_only(mut self) -> bool {
        self.spaces();
        self.word().is_some_and(|w| {
            w.chars()
                .all(|c| c.is_ascii_digit() || c == '.' || c == ',')
        })
    }
}

fn above_zero(value: f64) -> Read<f64> {
    match value > 0.0 && value < 1000.0 {
        true => Ok(value),
        false => Err(NotADesignation),
    }
}
