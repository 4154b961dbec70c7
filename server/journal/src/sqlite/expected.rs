//! A head that somebody kept outside of the journal: on paper, in the log, beside a backup. It tells what the file alone
//! cannot: that its end was cut off.

use crate::protocol::chain::Head;
use crate::sqlite::error::RowError;
use rusqlite::Connection;
use std::fmt;
use std::str::FromStr;

/// Least digits of a hash that are taken for one: as many as are printed on a sheet.
const LEAST_DIGITS: usize = 12;

/// A head as it was printed, or the beginning of its hash alone.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Expected {
    seq: Option<i64>,
    digits: String,
}

impl Expected {
    /// Why this journal, which reaches to `head`, does not lead to what was expected; nothing when it does.
    pub(crate) fn missing(
        &self,
        conn: &Connection,
        head: &Head,
    ) -> Result<Option<String>, RowError> {
        let Some(seq) = self.seq else {
            let mut any = conn.prepare("SELECT 1 FROM entries WHERE hex(hash) LIKE ?1 || '%'")?;
            let there = any.exists([self.digits.to_uppercase()])?;
            return Ok((!there).then(|| {
                format!("no entry has hash {self}; the end was cut off, or it is another journal. It ends at {head}")
            }));
        };
        if seq > head.seq {
            return Ok(Some(format!(
                "it ends at entry {}, but {self} was expected: its end was cut off",
                head.seq
            )));
        }
        let mut same =
            conn.prepare("SELECT 1 FROM entries WHERE seq = ?1 AND hex(hash) LIKE ?2 || '%'")?;
        let there = seq == 0 || same.exists((seq, self.digits.to_uppercase()))?;
        Ok((!there).then(|| {
            format!("entry {seq} has another hash than {self}: it is another journal, or it was written on after its end was cut off")
        }))
    }
}

impl fmt::Display for Expected {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some(seq) = self.seq {
            write!(f, "{seq}:")?;
        }
        f.write_str(&self.digits)
    }
}

impl FromStr for Expected {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (seq, digits) = match text.split_once(':') {
            Some((seq, digits)) => (Some(seq.parse().ok()), digits),
            None => (None, text),
        };
        let is_hash = (LEAST_DIGITS..=64).contains(&digits.len())
            && digits.bytes().all(|digit| digit.is_ascii_hexdigit());
        match seq {
            Some(None) => Err(format!(
                "{text:?} is no head: before the colon is the number of an entry"
            )),
            _ if !is_hash => Err(format!(
                "{text:?} is no head: a hash has {LEAST_DIGITS} to 64 digits of 0 to 9 and a to f"
            )),
            seq => Ok(Self {
                seq: seq.flatten(),
                digits: digits.to_lowercase(),
            }),
        }
    }
}
