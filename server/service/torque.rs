//! `TorqueService`.

use super::guard::Guard;
use crate::app::Operation;
use crate::convert::torque;
use clampbook_api::v1::torque_service_server::TorqueService;
use clampbook_api::v1::{ComputeTorqueRequest, ComputeTorqueResponse};
use tonic::{Request, Response, Status};

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
                app.compute_torque(&caller, &torque::ask(&request)?, torque::answer)
            })
    }
}
