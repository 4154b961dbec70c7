//! Specifications as comma separated text: what is written reads back as it was.

use super::{SaidSpecification, SaidStep};
use crate::table::{Columns, Line, lines};
use crate::{Error, Validator};
use clampbook_book::command::ImportedSpecification;
use clampbook_book::fact::{SaidTorque, SpecificationStated, SpecifiedStep};
use clampbook_book::ids::SpecificationId;
use clampbook_book::judge::wrong_lines;
use clampbook_book::shop::Shop;
use clampbook_engine::Purpose;

/// The columns, in any order; the first five are required.
const COLUMNS: [&str; 12] = [
    "id",
    "display_name",
    "thread",
    "steps",
    "citation",
    "grade",
    "lubrication",
    "purpose",
    "minimum_torque",
    "maximum_torque",
    "unit_confirmed",
    "note",
];

const TABLE: Columns = Columns {
    all: &COLUMNS,
    required: 5,
    item: "specification",
};

/// Signs that a table program takes a cell for a formula by, and the quote that keeps it a text.
const GUARDED: [char; 5] = ['=', '+', '-', '@', '\''];

/// The specifications of the text; what is wrong is noted with line and column.
///
/// Lines that can be read are judged where they are written; if others cannot, what is wrong with any is told at once.
pub fn read(check: &mut Validator, text: &str, shop: &Shop) -> Vec<ImportedSpecification> {
    let lines = lines(check, &TABLE, text, |mut line| {
        let stated = specification(&mut line)?;
        Some(ImportedSpecification {
            line: line.number,
            stated,
        })
    });
    let lines = lines.unwrap_or_default();
    if check.count() > 0 {
        check.extend(wrong_lines(shop, &lines));
    }
    lines
}

fn specification(line: &mut Line<'_>) -> Option<SpecificationStated> {
    let cell = |column: &str| unguarded(line.cell(column)).to_owned();
    let [id, display_name, thread, citation, grade, lubrication] = [
        "id",
        "display_name",
        "thread",
        "citation",
        "grade",
        "lubrication",
    ]
    .map(cell);
    let [minimum_torque, maximum_torque, note, said_steps] =
        ["minimum_torque", "maximum_torque", "note", "steps"].map(cell);
    let steps = steps(line, &said_steps);
    let purpose = line.word("purpose", &Purpose::ALL, Purpose::id);
    let unit_confirmed = yes(line, "unit_confirmed");
    let said = SaidSpecification {
        display_name: &display_name,
        thread: &thread,
        grade: &grade,
        lubrication: &lubrication,
        purpose,
        steps: steps?,
        minimum_torque: &minimum_torque,
        maximum_torque: &maximum_torque,
        citation: &citation,
        unit_confirmed: unit_confirmed?,
        note: &note,
    };
    line.message("specification.", |check| {
        let id = check.new_id("id", &id, SpecificationId::new);
        check.specification(id, &said)
    })
}

/// Torques and angles between semicolons: `40 N·m; 90 deg`.
fn steps<'s>(line: &mut Line<'_>, cell: &'s str) -> Option<Vec<SaidStep<'s>>> {
    let items = cell
        .split(';')
        .map(str::trim)
        .filter(|item| !item.is_empty());
    items
        .map(
            |item| match item.strip_suffix("deg").or_else(|| item.strip_suffix('°')) {
                None => Some(SaidStep::Torque(item)),
                Some(number) => {
                    let degrees = number.trim().parse();
                    let why = |_| format!("\"{item}\" is not an angle like 90 deg");
                    degrees
                        .map(SaidStep::TurnDegrees)
                        .map_err(|e| line.wrong("steps", &why(e)))
                        .ok()
                }
            },
        )
        .collect()
}

/// Takes a cell that says yes or no; empty is no.
fn yes(line: &mut Line<'_>, column: &str) -> Option<bool> {
    let said = line.cell(column).to_lowercase();
    match said.as_str() {
        "yes" => Some(true),
        "no" | "" => Some(false),
        _ => {
            line.wrong(
                column,
                &format!("\"{said}\" is not known; allowed are yes and no"),
            );
            None
        }
    }
}

/// The specifications as such a text, with its header line.
///
/// # Errors
/// When the text cannot be put together, which only a failing allocation can cause.
pub fn write<'s>(all: impl Iterator<Item = &'s SpecificationStated>) -> Result<String, Error> {
    text_of(all).map_err(|why| Error::broken(&why))
}

fn text_of<'s>(
    all: impl Iterator<Item = &'s SpecificationStated>,
) -> Result<String, Box<dyn std::error::Error + Send + Sync>> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(COLUMNS)?;
    for stated in all {
        writer.write_record(cells(stated).map(guarded))?;
    }
    let bytes = writer.into_inner().map_err(|e| e.into_error())?;
    Ok(String::from_utf8(bytes)?)
}

fn cells(stated: &SpecificationStated) -> [String; COLUMNS.len()] {
    let torque = |torque: &Option<SaidTorque>| {
        torque
            .as_ref()
            .map_or_else(String::new, |torque| torque.said.clone())
    };
    let steps: Vec<String> = stated.steps.iter().map(step).collect();
    let yes = if stated.unit_confirmed { "yes" } else { "" };
    [
        stated.specification.to_string(),
        stated.display_name.clone(),
        stated.thread.clone(),
        steps.join("; "),
        stated.citation.clone(),
        stated.grade.clone(),
        stated.lubrication.clone(),
        stated.purpose.clone(),
        torque(&stated.minimum),
        torque(&stated.maximum),
        yes.to_owned(),
        stated.note.clone(),
    ]
}

