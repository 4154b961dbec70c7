//! `TorqueService`.

use super::guard::Guard;
use super::many;
use crate::app::Operation;
use crate::convert::{chart, procedure, published, torque, wrench};
use clampbook_api::v1::torque_service_server::TorqueService;
use clampbook_api::v1::{
    ComputeTorqueRequest, ComputeTorqueResponse, ComputeTorquesRequest, PlanTighteningRequest,
    PlanTighteningResponse, RenderChartRequest, RenderChartResponse, RestateTorqueRequest,
    RestateTorqueResponse, SetWrenchRequest, SetWrenchResponse,
};
use tonic::{Request, Response, Status, Streaming};

pub(super) struct Torque(pub(super) Guard);

#[tonic::async_trait]
impl TorqueService for Torque {
    async fn compute_torque(
        &self,
        request: Request<ComputeTorqueRequest>,
    ) -> Result<Response<ComputeTorqueResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::ComputeTorque, request, |caller, request| {
                let (ask, found) = torque::ask_so_far(&request);
                app.compute_torque(&caller, &ask, found, torque::answer)
            })
    }

    type ComputeTorquesStream = many::Answers;

    async fn compute_torques(
        &self,
        request: Request<Streaming<ComputeTorquesRequest>>,
    ) -> Result<Response<Self::ComputeTorquesStream>, Status> {
        many::answers(&self.0, request)
    }

    async fn render_chart(
        &self,
        request: Request<RenderChartRequest>,
    ) -> Result<Response<RenderChartResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::RenderChart, request, |caller, request| {
                let (ask, unit) = chart::ask(&request)?;
                Ok(chart::answer(app.render_chart(&caller, &ask, unit)?))
            })
    }

    async fn restate_torque(
        &self,
        request: Request<RestateTorqueRequest>,
    ) -> Result<Response<RestateTorqueResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::RestateTorque, request, |caller, request| {
                let ask = published::ask(&request)?;
                Ok(published::answer(&app.restate_torque(&caller, &ask)?))
            })
    }

    async fn set_wrench(
        &self,
        request: Request<SetWrenchRequest>,
    ) -> Result<Response<SetWrenchResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::SetWrench, request, |caller, request| {
                let ask = wrench::ask(&request)?;
                let set = app.set_wrench(&caller, &ask)?;
                Ok(wrench::answer(&request, &ask, &set))
            })
    }

    async fn plan_tightening(
        &self,
        request: Request<PlanTighteningRequest>,
    ) -> Result<Response<PlanTighteningResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::PlanTightening, request, |caller, request| {
                let ask = procedure::ask(&request)?;
                let plan = app.plan_tightening(&caller, ask, request.thread.trim())?;
                Ok(procedure::answer(&plan))
            })
    }
}
