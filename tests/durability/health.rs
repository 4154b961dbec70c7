//! What health says.

use tonic::transport::Channel;
use tonic_health::ServingStatus;
use tonic_health::pb::HealthCheckRequest;
use tonic_health::pb::health_client::HealthClient;

/// Everything that health is kept for; the empty name is the whole server.
const NAMES: [&str; 3] = ["", "clampbook.v1.JobService", "clampbook.v1.SheetService"];

/// Whether everything is served. Asked one after the other, while the answers may be changing.
pub(crate) async fn is_serving(channel: &Channel) -> bool {
    let mut serving = Vec::new();
    for service in NAMES {
        let request = HealthCheckRequest {
            service: service.into(),
        };
        let answer = HealthClient::new(channel.clone()).check(request).await;
        let status = answer.expect("health is answered").into_inner().status;
        serving.push(status == ServingStatus::Serving as i32);
    }
    serving.into_iter().all(|one| one)
}
