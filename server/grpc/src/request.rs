//! What every changing request and many answers share: request ids, fingerprints, times, who said what, numbers.

use super::Validator;
use clampbook_api::v1 as wire;
use clampbook_app::{Change, Error, Fingerprint, Sending, ShopChange, names};
use clampbook_book::entry::{Moment, Said};
use clampbook_book::ids::JobId;
use prost::Message;
use prost_types::Timestamp;
use uuid::Uuid;

/// Earliest time something can have been said: 2000-01-01, long before any journal. Common practice.
const EARLIEST: Moment = Moment(946_684_800_000_000);

impl Validator {
    /// Takes when something was said; nothing when it is now.
    pub(crate) fn said_time(&mut self, time: Option<&Timestamp>) -> Option<Moment> {
        let time = time?;
        let in_nanos = (0..1_000_000_000).contains(&time.nanos);
        let moment = time
            .seconds
            .checked_mul(1_000_000)
            .and_then(|us| us.checked_add(i64::from(time.nanos) / 1_000))
            .map(Moment);
        match moment {
            Some(moment) if in_nanos && moment >= EARLIEST => Some(moment),
            _ => {
                self.wrong("said_time", "is not a time since the year 2000");
                None
            }
        }
    }

    /// Takes a request id; nothing when the server is to make one.
    pub(crate) fn request_id(&mut self, id: &str) -> Option<Uuid> {
        if id.is_empty() {
            return None;
        }
        let parsed = Uuid::try_parse(id).ok();
        if parsed.is_none() {
            self.wrong(
                "request_id",
                "is not a UUID, for instance 01890a5d-ac96-774b-bcce-b302099a8057",
            );
        }
        parsed
    }

    /// Takes how a changing request was sent.
    pub(crate) fn sending<R: Changing>(&mut self, request: &R) -> Sending {
        Sending {
            request: self.request_id(request.request_id()),
            said: self.said_time(request.said_time()),
            fingerprint: fingerprint(request),
        }
    }

    /// The change of a job that a request asks for, if nothing was wrong with it.
    ///
    /// # Errors
    /// All violations found.
    pub(crate) fn change<R: Changing, W>(
        mut self,
        request: &R,
        parts: Option<(JobId, W)>,
    ) -> Result<Change<W>, Error> {
        let sending = self.sending(request);
        let (job, what) = self.finish(parts)?;
        Ok(Change { job, what, sending })
    }

    /// The change of the shop that a request asks for, if nothing was wrong with it.
    ///
    /// # Errors
    /// All violations found.
    pub(crate) fn shop_change<R: Changing, W>(
        mut self,
        request: &R,
        what: Option<W>,
    ) -> Result<ShopChange<W>, Error> {
        let sending = self.sending(request);
        let what = self.finish(what)?;
        Ok(ShopChange { what, sending })
    }

    /// Takes an etag that must be given.
    pub(crate) fn etag(&mut self, etag: &str) -> String {
        self.required_text("etag", etag, clampbook_book::bounds::QUANTITY)
    }
}

/// A request that changes something.
pub(crate) trait Changing: Message + Clone {
    /// Name of its method, which is part of what a request id stands for.
    const METHOD: &'static str;

    /// Its request id.
    fn request_id(&self) -> &str;

    /// The same, to be cleared.
    fn request_id_mut(&mut self) -> &mut String;

    /// When it was said, if that was given.
    fn said_time(&self) -> Option<&Timestamp>;

    /// Its etag, if it has one.
    fn etag_mut(&mut self) -> Option<&mut String>;
}

/// Version of the way in which fingerprints are made. It changes with the wire, which they are made from.
const FINGERPRINT_VERSION: u32 = 1;

/// Hash of a request's method and content, without its id and without the etag, which says on what it was decided and not
/// what: a request that is sent again after it was written may carry a newer one.
pub(crate) fn fingerprint<R: Changing>(request: &R) -> Fingerprint {
    let mut content = request.clone();
    content.request_id_mut().clear();
    if let Some(etag) = content.etag_mut() {
        etag.clear();
    }
    let mut hasher = blake3::Hasher::new();
    hasher.update(R::METHOD.as_bytes());
    hasher.update(&[0]);
    hasher.update(&content.encode_to_vec());
    Fingerprint {
        version: FINGERPRINT_VERSION,
        hash: *hasher.finalize().as_bytes(),
    }
}

