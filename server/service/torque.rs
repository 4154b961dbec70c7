//! `TorqueService`.

use super::guard::Guard;
use super::many;
use crate::app::Operation;
use crate::convert::{chart, procedure, published, strength, stretch, torque, wrench};
use clampbook_api::v1::torque_service_server::TorqueService;
use clampbook_api::v1::{
    AlignCastellatedNutRequest, AlignCastellatedNutResponse, CheckJointRequest, CheckJointResponse,
    ComputeLongFormTorqueRequest, ComputeLongFormTorqueResponse, ComputeStretchRequest,
    ComputeStretchResponse, ComputeTorqueRequest, ComputeTorqueResponse, ComputeTorquesRequest,
    FitLengthRequest, FitLengthResponse, PlanTighteningRequest, PlanTighteningResponse,
    RenderChartRequest, RenderChartResponse, RestateTorqueRequest, RestateTorqueResponse,
    SetWrenchRequest, SetWrenchResponse,
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
                let (ask, found) = torque::ask(&request);
                let unit = torque::unit(&request);
                app.compute_torque(&caller, &ask, found, |question, answer| {
                    torque::answer(question, answer, unit)
                })
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
                let (ask, unit, found) = chart::ask(&request);
                Ok(chart::answer(app.render_chart(&caller, &ask, unit, found)?))
            })
    }

    async fn restate_torque(
        &self,
        request: Request<RestateTorqueRequest>,
    ) -> Result<Response<RestateTorqueResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::RestateTorque, request, |caller, request| {
                let (ask, found) = published::ask(&request)?;
                let unit = published::unit_of(&request, &ask);
                app.restate_torque(&caller, &ask, found, |found| published::answer(found, unit))
            })
    }

    async fn set_wrench(
        &self,
        request: Request<SetWrenchRequest>,
    ) -> Result<Response<SetWrenchResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::SetWrench, request, |caller, request| {
                let (ask, found) = wrench::ask(&request)?;
                let set = app.set_wrench(&caller, &ask, found)?;
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
                let (ask, found) = procedure::ask(&request);
                let plan = app.plan_tightening(&caller, ask, request.thread.trim(), found)?;
                Ok(procedure::answer(&plan))
            })
    }

    async fn compute_long_form_torque(
        &self,
        request: Request<ComputeLongFormTorqueRequest>,
    ) -> Result<Response<ComputeLongFormTorqueResponse>, Status> {
        let app = &self.0.app;
        self.0.calculate(
            Operation::ComputeLongFormTorque,
            request,
            |caller, request| {
                let (ask, found) = strength::long_form(&request);
                let unit = torque::unit_of(request.torque_unit());
                app.long_form(&caller, &ask, found, |question, answer| {
                    strength::long_form_answer(question, answer, unit)
                })
            },
        )
    }

    async fn check_joint(
        &self,
        request: Request<CheckJointRequest>,
    ) -> Result<Response<CheckJointResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::CheckJoint, request, |caller, request| {
                let layers = strength::joint_layers(&request);
                let (ask, found) = strength::joint(&request, &layers);
                let asked = request
                    .torque
                    .as_ref()
                    .map(ComputeTorqueRequest::torque_unit);
                let unit = torque::unit_of(asked.unwrap_or_default());
                app.joint_check(&caller, &ask, found, |question, joint| {
                    strength::joint_answer(question, joint, unit)
                })
            })
    }

    async fn fit_length(
        &self,
        request: Request<FitLengthRequest>,
    ) -> Result<Response<FitLengthResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::FitLength, request, |caller, request| {
                let layers = strength::length_layers(&request);
                let (ask, found) = strength::length(&request, &layers);
                app.fit_length(&caller, &ask, found, strength::length_answer)
            })
    }

    async fn compute_stretch(
        &self,
        request: Request<ComputeStretchRequest>,
    ) -> Result<Response<ComputeStretchResponse>, Status> {
        let app = &self.0.app;
        self.0
            .calculate(Operation::ComputeStretch, request, |caller, request| {
                let layers = stretch::stretch_layers(&request);
                let (ask, found) = stretch::stretch(&request, &layers);
                app.compute_stretch(&caller, &ask, found, stretch::stretch_answer)
            })
    }

    async fn align_castellated_nut(
        &self,
        request: Request<AlignCastellatedNutRequest>,
    ) -> Result<Response<AlignCastellatedNutResponse>, Status> {
        let app = &self.0.app;
        self.0.calculate(
            Operation::AlignCastellatedNut,
            request,
            |caller, request| {
                let layers = stretch::castle_layers(&request);
                let (ask, found) = stretch::castle(&request, &layers);
                app.align_castellated_nut(&caller, &ask, found, stretch::castle_answer)
            },
        )
    }
}
