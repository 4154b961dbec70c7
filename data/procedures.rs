//! Rows of lock nuts and of procedures.

use crate::Origin;

/// How a lock nut grips.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum LockNutKind {
    /// The table makes no difference.
    Any,
    /// Deformed metal.
    AllMetal,
    /// Insert of nylon or the like.
    Insert,
}

/// Minimum prevailing torque of a lock nut that is used again.
#[derive(Debug, PartialEq)]
pub struct LockNutRow {
    /// Short id.
    pub id: &'static str,
    /// Nominal size as said: `7/16`.
    pub size: &'static str,
    /// Threads per inch; absent where the table holds for any pitch.
    pub threads_per_inch: Option<f64>,
    /// Which nuts it holds for.
    pub nut: LockNutKind,
    /// Minimum prevailing torque, in lbf·in.
    pub minimum_lbf_in: f64,
    /// Where it comes from.
    pub origin: Origin,
}

/// Whose values a procedure takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Values {
    /// No torque at all.
    None,
    /// The torque asked for, computed or published.
    Asked,
    /// A published torque only.
    Published,
    /// Several values of the maker; none of ours is put in.
    Makers,
}

/// What a step does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum StepKind {
    /// Makes ready.
    Prepare,
    /// Runs in by hand.
    RunIn,
    /// Tightens to a torque.
    TorqueTo,
    /// Turns on by an angle.
    TurnBy,
    /// Turns back by an angle.
    BackOffBy,
    /// Turns the part that the joint holds.
    Rotate,
    /// Measures something.
    Measure,
    /// Brings a slot into line and locks.
    AlignAndLock,
    /// Marks what is done.
    Mark,
    /// Tightens once more later.
    TorqueAgain,
    /// Loosens.
    Loosen,
}

/// In which order a step goes over the positions.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Around {
    /// Not over positions.
    Nothing,
    /// In tightening order.
    TighteningOrder,
    /// One after the other as they lie.
    Round,
    /// In loosening order.
    LooseningOrder,
}

/// How the machine must stand for a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum MachineState {
    /// Cooled down.
    Cold,
    /// Standing on its wheels.
    WeightOnWheels,
    /// The wheel turns freely.
    WheelOffTheGround,
}

/// When a step is done, if later.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum After {
    /// After the first heat and cooling down.
    FirstHeat,
    /// After some distance.
    Distance,
    /// After some engine hours.
    EngineHours,
}

/// One step of a procedure.
#[derive(Debug, PartialEq)]
pub struct StepRow {
    /// What it does.
    pub kind: StepKind,
    /// Share of the full torque, where the torque is ours to give.
    pub share: Option<f64>,
    /// In which order it goes over the positions.
    pub around: Around,
    /// One or two sentences.
    pub text: &'static str,
    /// Instrument, empty where none is needed.
    pub instrument: &'static str,
    /// Limits in words, empty where there are none.
    pub limits: &'static str,
    /// How the machine must stand.
    pub state: Option<MachineState>,
    /// When it is done, if later.
    pub after: Option<After>,
    /// Where it comes from.
    pub origin: Origin,
}

/// One procedure.
#[derive(Debug, PartialEq)]
pub struct ProcedureRow {
    /// Short id.
    pub id: &'static str,
    /// Title.
    pub title: &'static str,
    /// When it is used.
    pub when: &'static str,
    /// Whose values it takes.
    pub values: Values,
    /// Ids of the purposes it is the procedure for.
    pub purposes: &'static [&'static str],
    /// Steps in order.
    pub steps: &'static [StepRow],
    /// Where it comes from.
    pub origin: Origin,
}
