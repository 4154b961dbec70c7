//! The picture's request and answer.

use super::{Check, published};
use crate::app::Error;
use clampbook_api::v1 as wire;
use clampbook_engine::Ask;
use clampbook_engine::quantity::TorqueUnit;
use clampbook_paper::chart::Chart;

/// The joint that is to be drawn, and the unit of its torques.
///
/// # Errors
/// No joint, a unit or a purpose that is none. What is wrong with the rest, the engine says.
pub(crate) fn ask(request: &wire::RenderChartRequest) -> Result<(Ask<'_>, TorqueUnit), Error> {
    let mut check = Check::default();
    let unit = published::unit(&mut check, "torque_unit", request.torque_unit);
    let ask = check.torque_ask("ask", request.ask.as_ref());
    Ok((check.finish(ask)?, unit))
}

/// The picture on the wire.
pub(crate) fn answer(chart: Chart) -> wire::RenderChartResponse {
    wire::RenderChartResponse {
        svg: chart.svg,
        description: chart.description,
    }
}
