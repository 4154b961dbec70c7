//! Quantities as people read them: the only place that rounds a quantity and puts a unit beside it.
//!
//! | quantity | digits | unit |
//! | --- | --- | --- |
//! | torque | three figures | the one asked for, another in brackets |
//! | load | three figures | lbf beside lbf·ft and lbf·in, else kN |
//! | length | sixty-fourths of an inch, tenths of a millimetre; what is less, in thousandths and hundredths | that of the thread's family |
//! | nut factor K | two decimals | none |
//! | angle | a tenth at most | ° |
//! | stress, pressure | three figures | MPa |
//! | stress area | three figures | mm² |
//! | stiffness | three figures | kN/mm |
//! | give of a part | three figures | µm |
//! | measured change of thickness, way along a thread | thousandths at most | mm |
//! | share | a tenth at most | % |
//! | ratio | two decimals | none |
//!
//! Three figures are more than a hand wrench tells (ISO 6789: 4 or 6 %). Zeros at the end of decimals are left out, except
//! those of K and of ratios. What is needed is rounded up and what there is rounded down ([`Rounded`]), so that rounding
//! never makes too little look like enough. What a person said stays as said and does not come through here.

mod figures;
mod length;
mod load;
mod plain;
mod torque;

pub use figures::figures;
pub use length::{Rounded, dimension, length, size_range};
pub use load::{LoadUnit, load, load_range};
pub use plain::{
    angle, area, micrometres, millimetre_range, millimetres, nut_factor, percent, ratio, stiffness,
    stress,
};
pub use torque::{entered, newton_metres, number_in, setting, torque, torque_range};

#[cfg(test)]
mod tests;
