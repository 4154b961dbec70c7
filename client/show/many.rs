//! Many torques as a table for other programs.

use clampbook_api::v1::{
    ComputeTorquesResponse, ManyAnswer, ManyFault, ManyNumbers, Severity, TorqueUnit,
    many_answer::Outcome,
};

use crate::{args::Word, error::Failure};

/// The first line.
pub(crate) fn head(unit: TorqueUnit) -> String {
    let unit = match unit {
        TorqueUnit::Unspecified => TorqueUnit::NewtonMetre.word(),
        unit => unit.word(),
    };
    format!(
        "line,thread,grade,lubrication,torque ({unit}),torque_nm,clamp_load_n,minimum_clamp_load_n,maximum_clamp_load_n,\
         nut_factor,checks,assumptions,cautions,sources,error\n"
    )
}

/// The lines of a chunk, each with what was said in it before what is answered.
pub(crate) fn rows<'a>(
    said: impl Iterator<Item = &'a [String; 4]>,
    chunk: &ComputeTorquesResponse,
) -> Result<Vec<u8>, Failure> {
    let wrong = |error: &dyn std::fmt::Display| Failure::system("cannot write the table", error);
    let mut writer = csv::Writer::from_writer(Vec::new());
    for (said, answer) in said.zip(&chunk.answers) {
        let row = said.iter().cloned().chain(answered(answer, chunk));
        writer.write_record(row).map_err(|e| wrong(&e))?;
    }
    writer.into_inner().map_err(|e| wrong(&e))
}

fn answered(answer: &ManyAnswer, chunk: &ComputeTorquesResponse) -> [String; 11] {
    match &answer.outcome {
        Some(Outcome::Numbers(numbers)) => of_numbers(numbers, chunk),
        Some(Outcome::Fault(fault)) => of_fault(fault_text(fault)),
        None => of_fault("the server is newer than this program".to_owned()),
    }
}

fn of_numbers(numbers: &ManyNumbers, chunk: &ComputeTorquesResponse) -> [String; 11] {
    let text = |index: &i32| {
        let text = chunk.texts.get(*index as usize);
        text.cloned().unwrap_or_default()
    };
    let joined = |indices: &[i32]| indices.iter().map(text).collect::<Vec<_>>().join(" ");
    let checks = numbers.checks.iter().map(|check| {
        let severity = Severity::said_of(check.severity).to_uppercase();
        format!("{severity} {}", text(&check.text))
    });
    let sources = numbers.sources.iter().filter_map(|index| {
        let source = chunk.sources.get(*index as usize)?;
        Some(super::cite::in_full(source))
    });
    [
        numbers.torque_text.clone(),
        numbers.torque_nm.to_string(),
        numbers.clamp_load_n.to_string(),
        numbers.minimum_clamp_load_n.to_string(),
        numbers.maximum_clamp_load_n.to_string(),
        numbers.nut_factor.to_string(),
        checks.collect::<Vec<_>>().join(" "),
        joined(&numbers.assumptions),
        joined(&numbers.cautions),
        sources.collect::<Vec<_>>().join("; "),
        String::new(),
    ]
}

fn of_fault(why: String) -> [String; 11] {
    let mut row: [String; 11] = Default::default();
    row[10] = why;
    row
}

fn fault_text(fault: &ManyFault) -> String {
    if fault.fields.is_empty() {
        return fault.message.clone();
    }
    let fields = fault
        .fields
        .iter()
        .map(|f| format!("{}: {}", f.field, f.text));
    fields.collect::<Vec<_>>().join("; ")
}

#[cfg(test)]
#[allow(clippy::unwrap_used)] // a test may panic
mod tests {
    use super::*;
    use clampbook_api::v1::{FieldFault, ManyCheck};

    #[test]
    fn answers_and_faults_stand_in_their_lines() {
        let chunk = ComputeTorquesResponse {
            answers: vec![
                ManyAnswer {
                    outcome: Some(Outcome::Numbers(ManyNumbers {
                        torque_nm: 74.826,
                        torque_text: "74.8 N·m (55.2 lbf·ft)".to_owned(),
                        cautions: vec![0],
                        checks: vec![ManyCheck {
                            text: 1,
                            severity: Severity::Caution.into(),
                            share: 1.01,
                        }],
                        ..Default::default()
                    })),
                },
                ManyAnswer {
                    outcome: Some(Outcome::Fault(ManyFault {
                        fields: vec![FieldFault {
                            field: "thread".to_owned(),
                            text: "no such thread, \"M11\"".to_owned(),
                        }],
                        ..Default::default()
                    })),
                },
            ],
            texts: vec!["Computed.".to_owned(), "Too near.".to_owned()],
            sources: Vec::new(),
        };
        let said =
            [["2", "M10", "8.8", "dry"], ["3", "M11", "8.8", "dry"]].map(|l| l.map(String::from));
        let rows = rows(said.iter(), &chunk).unwrap();
        let shown = String::from_utf8(rows).unwrap();
        assert_eq!(
            shown,
            "2,M10,8.8,dry,74.8 N·m (55.2 lbf·ft),74.826,0,0,0,0,CAUTION Too near.,,Computed.,,\n\
             3,M11,8.8,dry,,,,,,,,,,,\"thread: no such thread, \"\"M11\"\"\"\n"
        );
        let columns = head(TorqueUnit::Unspecified).trim_end().split(',').count();
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .from_reader(shown.as_bytes());
        assert!(reader.records().all(|r| r.unwrap().len() == columns));
    }
}
