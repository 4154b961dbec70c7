//! The table of questions: columns by name, in any order; what is wrong in a line stays in that line.

use clampbook_api::{
    reason,
    v1::{ComputeTorqueRequest, FieldFault, ManyFault},
};

use crate::error::Failure;

/// One line of the table.
#[derive(Debug)]
pub(super) struct Line {
    said: [String; 4],
    question: Result<ComputeTorqueRequest, ManyFault>,
}

impl Line {
    /// The question, if the line holds one.
    pub(super) fn ask(&self) -> Option<&ComputeTorqueRequest> {
        self.question.as_ref().ok()
    }

    /// Why the line holds none.
    pub(super) fn fault(&self) -> Option<&ManyFault> {
        self.question.as_ref().err()
    }

    /// Number of the line in the file, thread, grade, lubrication, as they stand there.
    pub(super) fn said(&self) -> &[String; 4] {
        &self.said
    }
}

const COLUMNS: [&str; 8] = [
    "thread",
    "grade",
    "lubrication",
    "proof_share",
    "clamp_load_n",
    "nut_factor",
    "nut_grade",
    "baked",
];

/// Reads a table.
pub(super) fn read(text: &str) -> Result<Vec<Line>, Failure> {
    let mut reader = csv::ReaderBuilder::new()
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(text.trim_start_matches('\u{feff}').as_bytes());
    let wrong = |error: csv::Error| Failure::usage(format!("the table: {error}"));
    let head = reader.headers().map_err(wrong)?.clone();
    if let Some(unknown) = head.iter().find(|name| !COLUMNS.contains(name)) {
        return Err(Failure::usage(format!(
            "the table has a column \"{unknown}\"; allowed are {}",
            COLUMNS.join(", ")
        )));
    }
    for needed in ["thread", "grade"] {
        let count = head.iter().filter(|name| *name == needed).count();
        if count != 1 {
            return Err(Failure::usage(format!(
                "the table needs one column \"{needed}\" in its first line"
            )));
        }
    }
    let place = COLUMNS.map(|name| head.iter().position(|column| column == name));
    reader
        .records()
        .map(|record| record.map(|record| line(&record, head.len(), place)))
        .collect::<Result<_, _>>()
        .map_err(wrong)
}

fn line(record: &csv::StringRecord, width: usize, place: [Option<usize>; 8]) -> Line {
    let [thread, grade, lubrication, share, load, factor, nut, baked] =
        place.map(|at| at.and_then(|at| record.get(at)).unwrap_or_default());
    let number = record.position().map_or(0, csv::Position::line);
    let mut fields = Vec::new();
    let mut fault = |field: &str, text: String| {
        fields.push(FieldFault {
            field: field.to_owned(),
            text,
        });
    };
    if record.len() > width {
        fault(
            "line",
            format!("has {} fields, the first line has {width}", record.len()),
        );
    }
    let baked = match baked {
        "" | "no" => false,
        "yes" => true,
        said => {
            fault("baked", format!("\"{said}\" must be yes, no or nothing"));
            false
        }
    };
    let mut read = |field: &str, said: &str| match said {
        "" => None,
        said => said
            .parse::<f64>()
            .map_err(|_| fault(field, format!("\"{said}\" is not a number")))
            .ok(),
    };
    let request = ComputeTorqueRequest {
        thread: thread.to_owned(),
        grade: grade.to_owned(),
        lubrication: lubrication.to_owned(),
        proof_share: read("proof_share", share),
        clamp_load_n: read("clamp_load_n", load),
        nut_factor: read("nut_factor", factor),
        nut_grade: Some(nut.to_owned()).filter(|nut| !nut.is_empty()),
        purpose: 0,
        baked,
        torque_unit: 0,
    };
    Line {
        said: [
            number.to_string(),
            thread.to_owned(),
            grade.to_owned(),
            lubrication.to_owned(),
        ],
        question: match fields.is_empty() {
            true => Ok(request),
            false => Err(ManyFault {
                reason: reason::FIELDS_INVALID.to_owned(),
                message: "the line cannot be read".to_owned(),
                fields,
            }),
        },
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)] // a test may panic
mod tests {
    use super::*;

    #[test]
    fn columns_come_in_any_order_and_most_may_be_left_out() {
        let lines =
            read("\u{feff}grade,thread,nut_factor\n8.8, M10 ,0.16\n\"SAE J429 5\",7/16-20\n");
        let lines = lines.unwrap();
        let ask = lines[0].ask().unwrap();
        assert_eq!((ask.thread.as_str(), ask.nut_factor), ("M10", Some(0.16)));
        assert_eq!(lines[1].said()[0], "3");
        assert_eq!(lines[1].ask().unwrap().nut_factor, None);
    }

    #[test]
    fn baked_is_yes_no_or_nothing() {
        let lines = read("thread,grade,baked\nM10,12.9,yes\nM10,12.9,\nM10,12.9,maybe\n").unwrap();
        assert!(lines[0].ask().unwrap().baked && !lines[1].ask().unwrap().baked);
        let fault = &lines[2].fault().unwrap().fields[0];
        assert_eq!(fault.field, "baked");
        assert!(fault.text.contains("yes, no"), "{}", fault.text);
    }

    #[test]
    fn what_is_wrong_stays_in_its_line() {
        let lines = read(
            "thread,grade,nut_factor,proof_share\nM10,8.8,much,half\nM10,8.8,0.2,\nM10,8.8,0.2,,extra\n",
        );
        let lines = lines.unwrap();
        let fields: Vec<_> = lines[0]
            .fault()
            .unwrap()
            .fields
            .iter()
            .map(|f| f.field.as_str())
            .collect();
        assert_eq!(fields, ["proof_share", "nut_factor"]);
        assert!(lines[1].ask().is_some());
        assert_eq!(lines[2].fault().unwrap().fields[0].field, "line");
    }

    proptest::proptest! {
        /// What is no table is refused whole; a line of one either asks or says what is wrong with it.
        #[test]
        fn any_text_is_read_or_refused(
            head in "(thread|grade|lubrication|proof_share|nut_factor|baked|lube)(,(thread|grade|lubrication|nut_grade|baked)){0,3}",
            body in "([\\PC\n,\"]{0,120}|(M10|7/16-20),(8.8|5)(,[0-9.eE+-]{0,9}){0,4}\n?){0,4}",
        ) {
            for text in [format!("{head}\n{body}"), body] {
                for line in read(&text).unwrap_or_default() {
                    proptest::prop_assert_ne!(line.ask().is_some(), line.fault().is_some());
                    let fields = line.fault().map(|fault| fault.fields.len());
                    proptest::prop_assert_ne!(fields, Some(0));
                }
            }
        }
    }

    #[test]
    fn a_head_that_is_wrong_is_said_before_anything_is_sent() {
        for wrong in [
            "",
            "thread\nM10\n",
            "thread,grade,lube\n",
            "thread,thread,grade\n",
        ] {
            assert!(read(wrong).is_err(), "{wrong:?}");
        }
    }
}
