//! Torque from friction in thread and under the head, each on its own lever.

pub mod ask;
mod compute;

pub use ask::{LongAsk, LongQuestion, LongTarget};
pub use compute::{FrictionSpread, LongAnswer, LongGoverns, compute_long_form};

use crate::{
    geometry::stress_diameter,
    units::{Friction, Millimetres, NewtonMetres, Newtons, SquareMillimetres},
};
use std::f64::consts::PI;

/// What the turned part slides on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Seat {
    /// A flat face.
    Flat {
        /// Mean diameter of the face.
        mean_diameter: Millimetres,
    },
    /// A cone, as under many wheel nuts.
    Cone {
        /// Mean diameter of the contact.
        mean_diameter: Millimetres,
        /// Half of the cone's angle, in degrees: 30 for a 60° seat.
        half_angle_deg: f64,
    },
}

/// Torque over clamp load, part by part, in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Levers {
    /// What lifts the load up the thread.
    pub helix: f64,
    /// Friction in the thread.
    pub thread: f64,
    /// Friction under the turned part.
    pub bearing: f64,
}

impl Levers {
    /// All of it.
    #[must_use]
    pub fn total(&self) -> f64 {
        self.helix + self.thread + self.bearing
    }

    /// What twists the bolt.
    #[must_use]
    pub fn twisting(&self) -> f64 {
        self.helix + self.thread
    }
}

/// Levers of the long form.
///
/// T/F = P/(2π) + μt·d2/(2 cos α) + μb·Db/2 on a flat seat; μb·Db/(2 sin β) on a cone
///
/// * `p`, `d2`: pitch and pitch diameter, in mm; α is half of the 60° thread angle
/// * `thread`, `bearing`: coefficients of friction μt, μb
/// * `seat`: mean diameter Db, in mm, and for a cone its half angle β, in degrees
///
/// Returns the three levers, in mm.
///
/// # Range
/// 60° threads; small helix angles (single start fasteners), where the exact form differs by less
/// than 0.5 %.
/// # Sources
/// VDI 2230 part 1 (2003), equation R13/1, which prints 0.16 P + 0.58 d2 μ + DKm μ/2; the cone by
/// resolving the seat's normal force (common practice).
/// # Example
/// VDI 2230, M12 at μ 0.14, 41.9 kN: 93 N·m, of which the thread takes 48.8; 0.16 and 0.58 there are
/// 1/(2π) and 1/(2 cos 30°) rounded up, which is 0.5 %.
/// ```
/// # use clampbook_engine::{long_form::{levers, Seat}, units::*};
/// let mm = Millimetres::new;
/// let mu = Friction::new(0.14)?;
/// let seat = Seat::Flat { mean_diameter: mm(15.065)? };
/// let levers = levers(mm(1.75)?, mm(10.863)?, mu, mu, seat);
/// assert!((levers.total() * 41.9 - 93.0).abs() < 0.5);
/// assert!((levers.twisting() * 41.9 / 48.8 - 1.0).abs() < 0.01);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn levers(
    p: Millimetres,
    d2: Millimetres,
    thread: Friction,
    bearing: Friction,
    seat: Seat,
) -> Levers {
    let under = match seat {
        Seat::Flat { mean_diameter } => mean_diameter.get() / 2.0,
        Seat::Cone {
            mean_diameter,
            half_angle_deg,
        } => mean_diameter.get() / (2.0 * half_angle_deg.to_radians().sin()),
    };
    Levers {
        helix: p.get() / (2.0 * PI),
        thread: thread.get() * d2.get() / (2.0 * (PI / 6.0).cos()),
        bearing: bearing.get() * under,
    }
}

/// Which way a screw is turned against its load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turning {
    /// Raises the load, tightens.
    Tightening,
    /// Lowers the load, loosens; negative where the screw would run down by itself.
    Loosening,
}

