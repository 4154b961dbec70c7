//! What people say about a position, from the wire.

use crate::convert::Check;
use crate::convert::job::new_part;
use crate::convert::pieces::fitted_with;
use clampbook_api::v1 as wire;
use clampbook_book::bounds;
use clampbook_book::fact::{LengthSeen, Refitted, Removed};
use clampbook_book::ids::{JobId, PositionNumber};
use clampbook_book::words::{HeatColour, Means};
use wire::removal::LengthSeen as WireLength;

impl Check {
    /// Takes a position number; whether the joint has it is judged against the record.
    pub(crate) fn position(&mut self, field: &str, number: i32) -> Option<PositionNumber> {
        let most = bounds::POSITIONS;
        let position = PositionNumber::try_from(number)
            .ok()
            .filter(|p| (1..=most).contains(&usize::from(*p)));
        if position.is_none() {
            self.wrong(
                field,
                format!("{number} is not a position; allowed are 1 to {most}"),
            );
        }
        position
    }

    /// Takes what it took, and how hot it got.
    pub(in crate::convert) fn means(
        &mut self,
        path: &str,
        means: &[i32],
        heat_colour: i32,
    ) -> (Vec<Means>, Option<HeatColour>) {
        let means = self.word_list(&format!("{path}means"), means);
        let field = format!("{path}heat_colour");
        let colour = self.word(&field, heat_colour);
        self.heat_agrees(&field, &means, colour, heat_colour == 0);
        (means, colour)
    }

    /// Heat and its colour are said together or not at all.
    pub(in crate::convert) fn heat_agrees(
        &mut self,
        field: &str,
        means: &[Means],
        colour: Option<HeatColour>,
        unsaid: bool,
    ) {
        let heated = means.contains(&Means::Heat);
        if heated && unsaid {
            self.wrong(field, "is required when heat was used: warm, blue or red");
        } else if !heated && colour.is_some() {
            self.wrong(field, "is given, but the means do not include heat");
        }
    }
}

pub(in crate::convert) fn removed(
    check: &mut Check,
    removal: &wire::Removal,
) -> Option<(JobId, Removed)> {
    let joint = check.joint_name("removal.joint", &removal.joint);
    let position = check.position("removal.position", removal.position);
    let condition = check.required_word("removal.condition", removal.condition);
    let ticks = check.word_list("removal.ticks", &removal.ticks);
    let (means, heat_colour) = check.means("removal.", &removal.means, removal.heat_colour);
    let length = match &removal.length_seen {
        None => None,
        Some(WireLength::Length(said)) => check
            .length("removal.length", said)
            .map(LengthSeen::Measured),
        Some(WireLength::LengthCompared(word)) => check
            .required_word("removal.length_compared", *word)
            .map(LengthSeen::Compared),
    };
    let heated_place = check.text("removal.heated_place", &removal.heated_place, bounds::PLACE);
    let thread = check.text("removal.thread", &removal.thread, bounds::DESIGNATION);
    let marking = check.text("removal.marking", &removal.marking, bounds::SHORT);
    let grade = check.text("removal.grade", &removal.grade, bounds::DESIGNATION);
    let breakaway = check.torque("removal.breakaway_torque", &removal.breakaway_torque);
    let kept_in = check.text("removal.kept_in", &removal.kept_in, bounds::SHORT);
    let note = check.text("removal.note", &removal.note, bounds::NOTE);
    let assembled = check.assembled(removal);
    let (job, joint) = joint?;
    Some((
        job,
        Removed {
            joint,
            position: position?,
            condition: condition?,
            ticks,
            means,
            heat_colour,
            heated_place,
            thread,
            length,
            marking,
            grade,
            breakaway,
            kept_in,
            note,
            assembled,
        },
    ))
}

pub(in crate::convert) fn refitted(
    check: &mut Check,
    refit: &wire::Refit,
) -> Option<(JobId, Refitted)> {
    let joint = check.joint_name("refit.joint", &refit.joint);
    let position = check.position("refit.position", refit.position);
    let is_new = match wire::FittedPart::try_from(refit.fitted_part) {
        Ok(wire::FittedPart::New) => Some(true),
        Ok(wire::FittedPart::Original) => Some(false),
        Ok(wire::FittedPart::Unspecified) => {
            check.wrong("refit.fitted_part", "is required");
            None
        }
        Err(_) => {
            check.wrong(
                "refit.fitted_part",
                format!("{} is not a value of this field", refit.fitted_part),
            );
            None
        }
    };
    let new_part =
        is_new.and_then(|new| new_part(check, "refit.new_part", refit.new_part.as_ref(), new));
    let tightness = check.required_word("refit.tightness", refit.tightness);
    let reading = check.torque("refit.torque_reading", &refit.torque_reading);
    let tool = check.text("refit.tool", &refit.tool, bounds::SHORT);
    let note = check.text("refit.note", &refit.note, bounds::NOTE);
    let with = fitted_with(check, refit);
    let (job, joint) = joint?;
    is_new?;
    Some((
        job,
        Refitted {
            joint,
            position: position?,
            new_part,
            tightness: tightness?,
            reading,
            tool,
            note,
            wanted: None,
            published: None,
            with,
        },
    ))
}
