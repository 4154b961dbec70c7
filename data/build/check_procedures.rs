//! Checks of lock nuts and of procedures with their steps.

use super::{Complaint, Origin, once, read};
use crate::rows::Row;
use std::collections::BTreeSet;

pub(crate) struct LockNut {
    pub(crate) id: String,
    pub(crate) size: String,
    pub(crate) threads_per_inch: Option<f64>,
    pub(crate) nut: &'static str,
    pub(crate) minimum_lbf_in: f64,
    pub(crate) origin: Origin,
}

pub(crate) struct Step {
    pub(crate) kind: &'static str,
    pub(crate) share: Option<f64>,
    pub(crate) around: &'static str,
    pub(crate) text: String,
    pub(crate) instrument: String,
    pub(crate) limits: String,
    pub(crate) state: &'static str,
    pub(crate) after: &'static str,
    pub(crate) origin: Origin,
}

pub(crate) struct Procedure {
    pub(crate) id: String,
    pub(crate) title: String,
    pub(crate) when: String,
    pub(crate) values: &'static str,
    pub(crate) purposes: Vec<String>,
    pub(crate) steps: Vec<Step>,
    pub(crate) origin: Origin,
}

/// Reads and checks `lock_nuts.csv`.
pub(crate) fn lock_nuts(text: &str, known: &BTreeSet<&str>) -> Result<Vec<LockNut>, Complaint> {
    let columns = [
        "id",
        "size",
        "threads_per_inch",
        "nut",
        "minimum_lbf_in",
        "sources",
        "basis",
        "note",
    ];
    let mut seen = BTreeSet::new();
    let rows = read("lock_nuts.csv", text, &columns)?;
    rows.iter()
        .map(|row| {
            once(row, &mut seen, row.needed("id")?)?;
            Ok(LockNut {
                id: row.needed("id")?.to_owned(),
                size: row.needed("size")?.to_owned(),
                threads_per_inch: row.number_if_any("threads_per_inch")?,
                nut: word(
                    row,
                    "nut",
                    &[
                        ("any", "Any"),
                        ("all-metal", "AllMetal"),
                        ("insert", "Insert"),
                    ],
                )?,
                minimum_lbf_in: row.number("minimum_lbf_in")?,
                origin: Origin::of(row, known)?,
            })
        })
        .collect()
}

/// Reads and checks `procedures.csv` with its steps of `steps.csv`.
pub(crate) fn procedures(
    heads: &str,
    steps: &str,
    known: &BTreeSet<&str>,
) -> Result<Vec<Procedure>, Complaint> {
    let columns = [
        "id", "title", "when", "values", "purposes", "sources", "basis", "note",
    ];
    let mut seen = BTreeSet::new();
    let mut all: Vec<Procedure> = Vec::new();
    for row in &read("procedures.csv", heads, &columns)? {
        once(row, &mut seen, row.needed("id")?)?;
        for purpose in row.words("purposes") {
            once(row, &mut seen, &format!("purpose {purpose}"))?;
        }
        all.push(Procedure {
            id: row.needed("id")?.to_owned(),
            title: row.needed("title")?.to_owned(),
            when: row.needed("when")?.to_owned(),
            values: word(
                row,
                "values",
                &[
                    ("none", "None"),
                    ("asked", "Asked"),
                    ("published", "Published"),
                    ("maker", "Makers"),
                ],
            )?,
            purposes: row.words("purposes"),
            steps: Vec::new(),
            origin: origin(row, known)?,
        });
    }
    add_steps(&mut all, steps, known)?;
    match all.iter().find(|p| p.steps.is_empty()) {
        Some(empty) => Err(format!("steps.csv: procedure {} has no step", empty.id)),
        None => Ok(all),
    }
}

fn add_steps(
    procedures: &mut [Procedure],
    steps: &str,
    known: &BTreeSet<&str>,
) -> Result<(), Complaint> {
    let columns = [
        "procedure",
        "kind",
        "share",
        "around",
        "text",
        "instrument",
        "limits",
        "state",
        "after",
        "sources",
        "basis",
    ];
    for row in &read("steps.csv", steps, &columns)? {
        let id = row.needed("procedure")?;
        let Some(procedure) = procedures.iter_mut().find(|p| p.id == id) else {
            return Err(row.bad(format_args!("\"{id}\" is not in procedures.csv")));
        };
        let step = step(row, known)?;
        if matches!(procedure.values, "Makers" | "None") && step.share.is_some() {
            return Err(row.bad("share: this procedure takes no torque of ours"));
        }
        if step.kind == "Measure" && (step.instrument.is_empty() || step.limits.is_empty()) {
            return Err(row.bad("a measurement needs instrument and limits"));
        }
        procedure.steps.push(step);
    }
    Ok(())
}

fn step(row: &Row, known: &BTreeSet<&str>) -> Result<Step, Complaint> {
    let share = row.number_if_any("share")?;
    if share.is_some_and(|s| s > 1.0) {
        return Err(row.bad("share is above 1"));
    }
    Ok(Step {
        kind: word(
            row,
            "kind",
            &[
                ("prepare", "Prepare"),
                ("run-in", "RunIn"),
                ("torque-to", "TorqueTo"),
                ("turn-by", "TurnBy"),
                ("back-off-by", "BackOffBy"),
                ("rotate", "Rotate"),
                ("measure", "Measure"),
                ("align-and-lock", "AlignAndLock"),
                ("mark", "Mark"),
                ("torque-again", "TorqueAgain"),
                ("loosen", "Loosen"),
            ],
        )?,
        share,
        around: word(
            row,
            "around",
            &[
                ("", "Nothing"),
                ("tightening", "TighteningOrder"),
                ("round", "Round"),
                ("loosening", "LooseningOrder"),
            ],
        )?,
        text: row.needed("text")?.to_owned(),
        instrument: row.text("instrument").to_owned(),
        limits: row.text("limits").to_owned(),
        state: word(
            row,
            "state",
            &[
                ("", "None"),
                ("cold", "Some(MachineState::Cold)"),
                ("weight on wheels", "Some(MachineState::WeightOnWheels)"),
                (
                    "wheel off the ground",
                    "Some(MachineState::WheelOffTheGround)",
                ),
            ],
        )?,
        after: word(
            row,
            "after",
            &[
                ("", "None"),
                ("first heat", "Some(After::FirstHeat)"),
                ("distance", "Some(After::Distance)"),
                ("engine hours", "Some(After::EngineHours)"),
            ],
        )?,
        origin: origin(row, known)?,
    })
}

/// A fact of the trade may stand without a document; everything else cites one.
fn origin(row: &Row, known: &BTreeSet<&str>) -> Result<Origin, Complaint> {
    if row.text("sources").is_empty() && row.text("basis") == "common practice" {
        return Ok(Origin {
            sources: Vec::new(),
            basis: "CommonPractice",
            note: row.text("note").to_owned(),
        });
    }
    Origin::of(row, known)
}

/// One of the words a column allows, as its Rust name.
fn word(
    row: &Row,
    column: &str,
    allowed: &[(&str, &'static str)],
) -> Result<&'static str, Complaint> {
    let said = row.text(column);
    match allowed.iter().find(|(word, _)| *word == said) {
        Some((_, name)) => Ok(name),
        None => {
            let words: Vec<_> = allowed.iter().map(|(word, _)| *word).collect();
            Err(row.bad(format_args!(
                "{column} is \"{said}\", must be one of \"{}\"",
                words.join("\", \"")
            )))
        }
    }
}
