//! Reasons of errors: what a program may act on. Texts may be reworded, a reason never changes its meaning.

/// Domain of every `google.rpc.ErrorInfo` that Clampbook sends.
pub const DOMAIN: &str = "clampbook";

macro_rules! reasons {
    ($($(#[doc = $doc:literal])+ $name:ident;)+) => {
        $($(#[doc = $doc])+ pub const $name: &str = stringify!($name);)+
        /// Every reason with what it means.
        pub const ALL: &[(&str, &str)] = &[$((stringify!($name), concat!($($doc),+))),+];
    };
}

reasons! {
    /// One or more fields are missing, malformed or out of range; `BadRequest` lists every one.
    FIELDS_INVALID;
    /// The request id was used before with other content.
    REQUEST_ID_REUSED;
    /// Nothing has that name.
    RESOURCE_NOT_FOUND;
    /// Something has that name already.
    RESOURCE_EXISTS;
    /// The record is in a state that does not allow this.
    STATE_FORBIDS;
    /// The etag is out of date: somebody has changed the record since. Read it again, then decide again.
    ETAG_STALE;
    /// No torque is computed for this purpose; only a published value or procedure may be used.
    PURPOSE_REFUSED;
    /// The caller may not do this.
    NOT_ALLOWED;
    /// The server is too busy; try again after the delay given.
    OVERLOADED;
    /// The server is starting or stopping, or cannot write; try again later.
    NOT_READY;
    /// It is not known whether the request was written; send it again with the same request id.
    OUTCOME_UNKNOWN;
    /// The call took longer than allowed.
    DEADLINE_PASSED;
    /// The message is larger than allowed.
    MESSAGE_TOO_LARGE;
    /// Something broke in the server; the incident id finds it in the log.
    BROKEN;
}
