//! Procedures: lists of steps, made from templates for the joint at hand.
//!
//! The templates are rows of the tables. Here one is chosen, its shares become torques, and its steps are laid over the
//! positions of the joint.

use crate::{
    fault::{Fault, FaultReason},
    purpose::Purpose,
    sequence::{Layout, loosening_order, tightening_order},
    units::{Millimetres, NEWTON_METRES_PER_POUND_FORCE_FOOT, NewtonMetres, OutOfRange, within},
};
use clampbook_data::PROCEDURES;
pub use clampbook_data::{After, Around, MachineState, ProcedureRow, StepKind, StepRow, Values};

/// Torque up to which one pass will do, in N·m: 30 lbf·ft. US Army TM 5-3805-248-23-1.
pub const ONE_PASS_UP_TO_NM: f64 = 30.0 * NEWTON_METRES_PER_POUND_FORCE_FOOT;

/// What is to be tightened or loosened.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlanAsk<'a> {
    /// Id of a procedure; empty to have one chosen.
    pub procedure: &'a str,
    /// How the positions lie.
    pub layout: Layout,
    /// What the fasteners are for.
    pub purpose: Purpose,
    /// Whether a gasket lies between the parts.
    pub is_gasketed: bool,
    /// Full torque, if it is known.
    pub torque: Option<NewtonMetres>,
    /// Whether the torque is published for this joint, and not computed.
    pub torque_is_published: bool,
    /// Angle to back off by, as its maker gives it.
    pub back_off_degrees: Option<f64>,
    /// Pitch of the thread that is backed off.
    pub pitch: Option<Millimetres>,
}

/// A procedure laid over a joint.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// The template.
    pub procedure: &'static ProcedureRow,
    /// Steps in order.
    pub steps: Vec<PlannedStep>,
}

/// One step laid over a joint.
#[derive(Clone, Debug, PartialEq)]
pub struct PlannedStep {
    /// The template's step.
    pub row: &'static StepRow,
    /// Torque of this step, where it is known.
    pub torque: Option<NewtonMetres>,
    /// Angle of this step, where it is known.
    pub degrees: Option<f64>,
    /// How far that angle moves the nut along the thread.
    pub along_thread: Option<Millimetres>,
    /// Positions in the order of working; empty where the step does not go over positions.
    pub positions: Vec<u16>,
}

/// How far a nut moves along its thread when it is turned.
///
/// s = P·θ/360°
///
/// * `pitch`: in mm
/// * `degrees`: angle turned, above 0 and up to 1080°
///
/// Returns the way, in mm.
///
/// # Errors
/// An angle nobody turns.
/// # Sources
/// Definition of pitch, ISO 5408 and ASME B1.7.
/// # Example
/// TMC RP 618: a sixth of a turn at 12 threads per inch and a quarter at 18 are both 0.0139 in.
/// ```
/// # use clampbook_engine::{procedure::along_thread, units::*};
/// for (per_inch, degrees) in [(12.0, 60.0), (18.0, 90.0)] {
///     let way = along_thread(Millimetres::new(25.4 / per_inch)?, degrees)?;
///     assert!((way.get() / 25.4 - 0.0139).abs() < 0.00005);
/// }
/// # Ok::<(), OutOfRange>(())
/// ```
pub fn along_thread(pitch: Millimetres, degrees: f64) -> Result<Millimetres, OutOfRange> {
    let degrees = within("angle", degrees, (1.0, 1080.0), "degrees")?;
    Ok(Millimetres::computed(pitch.get() * degrees / 360.0))
}

/// The procedure with this id.
#[must_use]
pub fn by_id(id: &str) -> Option<&'static ProcedureRow> {
    PROCEDURES.iter().find(|p| p.id == id)
}

/// The procedure for a purpose that has one of its own; clamping is chosen by layout, gasket and torque.
#[must_use]
pub fn for_purpose(purpose: Purpose) -> Option<&'static ProcedureRow> {
    PROCEDURES
        .iter()
        .find(|p| purpose != Purpose::Clamping && p.purposes.contains(&purpose.id()))
}