fn step(step: &SpecifiedStep) -> String {
    match step {
        SpecifiedStep::Torque(torque) => torque.said.clone(),
        SpecifiedStep::TurnDegrees(degrees) => format!("{degrees} deg"),
    }
}

fn guarded(cell: String) -> String {
    if cell.starts_with(GUARDED) {
        format!("'{cell}")
    } else {
        cell
    }
}

fn unguarded(cell: &str) -> &str {
    cell.strip_prefix('\'')
        .filter(|rest| rest.starts_with(GUARDED))
        .unwrap_or(cell)
}

#[cfg(test)]
mod tests {
    use super::{guarded, read, write};
    use crate::Validator;
    use clampbook_book::fact::{SaidTorque, SpecificationStated, SpecifiedStep};
    use clampbook_book::ids::SpecificationId;
    use clampbook_book::shop::Shop;
    use clampbook_engine::Purpose;
    use clampbook_engine::quantity::Torque;
    use proptest::prelude::*;

    /// Printed text as the record keeps it: composed, without blanks at its ends.
    fn text(most: usize) -> impl Strategy<Value = String> {
        proptest::collection::vec(
            proptest::sample::select(vec![
                'a', 'B', '7', ' ', ',', ';', '"', '\'', '=', '+', '-', '@', '\n', '°', '·', 'é',
                '#',
            ]),
            0..most,
        )
        .prop_map(|chars| chars.into_iter().collect::<String>().trim().to_owned())
    }

    fn filled(most: usize) -> impl Strategy<Value = String> {
        text(most).prop_map(|text| format!("x{text}"))
    }

    fn torque() -> impl Strategy<Value = SaidTorque> {
        let unit = proptest::sample::select(vec!["N·m", "lbf·ft", "lbf·in", "kgf·m"]);
        (1_u32..5_000, unit).prop_map(|(number, unit)| {
            let said = format!("{} {unit}", f64::from(number) / 8.0);
            let nm = Torque::parse(&said).expect("a torque").torque.get();
            SaidTorque { said, nm }
        })
    }

    fn step() -> impl Strategy<Value = SpecifiedStep> {
        prop_oneof![
            torque().prop_map(SpecifiedStep::Torque),
            (0.001..720.0).prop_map(SpecifiedStep::TurnDegrees),
        ]
    }

    prop_compose! {
        fn specification()(
            id in "[a-z][a-z0-9]{0,20}",
            display_name in filled(20),
            thread in filled(10),
            grade in text(10),
            lubrication in text(10),
            purpose in proptest::sample::select(Purpose::ALL.to_vec()),
            steps in proptest::collection::vec(step(), 1..10),
            minimum in proptest::option::of(torque()),
            maximum in proptest::option::of(torque()),
            citation in filled(40),
            unit_confirmed: bool,
            note in text(60),
        ) -> SpecificationStated {
            SpecificationStated {
                specification: SpecificationId::new(&id).expect("a slug"),
                revision: 0,
                display_name,
                thread,
                grade,
                lubrication,
                purpose: purpose.id().into(),
                steps,
                minimum,
                maximum,
                citation,
                unit_confirmed,
                note,
            }
        }
    }

    proptest! {
        #[test]
        fn what_is_written_reads_back_as_it_was(
            all in proptest::collection::vec(specification(), 1..5),
        ) {
            let text = write(all.iter()).expect("it can be written");
            let mut check = Validator::default();
            let lines = read(&mut check, &text, &Shop::default());
            prop_assert_eq!(check.into_violations(), []);
            let back: Vec<_> = lines.into_iter().map(|line| line.stated).collect();
            prop_assert_eq!(back, all);
        }
    }

    #[test]
    fn no_cell_is_a_formula() {
        for cell in ["=1+1", "+1", "-1", "@x", "'=1"] {
            assert_eq!(guarded(cell.into()), format!("'{cell}"));
        }
        assert_eq!(guarded("7/16-20".into()), "7/16-20");
    }

    #[test]
    fn what_is_wrong_is_named_with_line_and_column() {
        let text = "id,display_name,thread,steps,citation,purpose,unit_confirmed\n\
                    good,Plate,M10,40 N·m; 90 deg,p. 1,,\n\
                    BAD,,M10,40 stone; round deg,p. 1,dancing,maybe\n\
                    worse,Plate,M10,40 N·m; 9 stone,,,\n";
        let mut check = Validator::default();
        read(&mut check, text, &Shop::default());
        let wrong: Vec<String> = check
            .into_violations()
            .into_iter()
            .map(|one| format!("{}: {}", one.field, one.wrong))
            .collect();
        let begins = |words: &str| wrong.iter().any(|one| one.starts_with(words));
        for words in [
            "csv: line 3, column steps: \"round deg\" is not an angle",
            "csv: line 3, column purpose: \"dancing\" is not known",
            "csv: line 3, column unit_confirmed: \"maybe\" is not known",
            "csv: line 4, column steps: item 2: ",
            "csv: line 4, column citation: is required",
        ] {
            assert!(begins(words), "{words}: {wrong:#?}");
        }
    }
}