macro_rules! changing {
    ($($request:ident = $method:literal $($etag:ident)?;)+) => {
        $(impl Changing for wire::$request {
            const METHOD: &'static str = $method;

            fn request_id(&self) -> &str {
                &self.request_id
            }

            fn request_id_mut(&mut self) -> &mut String {
                &mut self.request_id
            }

            fn said_time(&self) -> Option<&Timestamp> {
                self.said_time.as_ref()
            }

            fn etag_mut(&mut self) -> Option<&mut String> {
                changing!(@ self $($etag)?)
            }
        })+
    };
    (@ $self:ident) => { None };
    (@ $self:ident $etag:ident) => { Some(&mut $self.$etag) };
}

// These names are part of every stored fingerprint: a method may be renamed, its name here never.
changing! {
    CreateJobRequest = "CreateJob";
    CreateAssemblyRequest = "CreateAssembly";
    CreateJointRequest = "CreateJoint";
    LogMatchMarksRequest = "LogMarks";
    LogRemovalRequest = "LogRemoval";
    LogAlikeRemovalsRequest = "LogAlikeRemovals";
    ImportRemovalsRequest = "ImportRemovals";
    ImportSpecificationsRequest = "ImportSpecifications";
    LogDecisionRequest = "LogDecision" etag;
    LogRefitRequest = "LogRefit";
    LogTighteningRequest = "LogTightening";
    LogNotRefittedRequest = "LogPieces";
    LogFindingRequest = "LogFinding";
    AnswerCounterpartRequest = "AnswerCounterpart";
    LogPartWantedRequest = "LogPartWanted";
    LogPartArrivalRequest = "LogPartArrival";
    AddPhotoRequest = "AddPhoto";
    CorrectEntryRequest = "CorrectEntry" etag;
    CreateLubricationRequest = "CreateCondition";
    ReviseLubricationRequest = "ReviseCondition" etag;
    WithdrawLubricationRequest = "WithdrawCondition" etag;
    CreateSpecificationRequest = "CreateSpecification";
    ReviseSpecificationRequest = "ReviseSpecification" etag;
    WithdrawSpecificationRequest = "WithdrawSpecification" etag;
    CreatePersonRequest = "CreatePerson";
    RevisePersonRequest = "RevisePerson" etag;
    WithdrawPersonRequest = "WithdrawPerson" etag;
}

/// A moment on the wire.
pub(crate) fn timestamp(moment: Moment) -> Timestamp {
    Timestamp {
        seconds: moment.0.div_euclid(1_000_000),
        // Below a thousand million by construction.
        nanos: (moment.0.rem_euclid(1_000_000) * 1_000) as i32,
    }
}

/// Who said something and when.
pub(crate) fn said(said: &Said) -> wire::Said {
    wire::Said {
        display_name: said.by.name.to_string(),
        device: said.device.to_string(),
        said_time: Some(timestamp(said.said)),
        write_time: Some(timestamp(said.written)),
        person: said
            .by
            .person
            .as_ref()
            .map(names::person)
            .unwrap_or_default(),
    }
}

/// Lower-case hexadecimal.
pub(crate) fn hex(bytes: &[u8]) -> String {
    use std::fmt::Write;
    bytes
        .iter()
        .fold(String::with_capacity(bytes.len() * 2), |mut text, byte| {
            // Writing to a String cannot fail.
            let _ = write!(text, "{byte:02x}");
            text
        })
}

/// A count on the wire.
pub(crate) fn int<N: TryInto<i32>>(count: N) -> i32 {
    count.try_into().unwrap_or(i32::MAX)
}

#[cfg(test)]
mod tests {
    use super::{fingerprint, wire};

    /// Requests written under the older names are sent again and must get their first answer.
    #[test]
    fn a_renamed_method_keeps_the_name_in_its_fingerprint() {
        let empty = |name: &str| *blake3::hash(format!("{name}\0").as_bytes()).as_bytes();
        let pieces = fingerprint(&wire::LogNotRefittedRequest::default()).hash;
        assert_eq!(pieces, empty("LogPieces"));
        let marks = fingerprint(&wire::LogMatchMarksRequest::default()).hash;
        assert_eq!(marks, empty("LogMarks"));
        let created = fingerprint(&wire::CreateLubricationRequest::default()).hash;
        assert_eq!(created, empty("CreateCondition"));
        let revised = fingerprint(&wire::ReviseLubricationRequest::default()).hash;
        assert_eq!(revised, empty("ReviseCondition"));
        let withdrawn = fingerprint(&wire::WithdrawLubricationRequest::default()).hash;
        assert_eq!(withdrawn, empty("WithdrawCondition"));
    }
}
