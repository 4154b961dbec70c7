//! What stands for one changing request, so that sending it once more changes nothing twice.

/// The id of a request, with the etag that it was decided on.
#[derive(Clone, Debug)]
pub(crate) struct Ticket {
    id: String,
    etag: Option<String>,
}

impl Ticket {
    /// A request of that id.
    pub(crate) fn new(id: String) -> Self {
        Self { id, etag: None }
    }

    /// The same, decided on what the etag stands for.
    pub(crate) fn on(self, etag: &str) -> Self {
        Self {
            etag: Some(etag.to_owned()),
            ..self
        }
    }

    /// The id as it is sent.
    pub(crate) fn request_id(&self) -> String {
        self.id.clone()
    }

    /// What to do when nobody knows whether the request was written.
    pub(crate) fn advice(&self) -> String {
        let etag = match &self.etag {
            Some(etag) => format!(" --etag {}", quoted(etag)),
            None => String::new(),
        };
        format!(
            "It is not known whether this was written. Run the same command again with\n  --request-id {}{etag}\n\
             and it is written once, whichever it was.",
            quoted(&self.id)
        )
    }
}

/// A word as a shell takes it.
fn quoted(word: &str) -> String {
    let plain = |character: char| character.is_ascii_alphanumeric() || "-_.".contains(character);
    if !word.is_empty() && word.chars().all(plain) {
        return word.to_owned();
    }
    format!("'{}'", word.replace('\'', r"'\''"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_advice_repeats_all_that_makes_the_request_the_same() {
        let ticket = Ticket::new("0199-7".to_owned());
        assert!(ticket.advice().contains("\n  --request-id 0199-7\n"));
        let ticket = ticket.on("\"a'b\"");
        assert!(
            ticket
                .advice()
                .contains(r#"--request-id 0199-7 --etag '"a'\''b"'"#),
            "{}",
            ticket.advice()
        );
    }
}