/// Torque on a screw under load, with the helix angle kept exact.
///
/// T = F·dm/2 · (l + π f dm sec α)/(π dm − f l sec α) + F fc dc/2 for tightening;
/// T = F·dm/2 · (π f dm sec α − l)/(π dm + f l sec α) + F fc dc/2 for loosening
///
/// * `f`: load, in N
/// * `lead`, `dm`: lead and mean thread diameter, in mm
/// * `half_angle_deg`: half of the thread angle α: 0 square, 14.5 Acme, 30 for fasteners
/// * `thread`: coefficient of friction in the thread
/// * `collar`: coefficient of friction and mean diameter of the collar
///
/// Returns the torque, in N·m.
///
/// # Sources
/// Shigley, 9th ed., equations 8-1, 8-2, 8-5 and 8-6.
/// # Example
/// Published problem: 6 kN, lead 5, dm 22.5, f 0.08, fc 0.05 on 40 mm: 16.23 and 6.622 N·m.
/// ```
/// # use clampbook_engine::{long_form::{screw_torque, Turning}, units::*};
/// let mm = Millimetres::new;
/// let turn = |turning| -> Result<f64, OutOfRange> {
///     let (f, friction) = (Newtons::new(6000.0)?, Friction::new(0.08)?);
///     let collar = (Friction::new(0.05)?, mm(40.0)?);
///     Ok(screw_torque(turning, f, mm(5.0)?, mm(22.5)?, 0.0, friction, collar))
/// };
/// assert!((turn(Turning::Tightening)? - 16.23).abs() < 0.005);
/// assert!((turn(Turning::Loosening)? - 6.622).abs() < 0.0005);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn screw_torque(
    turning: Turning,
    f: Newtons,
    lead: Millimetres,
    dm: Millimetres,
    half_angle_deg: f64,
    thread: Friction,
    collar: (Friction, Millimetres),
) -> f64 {
    let slope = lead.get();
    let grip = thread.get() / half_angle_deg.to_radians().cos();
    let round = PI * dm.get();
    let thread_part = match turning {
        Turning::Tightening => (slope + grip * round) / (round - grip * slope),
        Turning::Loosening => (grip * round - slope) / (round + grip * slope),
    };
    let (friction, diameter) = collar;
    let arm = thread_part * dm.get() / 2.0 + friction.get() * diameter.get() / 2.0;
    f.get() * arm / 1000.0
}

/// Nut factor of the short form that gives the same torque.
///
/// K = (T/F)/D
///
/// * `levers`: parts of T/F, in mm
/// * `d`: nominal diameter, in mm
///
/// Returns K; it may lie outside of what lubrications have.
///
/// # Sources
/// Shigley, 9th ed., equation 8-26.
/// # Example
/// VDI 2230, M12 at μ 0.14: K 0.1847 with its rounded constants.
/// ```
/// # use clampbook_engine::{long_form::{equivalent_nut_factor, levers, Seat}, units::*};
/// let (mm, mu) = (Millimetres::new, Friction::new(0.14)?);
/// let levers = levers(mm(1.75)?, mm(10.863)?, mu, mu, Seat::Flat { mean_diameter: mm(15.065)? });
/// assert!((equivalent_nut_factor(&levers, mm(12.0)?) - 0.1847).abs() < 0.0005);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn equivalent_nut_factor(levers: &Levers, d: Millimetres) -> f64 {
    levers.total() / d.get()
}

/// Which section modulus turns twist into shear stress.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Modulus {
    /// π d0³/12: the whole section yields in shear (VDI 2230).
    Plastic,
    /// π d0³/16: the outermost fibre yields (Shigley).
    Elastic,
}

impl Modulus {
    fn of(self, d0: Millimetres) -> f64 {
        let divisor = match self {
            Self::Plastic => 12.0,
            Self::Elastic => 16.0,
        };
        PI * d0.get().powi(3) / divisor
    }
}

/// Clamp load at which tension and twist together use a share of yield while tightening.
///
/// F = ν·Re / √(1/As² + 3 (lever/W)²), W = π d0³/12 or π d0³/16
///
/// * `share`: share of yield ν
/// * `yield_mpa`: minimum yield stress Re, in MPa
/// * `area`: tensile stress area, in mm²
/// * `twisting`: lever of what twists the bolt, in mm
/// * `modulus`: which section modulus
///
/// Returns the clamp load, in N.
///
/// # Sources
/// VDI 2230 part 1 (2003), equation R7/2, with the plastic modulus.
/// # Example
/// VDI 2230, M12-8.8 at μ 0.14: 0.90 of 640 MPa is reached at 41.9 kN.
/// ```
/// # use clampbook_engine::{long_form::*, units::*};
/// let (mm, mu) = (Millimetres::new, Friction::new(0.14)?);
/// let levers = levers(mm(1.75)?, mm(10.863)?, mu, mu, Seat::Flat { mean_diameter: mm(15.065)? });
/// let area = SquareMillimetres::new(84.27)?;
/// let f = load_at_yield_share(0.90, 640.0, area, levers.twisting(), Modulus::Plastic);
/// assert!((f.get() - 41_900.0).abs() < 100.0);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn load_at_yield_share(
    share: f64,
    yield_mpa: f64,
    area: SquareMillimetres,
    twisting: f64,
    modulus: Modulus,
) -> Newtons {
    Newtons::computed(share * yield_mpa / stress_per_load(area, twisting, modulus))
}

/// Equivalent stress (von Mises) that one newton of clamp load makes while tightening.
pub(crate) fn stress_per_load(area: SquareMillimetres, twisting: f64, modulus: Modulus) -> f64 {
    let tension = 1.0 / area.get();
    let shear = twisting / modulus.of(stress_diameter(area));
    (tension * tension + 3.0 * shear * shear).sqrt()
}

/// A torque from a load and a lever.
pub(crate) fn torque(f: Newtons, lever: f64) -> NewtonMetres {
    NewtonMetres::computed(f.get() * lever / 1000.0)
}
