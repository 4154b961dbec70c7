//! A strip-down as comma separated text.

use super::cells;
use crate::Validator;
use crate::table::{Columns, Line, lines};
use clampbook_book::bounds;
use clampbook_book::command::ImportedRemoval;
use clampbook_book::fact::{LengthSeen, Removed};
use clampbook_book::ids::{JobId, JointId, PositionNumber};
use clampbook_book::words::{Compared, HeatColour, Method, Outcome, Tick};

/// The columns, in any order; the first three are required.
const COLUMNS: [&str; 17] = [
    "joint",
    "position",
    "outcome",
    "methods",
    "ticks",
    "heat_colour",
    "heated_place",
    "thread",
    "length",
    "head_marking",
    "grade",
    "breakaway_torque",
    "kept_in",
    "note",
    "marks",
    "stack",
    "small_parts",
];

const TABLE: Columns = Columns {
    all: &COLUMNS,
    required: 3,
    item: "removal",
};

/// The removals of the text; what is wrong is noted with line and column.
pub fn read(
    check: &mut Validator,
    job: Option<&JobId>,
    text: &str,
) -> Option<Vec<ImportedRemoval>> {
    lines(check, &TABLE, text, |line| {
        let number = line.number;
        let removed = line.removed(job)?;
        Some(ImportedRemoval {
            line: number,
            removed,
        })
    })
}

impl Line<'_> {
    fn removed(mut self, job: Option<&JobId>) -> Option<Removed> {
        let joint = self.joint(job);
        let position = self.position();
        let outcome = self.word("outcome", Outcome::ALL, Outcome::id);
        if outcome.is_none() && self.cell("outcome").is_empty() {
            self.wrong("outcome", "is required");
        }
        let methods = self.words("methods", Method::ALL, Method::id);
        let ticks = self.words("ticks", Tick::ALL, Tick::id);
        let heat_colour = self.word("heat_colour", HeatColour::ALL, HeatColour::id);
        self.within("heat_colour", |check, field| {
            check.heat_agrees(field, &methods, heat_colour, heat_colour.is_none());
        });
        let heated_place = self.text("heated_place", bounds::PLACE);
        let thread = self.text("thread", bounds::DESIGNATION);
        let length = self.length();
        let head_marking = self.text("head_marking", bounds::SHORT);
        let grade = self.text("grade", bounds::DESIGNATION);
        let said = self.cell("breakaway_torque").to_owned();
        let breakaway = self.within("breakaway_torque", |check, field| {
            check.torque(field, &said)
        });
        let kept_in = self.text("kept_in", bounds::SHORT);
        let note = self.text("note", bounds::NOTE);
        let assembled = cells::together(cells::COLUMNS.map(|column| {
            let said = self.cell(column).to_owned();
            self.within(column, |check, field| check.assembled_cell(field, &said))
        }));
        Some(Removed {
            joint: joint?,
            position: position?,
            outcome: outcome?,
            ticks,
            methods,
            heat_colour,
            heated_place,
            thread,
            length,
            head_marking,
            grade,
            breakaway,
            kept_in,
            note,
            assembled,
        })
    }

    /// A joint by its id, or by its full name in this job.
    fn joint(&mut self, job: Option<&JobId>) -> Option<JointId> {
        let said = self.cell("joint");
        let named = Validator::default().joint_name("joint", said);
        let joint = match named {
            Some((owner, joint)) => Some(joint).filter(|_| job == Some(&owner)),
            None => JointId::new(said),
        };
        if joint.is_none() {
            let why = format!("\"{said}\" is not a joint id");
            self.wrong("joint", &why);
        }
        joint
    }

    fn position(&mut self) -> Option<PositionNumber> {
        let said = self.cell("position").to_owned();
        let Ok(number) = said.parse::<i32>() else {
            let why = format!("\"{said}\" is not a whole number");
            self.wrong("position", &why);
            return None;
        };
        self.within("position", |check, field| check.position(field, number))
    }

    fn length(&mut self) -> Option<LengthSeen> {
        let said = self.cell("length").to_owned();
        if said.is_empty() {
            return None;
        }
        if let Some(word) = Compared::from_id(&said) {
            return Some(LengthSeen::Compared(word));
        }
        self.within("length", |check, field| check.length(field, &said))
            .map(LengthSeen::Measured)
    }
}
