//! Answers as protobuf JSON: field names of the contract, default values printed, 64-bit integers as text.

use clampbook_api::{FILE_DESCRIPTOR_SET, v1};
use prost_reflect::{DescriptorPool, DynamicMessage, SerializeOptions};
use serde_json::{Serializer, ser::Formatter};

use crate::error::Failure;

/// A message that is printed as JSON.
pub(crate) trait Wire: prost::Message {
    /// Full name in the contract.
    const NAME: &'static str;
}

macro_rules! wire {
    ($($message:ident)+) => {
        $(impl Wire for v1::$message {
            const NAME: &'static str = concat!("clampbook.v1.", stringify!($message));
        })+

        #[cfg(test)]
        pub(crate) const NAMES: &[&str] = &[$(<v1::$message as Wire>::NAME),+];
    };
}

wire! {
    AddPhotoResponse
    AlignCastellatedNutResponse
    AnswerCounterpartResponse
    Assembly
    CheckJointResponse
    CheckReplacementResponse
    ComputeLongFormTorqueResponse
    ComputeStretchResponse
    ComputeTorqueResponse
    ComputeTorquesResponse
    Lubrication
    CorrectEntryResponse
    Entry
    ExportSpecificationsResponse
    FitLengthResponse
    GetEffectiveValueResponse
    IdentifyGradeResponse
    IdentifySpannerResponse
    IdentifyThreadResponse
    ImportRemovalsResponse
    ImportSpecificationsResponse
    Job
    Joint
    ListLubricationsResponse
    ListEntriesResponse
    ListFlagsResponse
    ListGradesResponse
    ListAcrossFlatsResponse
    ListJobsResponse
    ListJointsResponse
    ListLookAlikesResponse
    ListNutGradesResponse
    ListParentMetalsResponse
    ListPartsToOrderResponse
    ListPeopleResponse
    ListPositionHistoryResponse
    ListPublishedTargetsResponse
    ListPublishedTorquesResponse
    ListRulesResponse
    ListSpecificationUsesResponse
    ListSpecificationsResponse
    ListThreadsResponse
    ListWaitsResponse
    LogAlikeRemovalsResponse
    LogDecisionResponse
    LogFindingResponse
    LogMatchMarksResponse
    LogPartArrivalResponse
    LogPartWantedResponse
    LogNotRefittedResponse
    LogRefitResponse
    LogRemovalResponse
    LogTighteningResponse
    Person
    Photo
    PlanTighteningResponse
    RestateTorqueResponse
    Rule
    SearchJobsResponse
    SetWrenchResponse
    Sheet
    Specification
    Thread
}

/// One object over several lines, for an answer.
pub(crate) fn pretty<M: Wire>(message: &M) -> Result<Vec<u8>, Failure> {
    let mut text = Vec::new();
    write(message, Serializer::pretty(&mut text))?;
    text.push(b'\n');
    Ok(text)
}

/// One object in one line, for an item of a stream.
pub(crate) fn line<M: Wire>(message: &M) -> Result<Vec<u8>, Failure> {
    let mut text = Vec::new();
    write(message, Serializer::new(&mut text))?;
    text.push(b'\n');
    Ok(text)
}

fn write<M: Wire, F: Formatter>(
    message: &M,
    mut serializer: Serializer<&mut Vec<u8>, F>,
) -> Result<(), Failure> {
    let options = SerializeOptions::new()
        .use_proto_field_name(true)
        .skip_default_fields(false)
        .stringify_64_bit_integers(true);
    dynamic(message)?
        .serialize_with_options(&mut serializer, &options)
        .map_err(|error| Failure::system("cannot write the answer as JSON", &error))
}

/// The message with its field names. Reading the contract takes longer than a call, so only JSON pays for it.
fn dynamic<M: Wire>(message: &M) -> Result<DynamicMessage, Failure> {
    let broken = "the contract inside this program is damaged";
    let pool = pool().map_err(|error| Failure::system(broken, error))?;
    let descriptor = pool
        .get_message_by_name(M::NAME)
        .ok_or_else(|| Failure::system(broken, &M::NAME))?;
    let mut dynamic = DynamicMessage::new(descriptor);
    dynamic
        .transcode_from(message)
        .map_err(|error| Failure::system(broken, &error))?;
    Ok(dynamic)
}

fn pool() -> Result<&'static DescriptorPool, &'static prost_reflect::DescriptorError> {
    static POOL: std::sync::LazyLock<Result<DescriptorPool, prost_reflect::DescriptorError>> =
        std::sync::LazyLock::new(|| DescriptorPool::decode(FILE_DESCRIPTOR_SET));
    POOL.as_ref()
}

#[cfg(test)]
mod tests {
    use serde_json::{Value, json};

    use super::*;

    fn read(text: Vec<u8>) -> Value {
        serde_json::from_slice(&text).expect("valid JSON")
    }

    #[test]
    fn every_message_printed_is_in_the_contract() {
        let pool = pool().expect("a sound contract");
        for name in NAMES {
            assert!(pool.get_message_by_name(name).is_some(), "{name}");
        }
    }

    #[test]
    fn defaults_are_printed_under_the_contracts_own_field_names() {
        let answer = v1::ComputeTorqueResponse {
            torque_nm: 91.5,
            scatter: Some(v1::Scatter::default()),
            ..Default::default()
        };
        let json = read(pretty(&answer).expect("JSON"));
        assert_eq!(json["torque_nm"], json!(91.5));
        assert_eq!(json["clamp_load_n"], json!(0.0));
        assert_eq!(json["governed_by"], json!(""));
        assert_eq!(json["cautions"], json!([]));
        assert_eq!(
            json["scatter"],
            json!({"minimum_clamp_load_n": 0.0, "maximum_clamp_load_n": 0.0, "relative_scatter": 0.0, "text": ""})
        );
    }

    #[test]
    fn absence_enums_times_and_large_numbers_follow_protobuf_json() {
        let entry = v1::Entry {
            sequence: 9_007_199_254_740_993,
            said: Some(v1::Said {
                said_time: Some(prost_types::Timestamp {
                    seconds: 1_795_600_000,
                    nanos: 0,
                }),
                ..Default::default()
            }),
            ..Default::default()
        };
        let text = line(&entry).expect("JSON");
        assert_eq!(text.iter().filter(|byte| **byte == b'\n').count(), 1);
        let json = read(text);
        assert_eq!(json["sequence"], json!("9007199254740993"));
        assert_eq!(json["said"]["said_time"], json!("2026-11-25T09:46:40Z"));

        let joint = v1::Joint {
            layout: v1::Layout::Ring.into(),
            target: Some(v1::JointTarget::default()),
            ..Default::default()
        };
        let json = read(pretty(&joint).expect("JSON"));
        assert_eq!(json["layout"], json!("LAYOUT_RING"));
        assert!(
            json["target"].get("proof_share").is_none(),
            "absent stays absent"
        );
    }
}
