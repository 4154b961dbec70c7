//! Flags that more than one command has.

use std::time::{Duration, SystemTime, UNIX_EPOCH};

use crate::ticket::Ticket;
use clap::Args;
use uuid::{NoContext, Timestamp, Uuid};

/// Where clampbookd listens by default.
const DEFAULT_SERVER: &str = "http://127.0.0.1:50551";

/// Flags of every command.
#[derive(Clone, Debug, Args)]
#[command(next_help_heading = "Everywhere")]
pub(crate) struct Global {
    /// Address of the server.
    #[arg(
        long,
        global = true,
        value_name = "URL",
        env = "CLAMPBOOK_SERVER",
        hide_env_values = true,
        default_value = DEFAULT_SERVER,
        value_parser = server
    )]
    pub(crate) server: String,
    /// How long one call may take, in seconds.
    #[arg(long, global = true, value_name = "SECONDS", default_value = "10", value_parser = timeout)]
    pub(crate) timeout: Duration,
    /// Print the answer as protobuf JSON with full citations; a stream is printed as one JSON object per line.
    #[arg(long, global = true)]
    pub(crate) json: bool,
    /// Never colour the output.
    #[arg(long, global = true)]
    pub(crate) no_color: bool,
    /// Your name, or your id among the people of the shop, for the record; the login name when not given.
    #[arg(
        long,
        global = true,
        value_name = "NAME",
        env = "CLAMPBOOK_PERSON",
        hide_env_values = true
    )]
    pub(crate) person: Option<String>,
    /// Which tablet or bench you use, for the record.
    #[arg(long, global = true, value_name = "NAME", default_value = "cli")]
    pub(crate) device: String,
}

/// Flags of every command that changes something.
#[derive(Clone, Debug, Args)]
pub(crate) struct Change {
    /// Id of the request, to send it again when you do not know its outcome; a new id when not given.
    #[arg(long, value_name = "UUID")]
    request_id: Option<String>,
}

impl Change {
    /// What identifies this one request, however often it is sent.
    pub(crate) fn ticket(&self) -> Ticket {
        Ticket::new(self.request_id.clone().unwrap_or_else(fresh_id))
    }
}

/// An id that comes after those before it, and is an id all the same where the clock is before 1970.
fn fresh_id() -> String {
    #[expect(
        clippy::disallowed_methods,
        reason = "the id of a request is the client's own, and nobody reads its time"
    )]
    let since = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .unwrap_or_default();
    let now = Timestamp::from_unix(NoContext, since.as_secs(), since.subsec_nanos());
    Uuid::new_v7(now).to_string()
}

/// Target and friction of a computed torque.
#[derive(Clone, Debug, Args)]
pub(crate) struct AimArgs {
    /// Share of proof load to clamp with, 0.05 to 1.00; 0.75 when not given.
    #[arg(long, value_name = "SHARE", allow_negative_numbers = true)]
    pub(crate) proof_share: Option<f64>,
    /// Target clamp load in newtons, instead of a share of proof load.
    #[arg(long, value_name = "NEWTONS", allow_negative_numbers = true)]
    pub(crate) clamp_load_n: Option<f64>,
    /// Nut factor K from your own tests, instead of the lubrication's.
    #[arg(long, value_name = "K", allow_negative_numbers = true)]
    pub(crate) nut_factor: Option<f64>,
    /// Grade of the nut; when given, the nut is checked as well.
    #[arg(long, value_name = "TEXT")]
    pub(crate) nut_grade: Option<String>,
    /// Papers show that the part was baked after plating.
    #[arg(long)]
    pub(crate) baked: bool,
}

/// Longest deadline, so that a slip of the finger does not wait for ever.
const LONGEST: Duration = Duration::from_secs(24 * 60 * 60);

fn timeout(text: &str) -> Result<Duration, String> {
    let wanted = text
        .parse()
        .ok()
        .and_then(|seconds| Duration::try_from_secs_f64(seconds).ok());
    match wanted {
        Some(wanted) if !wanted.is_zero() && wanted <= LONGEST => Ok(wanted),
        _ => Err("seconds above 0 and at most 86400, for instance 2.5".to_owned()),
    }
}

fn server(text: &str) -> Result<String, String> {
    let address = text
        .strip_prefix("http://")
        .map(|rest| rest.trim_end_matches('/'));
    match address {
        Some(address)
            if !address.is_empty()
                && tonic::transport::Endpoint::from_shared(text.to_owned()).is_ok() =>
        {
            Ok(text.to_owned())
        }
        _ => Err("an address such as http://127.0.0.1:50551".to_owned()),
    }
}

/// A torque that stands alone. What it means the server knows; but what begins with a hyphen would be taken for a flag
/// and refused in words about flags.
pub(super) fn torque(text: &str) -> Result<String, String> {
    match text.strip_prefix('-') {
        None => Ok(text.to_owned()),
        Some(_) => Err("a torque above zero with its unit, for instance \"60 lbf-ft\"".to_owned()),
    }
}
