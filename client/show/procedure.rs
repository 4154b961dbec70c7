//! A procedure, step by step.

use clampbook_api::v1::{After, MachineState, PlanTighteningResponse, Step, StepKind, TorqueUnit};

use super::{
    cite::sources,
    quantity::{at_most, torque},
    text::{paragraph, paragraphs, strong, wrap},
};
use crate::args::Word;

/// The title, then one paragraph a step.
pub(crate) fn answer(plan: &PlanTighteningResponse, unit: TorqueUnit) -> String {
    let mut shown = format!(
        "{}   {}\n{}\n\n",
        strong(&plan.title),
        plan.procedure,
        plan.used_when
    );
    for step in &plan.steps {
        let first = format!("{:>2}  ", step.number);
        shown.push_str(&wrap(&first, 4, &one(step, unit)));
    }
    shown.push('\n');
    shown.push_str(&paragraphs("Mind", &plan.cautions));
    shown.push_str(&sources(&plan.sources));
    if plan.sources.is_empty() {
        shown.push_str(&paragraph("Sources", "Common practice."));
    }
    shown
}

fn one(step: &Step, unit: TorqueUnit) -> String {
    let mut said = StepKind::said_of(step.kind).to_uppercase();
    if let Some(share) = step.share {
        said.push_str(&format!(" {} %", at_most(0, share * 100.0)));
    }
    if let Some(nm) = step.torque_nm {
        said.push_str(&format!(" {}", torque(nm, unit)));
    }
    if let Some(degrees) = step.angle_degrees {
        said.push_str(&format!(" {}°", at_most(1, degrees)));
    }
    if let Some(way) = step.along_thread_mm {
        said.push_str(&format!(" ({} mm along the thread)", at_most(3, way)));
    }
    if step.after() != After::Unspecified {
        said.push_str(&format!(", after {}", step.after().said()));
    }
    if step.machine_state() != MachineState::Unspecified {
        said.push_str(&format!(", {}", step.machine_state().said()));
    }
    said.push_str(&format!(": {}", step.text));
    if !step.positions.is_empty() {
        let order: Vec<String> = step.positions.iter().map(ToString::to_string).collect();
        said.push_str(&format!(" Order {}.", order.join(" ")));
    }
    match (step.instrument.as_str(), step.limits.as_str()) {
        ("", "") => {}
        (instrument, "") => said.push_str(&format!(" With {instrument}.")),
        ("", limits) => said.push_str(&format!(" Limits: {limits}.")),
        (instrument, limits) => {
            said.push_str(&format!(" With {instrument}; limits: {limits}."));
        }
    }
    said
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::text::{Look, finish};
    use insta::assert_snapshot;

    #[test]
    fn a_step_says_what_how_much_in_which_order_and_with_what() {
        let plan = PlanTighteningResponse {
            procedure: "staged".to_owned(),
            title: "70 % then full".to_owned(),
            used_when: "Several positions.".to_owned(),
            steps: vec![
                Step {
                    number: 1,
                    kind: StepKind::TorqueTo.into(),
                    text: "First pass.".to_owned(),
                    share: Some(0.7),
                    torque_nm: Some(63.0),
                    positions: vec![1, 3, 2, 4],
                    instrument: "torque wrench".to_owned(),
                    machine_state: MachineState::Cold.into(),
                    ..Default::default()
                },
                Step {
                    number: 2,
                    kind: StepKind::Measure.into(),
                    text: "End play.".to_owned(),
                    instrument: "dial indicator".to_owned(),
                    limits: "maker's limits".to_owned(),
                    after: After::Distance.into(),
                    ..Default::default()
                },
            ],
            ..Default::default()
        };
        let shown = finish(&answer(&plan, TorqueUnit::NewtonMetre), Look::default());
        assert_snapshot!(shown, @r"
        70 % then full   staged
        Several positions.

         1  TORQUE TO 70 % 63 N·m (46.5 lbf·ft), cold: First pass. Order 1 3 2 4. With
            torque wrench.
         2  MEASURE, after distance: End play. With dial indicator; limits: maker's
            limits.

        Sources      Common practice.
        ");
    }
}
