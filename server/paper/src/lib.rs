//! The reassembly sheet on terminal and paper: a pure view of [`clampbook_book::sheet::Sheet`].
//!
//! [`chart::render`] draws clamp load against torque for one answer of the engine.
//! [`text::render`] gives 80 columns for terminal and printer, [`csv::render`] one row a position for table programs.

pub mod chart;
pub mod csv;
pub mod text;
