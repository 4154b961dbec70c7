//! What health says.

use tonic::transport::Channel;
use tonic_health::ServingStatus;
use tonic_health::pb::HealthCheckRequest;
use tonic_health::pb::health_client::HealthClient;

/// Everything that health is kept for; the empty name is the whole server.
const NAMES: [&str; 3] = ["", "clampbook.v1.JobService", "clampbook.v1.SheetService"];

/// Whether everything is served. On the way there, one after the other is.
pub(crate) async fn is_serving(channel: &Channel) -> bool {
    served(channel).await.len() == NAMES.len()
}

/// Those that are served.
pub(crate) async fn served(channel: &Channel) -> Vec<&'static str> {
    let mut served = Vec::new();
    for name in NAMES {
        let request = HealthCheckRequest {
            service: name.into(),
        };
        let answer = HealthClient::new(channel.clone()).check(request).await;
        let status = answer.expect("health is answered").into_inner().status;
        if status == ServingStatus::Serving as i32 {
            served.push(name);
        }
    }
    served
}
