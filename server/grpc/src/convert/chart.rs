//! The picture's request and answer.

use super::{Check, published};
use clampbook_api::v1 as wire;
use clampbook_book::refusal::Violation;
use clampbook_engine::Ask;
use clampbook_engine::quantity::TorqueUnit;
use clampbook_paper::chart::Chart;

/// The joint that is to be drawn, the unit of its torques, and what was found wrong so far. What is wrong with the rest, the
/// engine says.
pub(crate) fn ask(request: &wire::RenderChartRequest) -> (Ask<'_>, TorqueUnit, Vec<Violation>) {
    let mut check = Check::default();
    let unit = published::unit(&mut check, "torque_unit", request.torque_unit);
    let ask = check.torque_ask("ask", request.ask.as_ref());
    (ask, unit, check.into_violations())
}

/// The picture on the wire.
pub(crate) fn answer(chart: Chart) -> wire::RenderChartResponse {
    wire::RenderChartResponse {
        svg: chart.svg,
        description: chart.description,
    }
}