/// Lays a procedure over a joint.
///
/// # Errors
/// All faults: an unknown procedure, too many positions, a torque where none of ours is put in, a computed torque where
/// only a published one may be used.
pub fn plan(ask: &PlanAsk<'_>) -> Result<Plan, Vec<Fault>> {
    let mut faults = Vec::new();
    let mut keep = |field, reason| faults.push(Fault::new(field, reason));
    let positions = ask.layout.positions();
    let positions = positions.map_err(|e| keep("layout", e.into())).ok();
    let procedure = chosen(ask).map_err(|reason| keep("procedure", reason)).ok();
    if let Some(reason) = procedure.and_then(|p| torque_refused(p, ask)) {
        keep("torque", reason);
    }
    let way = match (ask.back_off_degrees, ask.pitch) {
        (None, _) => None,
        (Some(degrees), pitch) => {
            // The angle is checked also where no pitch is known.
            let any = Millimetres::computed(1.0);
            match along_thread(pitch.unwrap_or(any), degrees) {
                Ok(way) => pitch.map(|_| way),
                Err(e) => {
                    keep("back_off_degrees", e.into());
                    None
                }
            }
        }
    };
    // A layout with too many positions was complained of above.
    let orders = Orders::of(ask.layout).ok();
    match (procedure, positions, orders) {
        (Some(procedure), Some(_), Some(orders)) if faults.is_empty() => Ok(Plan {
            procedure,
            steps: procedure
                .steps
                .iter()
                .map(|row| orders.lay(row, ask, way))
                .collect(),
        }),
        _ => Err(faults),
    }
}

fn chosen(ask: &PlanAsk<'_>) -> Result<&'static ProcedureRow, FaultReason> {
    let id = match ask.procedure.trim() {
        "" => match for_purpose(ask.purpose) {
            Some(own) => return Ok(own),
            None => usual(ask),
        },
        said => said,
    };
    by_id(id).ok_or_else(|| FaultReason::UnknownProcedure {
        given: id.to_owned(),
        known: PROCEDURES.iter().map(|p| p.id.to_owned()).collect(),
    })
}

/// The usual procedure for clamping.
fn usual(ask: &PlanAsk<'_>) -> &'static str {
    let is_small = ask.torque.is_some_and(|t| t.get() <= ONE_PASS_UP_TO_NM);
    match ask.layout {
        Layout::Single => "single-pass",
        Layout::Ring { .. } if ask.is_gasketed => "ring-gasketed",
        _ if is_small && !ask.is_gasketed => "single-pass",
        _ => "staged",
    }
}

fn torque_refused(procedure: &ProcedureRow, ask: &PlanAsk<'_>) -> Option<FaultReason> {
    ask.torque?;
    let (why, instead) = match procedure.values {
        Values::Asked => return None,
        Values::Published if ask.torque_is_published => return None,
        Values::Published => (
            "Only a torque published for this joint may be used here.",
            "If the torque is published, say so; otherwise leave it out and look it up.",
        ),
        Values::Makers => (
            "This procedure has several values, all given by its maker.",
            "Leave the torque out and take the maker's values at each step.",
        ),
        Values::None => ("Nothing is tightened here.", "Leave the torque out."),
    };
    Some(FaultReason::PurposeRefused {
        purpose: procedure.id,
        why,
        instead,
    })
}

/// Positions in the orders that steps may want.
struct Orders {
    tightening: Vec<u16>,
    round: Vec<u16>,
    loosening: Vec<u16>,
}

impl Orders {
    fn of(layout: Layout) -> Result<Self, OutOfRange> {
        let mut round = tightening_order(layout)?;
        round.sort_unstable();
        Ok(Self {
            tightening: tightening_order(layout)?,
            round,
            loosening: loosening_order(layout)?,
        })
    }

    fn lay(
        &self,
        row: &'static StepRow,
        ask: &PlanAsk<'_>,
        way: Option<Millimetres>,
    ) -> PlannedStep {
        let torque = ask.torque.zip(row.share);
        let is_back_off = row.kind == StepKind::BackOffBy;
        PlannedStep {
            row,
            torque: torque.map(|(full, share)| NewtonMetres::computed(full.get() * share)),
            degrees: ask.back_off_degrees.filter(|_| is_back_off),
            along_thread: way.filter(|_| is_back_off),
            positions: match row.around {
                Around::Nothing => Vec::new(),
                Around::TighteningOrder => self.tightening.clone(),
                Around::Round => self.round.clone(),
                Around::LooseningOrder => self.loosening.clone(),
            },
        }
    }
}
