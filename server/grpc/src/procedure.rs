//! How a joint is tightened or loosened, step by step.

use crate::words::Word;
use crate::{Validator, catalogue};
use clampbook_api::v1 as wire;
use clampbook_app::procedure::cautions;
use clampbook_app::{Call, Error};
use clampbook_book::refusal::Violation;
use clampbook_book::{answers, bounds};
use clampbook_engine::Purpose;
use clampbook_engine::procedure::{After, MachineState, Plan, PlanAsk, PlannedStep, StepKind};
use clampbook_engine::quantity::{Torque, TorqueUnit};
use clampbook_engine::sequence::{Layout, MOST_POSITIONS};
use clampbook_engine::source::{Origin, UsedFor, cited};
use clampbook_engine::units::{Millimetres, NewtonMetres};

/// Lays a procedure over a joint.
pub(crate) fn plan(
    call: Call<'_>,
    request: wire::PlanTighteningRequest,
) -> Result<wire::PlanTighteningResponse, Error> {
    let (ask, found) = ask(&request);
    let plan = call.plan_tightening(ask, request.thread.trim(), found)?;
    let said = Torque::parse(&request.torque).map(|said| said.unit).ok();
    // Without a torque no step has one.
    let unit = TorqueUnit::from_wire(request.torque_unit()).or(said);
    Ok(answer(&plan, unit.unwrap_or(TorqueUnit::NewtonMetre)))
}

/// The question of a request, and what was found wrong with it so far; what is wrong with the rest, the engine says.
fn ask(request: &wire::PlanTighteningRequest) -> (PlanAsk<'_>, Vec<Violation>) {
    let mut check = Validator::default();
    check.text("procedure", &request.procedure, bounds::SHORT);
    let purpose = check.word::<Purpose>("purpose", request.purpose);
    let _ = check.word::<TorqueUnit>("torque_unit", request.torque_unit);
    let torque = check
        .torque("torque", &request.torque)
        .and_then(|said| NewtonMetres::new(said.nm).ok());
    if request.torque_published && request.torque.trim().is_empty() {
        check.wrong("torque", "is required, because it is said to be published");
    }
    let ask = PlanAsk {
        procedure: &request.procedure,
        // One position stands in for a layout that is found wrong, so that the rest is judged too.
        layout: check.any_layout(request).unwrap_or(Layout::Single),
        purpose: purpose.unwrap_or_default(),
        is_gasketed: request.gasketed,
        torque,
        torque_is_published: request.torque_published,
        back_off_degrees: request.back_off_degrees,
        pitch: None,
    };
    (ask, check.into_violations())
}

impl Validator {
    fn any_layout(&mut self, request: &wire::PlanTighteningRequest) -> Option<Layout> {
        let Ok(layout) = wire::Layout::try_from(request.layout) else {
            let number = request.layout;
            self.wrong("layout", format!("{number} is not a value of this field"));
            return None;
        };
        let is_single = matches!(layout, wire::Layout::Unspecified | wire::Layout::Single);
        let minimum = match layout {
            wire::Layout::Unspecified | wire::Layout::Single => 0,
            wire::Layout::Ring => 2,
            wire::Layout::Grid => 4,
            wire::Layout::Line => 1,
        };
        let most = if is_single { 1 } else { MOST_POSITIONS };
        let given = request.position_count;
        let count = u16::try_from(given).ok();
        let positions = count.filter(|n| (minimum..=most).contains(n));
        if positions.is_none() {
            self.wrong(
                "position_count",
                format!("is {given}, allowed here are {minimum} to {most}"),
            );
        }
        if layout != wire::Layout::Grid && request.row_count != 0 {
            self.wrong("row_count", "is for a grid only; leave it out");
        }
        let positions = positions?;
        Some(match layout {
            wire::Layout::Unspecified | wire::Layout::Single => Layout::Single,
            wire::Layout::Ring => Layout::Ring { positions },
            wire::Layout::Line => Layout::Line { positions },
            wire::Layout::Grid => return self.any_grid(request.row_count, positions),
        })
    }

    fn any_grid(&mut self, given: i32, positions: u16) -> Option<Layout> {
        let rows = u16::try_from(given)
            .ok()
            .filter(|rows| *rows >= 2 && positions.is_multiple_of(*rows) && positions / *rows >= 2);
        if rows.is_none() {
            self.wrong(
                "row_count",
                format!("is {given}, must be 2 or more and divide {positions} positions into equal rows of 2 or more"),
            );
        }
        rows.map(|rows| Layout::Grid {
            rows,
            columns: positions / rows,
        })
    }
}

/// The plan on the wire.
fn answer(plan: &Plan, unit: TorqueUnit) -> wire::PlanTighteningResponse {
    let steps = (1..).zip(&plan.steps);
    wire::PlanTighteningResponse {
        procedure: plan.procedure.id.into(),
        title: plan.procedure.title.into(),
        used_when: plan.procedure.when.into(),
        steps: steps
            .map(|(number, planned)| step(number, planned, unit))
            .collect(),
        cautions: cautions(plan).into_iter().map(Into::into).collect(),
        sources: sources(&plan.procedure.origin),
    }
}

fn step(number: i32, step: &PlannedStep, unit: TorqueUnit) -> wire::Step {
    wire::Step {
        number,
        kind: kind(step.row.kind).into(),
        text: step.row.text.into(),
        share: step.row.share,
        torque_nm: step.torque.map(NewtonMetres::get),
        angle_degrees: step.degrees,
        along_thread_mm: step.along_thread.map(Millimetres::get),
        positions: step.positions.iter().map(|p| i32::from(*p)).collect(),
        instrument: step.row.instrument.into(),
        limits: step.row.limits.into(),
        machine_state: step
            .row
            .state
            .map_or(0, |state| machine_state(state).into()),
        after: step.row.after.map_or(0, |when| after(when).into()),
        sources: sources(&step.row.origin),
        basis: catalogue::basis(step.row.origin.basis).into(),
        line: answers::step(step, unit),
    }
}

fn sources(origin: &'static Origin) -> Vec<wire::Source> {
    cited(origin, UsedFor::Procedure)
        .map(|one| catalogue::cited(&one))
        .collect()
}

const fn kind(kind: StepKind) -> wire::StepKind {
    match kind {
        StepKind::Prepare => wire::StepKind::Prepare,
        StepKind::RunIn => wire::StepKind::RunIn,
        StepKind::TorqueTo => wire::StepKind::TorqueTo,
        StepKind::TurnBy => wire::StepKind::TurnBy,
        StepKind::BackOffBy => wire::StepKind::BackOffBy,
        StepKind::Rotate => wire::StepKind::Rotate,
        StepKind::Measure => wire::StepKind::Measure,
        StepKind::AlignAndLock => wire::StepKind::AlignAndLock,
        StepKind::Mark => wire::StepKind::Mark,
        StepKind::TorqueAgain => wire::StepKind::TorqueAgain,
        StepKind::Loosen => wire::StepKind::Loosen,
    }
}

const fn machine_state(state: MachineState) -> wire::MachineState {
    match state {
        MachineState::Cold => wire::MachineState::Cold,
        MachineState::WeightOnWheels => wire::MachineState::WeightOnWheels,
        MachineState::WheelOffTheGround => wire::MachineState::WheelOffTheGround,
    }
}

const fn after(after: After) -> wire::After {
    match after {
        After::FirstHeat => wire::After::FirstHeat,
        After::Distance => wire::After::Distance,
        After::EngineHours => wire::After::EngineHours,
    }
}
