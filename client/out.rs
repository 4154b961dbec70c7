//! Where everything is printed: results to standard output, messages to standard error.

use std::{
    env,
    io::{self, IsTerminal, Write},
};

use crate::{
    args::Global,
    error::Failure,
    json::{self, Wire},
    show::text::{Look, finish},
};

/// How results are printed.
#[derive(Clone, Debug)]
pub(crate) struct Out {
    json: bool,
    look: Look,
    messages: Look,
}

impl Out {
    /// Looks at flags, environment and terminal once.
    pub(crate) fn new(global: &Global) -> Self {
        let ascii = speaks_ascii(|key| env::var(key).ok());
        let wanted = !global.no_color && colour_wanted(|key| env::var(key).ok());
        let look = |colour| Look { ascii, colour };
        Self {
            json: global.json,
            look: look(wanted && io::stdout().is_terminal()),
            messages: look(wanted && io::stderr().is_terminal()),
        }
    }

    /// Prints an answer: as JSON when that was asked for, else as people read it.
    pub(crate) fn answer<M: Wire>(
        &self,
        message: &M,
        show: impl FnOnce(&M) -> String,
    ) -> Result<(), Failure> {
        if self.json {
            self.bytes(&json::pretty(message)?)
        } else {
            self.text(&show(message))
        }
    }

    /// Prints one item of a stream: as one line of JSON, or as people read it.
    pub(crate) fn item<M: Wire>(
        &self,
        message: &M,
        show: impl FnOnce(&M) -> String,
    ) -> Result<(), Failure> {
        if self.json {
            self.bytes(&json::line(message)?)
        } else {
            self.text(&show(message))
        }
    }

    /// Prints text for people.
    pub(crate) fn text(&self, text: &str) -> Result<(), Failure> {
        self.bytes(finish(text, self.look).as_bytes())
    }

    /// Prints bytes as they are.
    pub(crate) fn bytes(&self, bytes: &[u8]) -> Result<(), Failure> {
        let mut stdout = io::stdout().lock();
        stdout
            .write_all(bytes)
            .and_then(|()| stdout.flush())
            .map_err(|error| Failure::output(&error))
    }

    /// Prints a message. A closed standard error stops nothing.
    pub(crate) fn notice(&self, text: &str) {
        let line = finish(&format!("{text}\n"), self.messages);
        let _ = io::stderr().lock().write_all(line.as_bytes());
    }

    /// True when answers are wanted as JSON.
    pub(crate) fn is_json(&self) -> bool {
        self.json
    }
}

/// True when the locale says that nothing but ASCII can be shown.
fn speaks_ascii(variable: impl Fn(&str) -> Option<String>) -> bool {
    ["LC_ALL", "LC_CTYPE", "LANG"]
        .into_iter()
        .find_map(|key| variable(key).filter(|value| !value.is_empty()))
        .is_some_and(|locale| locale == "C" || locale == "POSIX")
}

fn colour_wanted(variable: impl Fn(&str) -> Option<String>) -> bool {
    variable("NO_COLOR").is_none_or(|value| value.is_empty())
        && variable("TERM").is_none_or(|term| term != "dumb")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn environment<'a>(
        variables: &'a [(&'a str, &'a str)],
    ) -> impl Fn(&str) -> Option<String> + 'a {
        |key| {
            variables
                .iter()
                .find(|(name, _)| *name == key)
                .map(|(_, value)| (*value).to_owned())
        }
    }

    #[test]
    fn only_a_locale_that_says_so_is_ascii() {
        assert!(!speaks_ascii(environment(&[])));
        assert!(speaks_ascii(environment(&[("LANG", "C")])));
        assert!(speaks_ascii(environment(&[
            ("LC_ALL", "POSIX"),
            ("LANG", "en_GB.UTF-8")
        ])));
        assert!(!speaks_ascii(environment(&[
            ("LC_ALL", ""),
            ("LANG", "C.UTF-8")
        ])));
        assert!(!speaks_ascii(environment(&[
            ("LC_CTYPE", "de_DE.UTF-8"),
            ("LANG", "C")
        ])));
    }

    #[test]
    fn colour_is_off_where_it_is_not_wanted() {
        assert!(colour_wanted(environment(&[])));
        assert!(colour_wanted(environment(&[("NO_COLOR", "")])));
        assert!(!colour_wanted(environment(&[("NO_COLOR", "1")])));
        assert!(!colour_wanted(environment(&[("TERM", "dumb")])));
    }
}
