//! Which lengths in a joint are odd: fasteners of one thread that should be alike.

/// One measured fastener.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// Its position in the joint.
    pub position: u32,
    /// Length as measured, in mm.
    pub length_mm: f64,
    /// How far the measurement may be off, in mm.
    pub uncertainty_mm: f64,
}

/// Fasteners of one length.
#[derive(Clone, Debug, PartialEq)]
pub struct LengthGroup {
    /// Mean of the measured lengths, in mm.
    pub mean_mm: f64,
    /// Their positions, ascending.
    pub positions: Vec<u32>,
}

/// What the lengths say.
#[derive(Clone, Debug, PartialEq)]
pub enum Lengths {
    /// Fewer than two fasteners were measured.
    NothingToCompare,
    /// All of one length.
    Alike(LengthGroup),
    /// More than half are of one length; the others are odd.
    Odd {
        /// The majority.
        majority: LengthGroup,
        /// The others, shortest first.
        odd: Vec<LengthGroup>,
    },
    /// Several lengths, none with more than half: a joint of two lengths, or mixed up.
    NoMajority(Vec<LengthGroup>),
}

/// Length tolerance of bolts and screws by nominal length, in mm: js17 (product grade B).
///
/// Half of IT17 of ISO 286-1, as ISO 4759-1 applies it; the last step covers anything longer.
const TOLERANCES: [(f64, f64); 13] = [
    (3.0, 0.5),
    (6.0, 0.6),
    (10.0, 0.75),
    (18.0, 0.9),
    (30.0, 1.05),
    (50.0, 1.25),
    (80.0, 1.5),
    (120.0, 1.75),
    (180.0, 2.0),
    (250.0, 2.3),
    (315.0, 2.6),
    (400.0, 2.85),
    (f64::INFINITY, 3.15),
];

/// Length tolerance of a bolt or screw, plus or minus.
///
/// * `length_mm`: nominal length, in mm
///
/// Returns the tolerance, in mm.
///
/// # Sources
/// ISO 4759-1:2000, product grade B (js17), values of ISO 286-1 (from memory).
/// # Example
/// A 45 mm bolt may be 1.25 mm longer or shorter.
/// ```
/// assert_eq!(clampbook_engine::length::standard_length_tolerance(45.0), 1.25);
/// ```
#[must_use]
pub fn standard_length_tolerance(length_mm: f64) -> f64 {
    TOLERANCES
        .iter()
        .find(|(up_to, _)| length_mm <= *up_to)
        .map_or(3.15, |(_, tolerance)| *tolerance)
}

/// Groups measured fasteners by length and finds the odd ones.
///
/// Two lengths differ when they are further apart than the pitch, than both measuring errors
/// together, and than the length tolerance of the standard. Lengths that are no positive number
/// are left out: facts are taken as said, and a length nobody can have measured says nothing.
#[must_use]
pub fn odd_lengths(measured: &[Measured], pitch_mm: f64) -> Lengths {
    let usable = |v: f64| v.is_finite() && v >= 0.0;
    // An unknown pitch excuses nothing.
    let pitch_mm = if usable(pitch_mm) { pitch_mm } else { 0.0 };
    let mut sorted: Vec<Measured> = measured
        .iter()
        .copied()
        .filter(|m| usable(m.length_mm) && m.length_mm > 0.0 && usable(m.uncertainty_mm))
        .collect();
    if sorted.len() < 2 {
        return Lengths::NothingToCompare;
    }
    sorted.sort_by(|a, b| {
        a.length_mm
            .total_cmp(&b.length_mm)
            .then(a.position.cmp(&b.position))
    });
    let mut groups = Vec::new();
    let mut rest = sorted.as_slice();
    // Each group holds what does not differ from its shortest member, so that small steps do not
    // chain a short bolt to a long one.
    while let Some(shortest) = rest.first() {
        let end = rest.iter().position(|m| differ(shortest, m, pitch_mm));
        let (alike, longer) = rest.split_at(end.unwrap_or(rest.len()));
        groups.push(group(alike));
        rest = longer;
    }
    if groups.len() == 1 {
        return Lengths::Alike(groups.remove(0));
    }
    let majority = groups
        .iter()
        .position(|g| g.positions.len() * 2 > sorted.len());
    match majority {
        Some(index) => Lengths::Odd {
            majority: groups.remove(index),
            odd: groups,
        },
        None => Lengths::NoMajority(groups),
    }
}

fn differ(shorter: &Measured, longer: &Measured, pitch_mm: f64) -> bool {
    let apart = longer.length_mm - shorter.length_mm;
    let errors = shorter.uncertainty_mm + longer.uncertainty_mm;
    apart > pitch_mm && apart > errors && apart > standard_length_tolerance(longer.length_mm)
}

fn group(alike: &[Measured]) -> LengthGroup {
    let mut positions: Vec<u32> = alike.iter().map(|m| m.position).collect();
    positions.sort_unstable();
    let sum: f64 = alike.iter().map(|m| m.length_mm).sum();
    LengthGroup {
        mean_mm: sum / alike.len() as f64,
        positions,
    }
}
