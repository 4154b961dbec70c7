//! Reasons of errors: what a program may act on. Texts may be reworded, a reason never changes its meaning.

macro_rules! reasons {
    ($($(#[doc = $doc:literal])+ $reason:ident = $name:literal;)+) => {
        /// Why an operation did not succeed.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
        pub enum Reason { $($(#[doc = $doc])+ $reason),+ }

        impl Reason {
            /// Every reason.
            pub const ALL: &[Self] = &[$(Self::$reason),+];

            /// Its name, as programs read it.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$reason => $name),+ }
            }
        }
    };
}

reasons! {
    /// One or more fields are missing, malformed or out of range.
    FieldsInvalid = "FIELDS_INVALID";
    /// The request id was used before for another content.
    RequestIdReused = "REQUEST_ID_REUSED";
    /// Nothing has that name.
    ResourceNotFound = "RESOURCE_NOT_FOUND";
    /// Something has that name already.
    ResourceExists = "RESOURCE_EXISTS";
    /// The record is in a state that does not allow this.
    StateForbids = "STATE_FORBIDS";
    /// The etag is stale: somebody wrote in between.
    EtagStale = "ETAG_STALE";
    /// No torque is computed for this purpose.
    PurposeRefused = "PURPOSE_REFUSED";
    /// The caller may not do this.
    NotAllowed = "NOT_ALLOWED";
    /// There is more to do than can be queued.
    Overloaded = "OVERLOADED";
    /// The service is starting or stopping, or cannot write.
    NotReady = "NOT_READY";
    /// It is not known whether the request was written.
    OutcomeUnknown = "OUTCOME_UNKNOWN";
    /// The call took longer than allowed.
    DeadlinePassed = "DEADLINE_PASSED";
    /// The message is larger than allowed.
    MessageTooLarge = "MESSAGE_TOO_LARGE";
    /// Something broke; the incident id finds it in the log.
    Broken = "BROKEN";
}
