//! Who spoke, as the columns of an entry have it.

use clampbook_book::ids::PersonId;
use clampbook_book::speaker::Speaker;
use clampbook_book::words::Known;
use serde::Deserialize;
use serde::de::value::{Error as ValueError, StrDeserializer};

/// Who spoke. Entries of format 1 have the name alone, and no person is guessed from it. An id is taken whatever it looks like,
/// should the rule for new ones ever get narrower.
pub(crate) fn read(
    name: String,
    known: Option<&str>,
    person: Option<&str>,
) -> Result<Speaker, String> {
    let named = Speaker::called(name.into());
    let Some(known) = known else {
        return Ok(named);
    };
    let known = Known::from_id(known).ok_or_else(|| {
        format!("a person is known by {known:?}, which this program does not know")
    })?;
    let person = person.map(|id| PersonId::deserialize(StrDeserializer::<ValueError>::new(id)));
    Ok(Speaker {
        person: person.transpose().map_err(|error| error.to_string())?,
        known,
        ..named
    })
}
