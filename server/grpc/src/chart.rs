//! A picture of clamp load against torque.

use crate::Validator;
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error};
use clampbook_book::refusal::Violation;
use clampbook_engine::Ask;
use clampbook_engine::quantity::TorqueUnit;

/// Draws clamp load against torque for one joint.
pub(crate) fn render(
    call: Call<'_>,
    request: wire::RenderChartRequest,
) -> Result<wire::RenderChartResponse, Error> {
    let (ask, unit, found) = ask(&request);
    let chart = call.render_chart(&ask, unit, found)?;
    Ok(wire::RenderChartResponse {
        svg: chart.svg,
        description: chart.description,
    })
}

/// The joint that is to be drawn, the unit of its torques if one was asked for, and what was found wrong so far. What is wrong with the rest, the
/// engine says.
fn ask(request: &wire::RenderChartRequest) -> (Ask<'_>, Option<TorqueUnit>, Vec<Violation>) {
    let mut check = Validator::default();
    let unit = check.word::<TorqueUnit>("torque_unit", request.torque_unit);
    let ask = check.torque_ask("ask", request.ask.as_ref());
    (ask, unit, check.into_violations())
}
