//! A torque as it is read: on a wrench in the wrench's own unit, with no more digits than its marks tell.

use crate::{
    quantity::{Torque, TorqueUnit},
    show,
    units::NewtonMetres,
};

/// Most digits behind the point that a scale is read with.
const MOST_DECIMALS: u8 = 4;

/// A torque as people read it.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// The number, rounded as it is shown.
    pub value: f64,
    /// Its unit.
    pub unit: TorqueUnit,
    /// As [`crate::show`] puts it.
    pub text: String,
}

impl Reading {
    /// On the scale of a wrench: the mark nearest to the torque.
    ///
    /// ```
    /// use clampbook_engine::{quantity::Torque, wrench::Reading};
    /// let graduation = Torque::parse("0.5 lbf·ft")?;
    /// let wanted = Torque::parse("38.4 lbf·ft")?;
    /// assert_eq!(Reading::on(&graduation, wanted.torque).text, "38.5 lbf·ft");
    /// # Ok::<(), clampbook_engine::quantity::QuantityError>(())
    /// ```
    #[must_use]
    pub fn on(graduation: &Torque, torque: NewtonMetres) -> Self {
        let steps = (torque.get() / graduation.torque.get()).round();
        let decimals = usize::from(decimals_of(graduation.entered));
        let number = format!("{:.decimals$}", steps * graduation.entered);
        let text = show::setting(&number, torque, graduation.unit);
        Self::said(&number, graduation.unit, text)
    }

    /// To the figures that torques are shown with.
    #[must_use]
    pub fn in_unit(unit: TorqueUnit, torque: NewtonMetres) -> Self {
        let number = show::figures(show::number_in(torque, unit));
        Self::said(&number, unit, show::torque(torque, unit))
    }

    fn said(number: &str, unit: TorqueUnit, text: String) -> Self {
        Self {
            // What was just printed reads back.
            value: number.parse().unwrap_or(f64::NAN),
            unit,
            text,
        }
    }
}

/// Digits behind the point of a graduation: none for 5, one for 0.5, two for 1/4.
fn decimals_of(step: f64) -> u8 {
    let whole = |decimals: &u8| {
        let scaled = step * 10_f64.powi(i32::from(*decimals));
        (0.0..=1e-6).contains(&(scaled - scaled.round()).abs())
    };
    (0..MOST_DECIMALS).find(whole).unwrap_or(MOST_DECIMALS)
}
