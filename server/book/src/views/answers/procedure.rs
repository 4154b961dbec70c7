//! A step of a procedure, laid over a joint.

use clampbook_engine::procedure::{After, MachineState, PlannedStep, StepKind};
use clampbook_engine::quantity::TorqueUnit;
use clampbook_engine::show;
use clampbook_engine::units::Degrees;

/// The whole step: what, how much, when, in which order, with what and within which limits.
#[must_use]
pub fn step(step: &PlannedStep, unit: TorqueUnit) -> String {
    let row = &step.row;
    let degrees = step.degrees.and_then(|degrees| Degrees::new(degrees).ok());
    let along = step.along_thread.map(|way| {
        let way = show::millimetres(way.get());
        format!("({way} along the thread)")
    });
    let amount = [
        row.share.map(show::percent),
        step.torque.map(|torque| show::torque(torque, unit)),
        degrees.map(show::angle),
        along,
    ];
    let mut said = kind(row.kind).to_owned();
    for one in amount.into_iter().flatten() {
        said.push_str(&format!(" {one}"));
    }
    let when = [
        row.after.map(|when| format!("after {}", after(when))),
        row.state.map(|state| machine_state(state).to_owned()),
    ];
    for one in when.into_iter().flatten() {
        said.push_str(&format!(", {one}"));
    }
    said.push_str(&format!(": {}", row.text));
    if !step.positions.is_empty() {
        let order: Vec<String> = step.positions.iter().map(ToString::to_string).collect();
        said.push_str(&format!(" Order {}.", order.join(" ")));
    }
    match (row.instrument, row.limits) {
        ("", "") => {}
        (instrument, "") => said.push_str(&format!(" With {instrument}.")),
        ("", limits) => said.push_str(&format!(" Limits: {limits}.")),
        (instrument, limits) => said.push_str(&format!(" With {instrument}; limits: {limits}.")),
    }
    said
}

const fn kind(kind: StepKind) -> &'static str {
    match kind {
        StepKind::Prepare => "PREPARE",
        StepKind::RunIn => "RUN IN",
        StepKind::TorqueTo => "TORQUE TO",
        StepKind::TurnBy => "TURN BY",
        StepKind::BackOffBy => "BACK OFF BY",
        StepKind::Rotate => "ROTATE",
        StepKind::Measure => "MEASURE",
        StepKind::AlignAndLock => "ALIGN AND LOCK",
        StepKind::Mark => "MARK",
        StepKind::TorqueAgain => "TORQUE AGAIN",
        StepKind::Loosen => "LOOSEN",
    }
}

const fn machine_state(state: MachineState) -> &'static str {
    match state {
        MachineState::Cold => "cold",
        MachineState::WeightOnWheels => "weight on wheels",
        MachineState::WheelOffTheGround => "wheel off the ground",
    }
}

const fn after(after: After) -> &'static str {
    match after {
        After::FirstHeat => "first heat",
        After::Distance => "distance",
        After::EngineHours => "engine hours",
    }
}
