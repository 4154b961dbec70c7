//! Paging: sizes, and tokens that are opaque, URL-safe and bound to the list they came from.

use super::Validator;
use clampbook_app::{JobsAfter, JudgedAt};

/// A page that is wanted.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Page {
    /// Most items on it.
    pub(crate) size: usize,
    /// Where the last page ended; nothing for the first.
    pub(crate) after: Option<String>,
}

/// Default and maximum size of a list's pages.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Sizes {
    /// Size when none is asked for.
    pub(crate) default: usize,
    /// Maximum size given.
    pub(crate) most: usize,
}

impl Validator {
    /// Takes the paging fields of a list that follows the list of jobs.
    pub(crate) fn jobs_page(
        &mut self,
        list: &str,
        size: i32,
        token: &str,
        sizes: Sizes,
    ) -> Option<(u32, Option<JobsAfter>)> {
        let page = self.page(list, size, token, sizes)?;
        let after = page.after.as_deref().map(jobs_after);
        if let Some(None) = after {
            self.wrong("page_token", "is not a token of this list");
        }
        let size = u32::try_from(page.size).unwrap_or(u32::MAX);
        Some((size, after.flatten()))
    }

    /// Takes the paging fields of a list named `list`, which tokens are bound to.
    pub(crate) fn page(
        &mut self,
        list: &str,
        size: i32,
        token: &str,
        sizes: Sizes,
    ) -> Option<Page> {
        let size = match usize::try_from(size) {
            Ok(0) => Some(sizes.default),
            Ok(size) => Some(if size > sizes.most { sizes.most } else { size }),
            Err(_) => {
                self.wrong(
                    "page_size",
                    format!("{size} is negative; allowed are 0 and above"),
                );
                None
            }
        };
        let after = if token.is_empty() {
            Some(None)
        } else {
            let read = read_token(list, token);
            if read.is_none() {
                self.wrong(
                    "page_token",
                    "is not a token of this list; take it from the answer before, with the same other fields",
                );
            }
            read.map(Some)
        };
        Some(Page {
            size: size?,
            after: after?,
        })
    }

    /// Takes the paging fields of a list that is judged as a whole.
    pub(crate) fn judged_page(
        &mut self,
        list: &str,
        size: i32,
        token: &str,
        sizes: Sizes,
    ) -> Option<JudgedPage> {
        let page = self.page(list, size, token, sizes)?;
        let after = page.after.as_deref().map(judged_after);
        if let Some(None) = after {
            self.wrong("page_token", "is not a token of this list");
            return None;
        }
        let (start, at) = after.flatten().unzip();
        Some(JudgedPage {
            at,
            size: page.size,
            start: start.unwrap_or_default(),
        })
    }

    /// Takes the paging fields of a list whose pages go on after a number.
    pub(crate) fn numbered_page<N: std::str::FromStr>(
        &mut self,
        list: &str,
        size: i32,
        token: &str,
        sizes: Sizes,
    ) -> Option<(usize, Option<N>)> {
        let page = self.page(list, size, token, sizes)?;
        match page.after.map(|after| after.parse()) {
            None => Some((page.size, None)),
            Some(Ok(number)) => Some((page.size, Some(number))),
            Some(Err(_)) => {
                self.wrong("page_token", "is not a token of this list");
                None
            }
        }
    }
}

/// Makes the token for the page after `last` of a list.
pub(crate) fn token(list: &str, last: &str) -> String {
    let mut text = last.as_bytes().to_vec();
    text.extend_from_slice(&mark(list, last));
    crate::request::hex(&text)
}

/// One page of a list that is all in memory, and the token for the one after.
pub(crate) fn of_list<T>(
    list: &str,
    items: impl IntoIterator<Item = T>,
    size: usize,
    after: Option<usize>,
) -> (Vec<T>, String) {
    let start = after.unwrap_or(0);
    let mut rest = items.into_iter().skip(start);
    let page: Vec<T> = rest.by_ref().take(size).collect();
    let next = match rest.next() {
        Some(_) => token(list, &(start + page.len()).to_string()),
        None => String::new(),
    };
    (page, next)
}

/// A page of a list that was judged as a whole.
#[derive(Debug)]
pub(crate) struct JudgedPage {
    /// Of which judgement; nothing for the first page.
    pub(crate) at: Option<JudgedAt>,
    size: usize,
    start: usize,
}

impl JudgedPage {
    /// The page of these items, and the token for the one after.
    pub(crate) fn of<'i, T>(&self, list: &str, at: JudgedAt, items: &'i [T]) -> (&'i [T], String) {
        let rest = items.get(self.start..).unwrap_or_default();
        let page = &rest[..self.size.min(rest.len())];
        let next = self.start + page.len();
        let token = match rest.len() > page.len() {
            true => token(list, &format!("{next} {} {}", at.job, at.shop)),
            false => String::new(),
        };
        (page, token)
    }
}

fn judged_after(text: &str) -> Option<(usize, JudgedAt)> {
    let (start, at) = text.split_once(' ')?;
    let (job, shop) = at.split_once(' ')?;
    let at = JudgedAt {
        job: job.parse().ok()?,
        shop: shop.parse().ok()?,
    };
    Some((start.parse().ok()?, at))
}

/// Token of a list that follows the list of jobs; empty at the end.
pub(crate) fn jobs_token(list: &str, next: Option<JobsAfter>) -> String {
    next.map(|next| token(list, &format!("{} {}", next.as_of, next.place)))
        .unwrap_or_default()
}

fn jobs_after(text: &str) -> Option<JobsAfter> {
    let (as_of, place) = text.split_once(' ')?;
    Some(JobsAfter {
        as_of: as_of.parse().ok()?,
        place: place.parse().ok()?,
    })
}

fn read_token(list: &str, token: &str) -> Option<String> {
    let ascii = token.len() <= 512 && token.bytes().all(|b| b.is_ascii_hexdigit());
    if !ascii || !token.len().is_multiple_of(2) {
        return None;
    }
    let bytes: Vec<u8> = (0..token.len())
        .step_by(2)
        .map(|i| u8::from_str_radix(&token[i..i + 2], 16))
        .collect::<Result<_, _>>()
        .ok()?;
    let (text, given) = bytes.split_at_checked(bytes.len().checked_sub(4)?)?;
    let text = String::from_utf8(text.to_vec()).ok()?;
    (mark(list, &text) == *given).then_some(text)
}

/// Binds a token to its list, so that one taken from another list is refused. It grants nothing and guards nothing.
fn mark(list: &str, last: &str) -> [u8; 4] {
    let hash = blake3::hash(format!("{list}\n{last}").as_bytes());
    let mut mark = [0; 4];
    mark.copy_from_slice(&hash.as_bytes()[..4]);
    mark
}
