//! What health says.

use tonic::transport::Channel;
use tonic_health::ServingStatus;
use tonic_health::pb::HealthCheckRequest;
use tonic_health::pb::health_client::HealthClient;

/// Everything that health is kept for; the empty name is the whole server.
const NAMES: [&str; 3] = ["", "clampbook.v1.JobService", "clampbook.v1.SheetService"];

/// Whether everything is served; it must be all or nothing.
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
    assert!(
        serving.iter().all(|one| *one == serving[0]),
        "{NAMES:?}: {serving:?}"
    );
    serving[0]
}
