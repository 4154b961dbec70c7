//! What is lost when the faces of a joint bed in.

use crate::units::{Newtons, Stiffness};

/// How rough the faces are that settle.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Roughness {
    /// Rz below 10 µm, ground.
    Fine,
    /// Rz 10 to 40 µm, machined.
    #[default]
    Machined,
    /// Rz 40 to 160 µm, rough or as cast.
    Rough,
}

/// How much the faces settle.
///
/// fZ = thread + 2 · bearing + interfaces · inner, from the table
///
/// * `roughness`: of all faces
/// * `interfaces`: faces between clamped layers, without those under head and nut
///
/// Returns the settling, in mm.
///
/// # Range
/// Tension or compression along the bolt, steel-like metals; gaskets and paint settle far more.
/// # Sources
/// VDI 2230 part 1 (2003), table 5 (from memory).
/// # Example
/// Machined faces, one interface: 3 + 2 · 3 + 2 = 11 µm.
/// ```
/// # use clampbook_engine::stretch::settling::{Roughness, settling};
/// assert!((settling(Roughness::Machined, 1) - 0.011).abs() < 1e-12);
/// ```
#[must_use]
pub fn settling(roughness: Roughness, interfaces: usize) -> f64 {
    let (bearing, inner) = match roughness {
        Roughness::Fine => (2.5, 1.5),
        Roughness::Machined => (3.0, 2.0),
        Roughness::Rough => (4.0, 3.0),
    };
    (3.0 + 2.0 * bearing + interfaces as f64 * inner) / 1000.0
}

/// Clamp load lost when faces settle.
///
/// FZ = fZ/(1/kb + 1/kj)
///
/// * `settled_mm`: settling fZ, in mm
/// * `bolt`, `members`: stiffness, in N/mm
///
/// Returns the loss, in N.
///
/// # Sources
/// VDI 2230 part 1 (2003), equation 5.4/1.
/// # Example
/// 11 µm on 259 400 and 1 000 000 N/mm in line: 0.011 · 205 981 = 2266 N.
/// ```
/// # use clampbook_engine::{stretch::settling::settling_loss, units::*};
/// let loss = settling_loss(0.011, Stiffness::new(259_400.0)?, Stiffness::new(1e6)?);
/// assert!((loss.get() - 2266.0).abs() < 0.5);
/// # Ok::<(), OutOfRange>(())
/// ```
#[must_use]
pub fn settling_loss(settled_mm: f64, bolt: Stiffness, members: Stiffness) -> Newtons {
    Newtons::computed(settled_mm / (1.0 / bolt.get() + 1.0 / members.get()))
}
