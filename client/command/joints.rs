//! `joints`.

use clampbook_api::v1::{
    CreateJointRequest, GetJointRequest, Joint, JointTarget, ListJointsRequest, Position,
    job_service_client::JobServiceClient,
};

use super::paging::all;
use crate::{
    args::{DescribedArgs, JointArgs, JointsCommand, TargetArgs},
    call::Server,
    error::Failure,
    name,
    out::Out,
    show,
};

pub(super) async fn run(command: JointsCommand, server: &Server, out: &Out) -> Result<(), Failure> {
    match command {
        JointsCommand::Add(args) => add(*args, server, out).await,
        JointsCommand::Show { job, joint } => {
            let joint = get(name::joint(&job, &joint), server).await?;
            out.answer(&joint, show::joint::joint)
        }
        JointsCommand::List { job } => {
            let parent = name::job(&job);
            let page = async |page_token| {
                let parent = parent.clone();
                let request = ListJointsRequest {
                    parent,
                    page_size: 0,
                    page_token,
                };
                server.jobs(JobServiceClient::list_joints, request).await
            };
            out.answer(&all(page).await?, show::joint::joints)
        }
    }
}

/// The joint of that name as it now is.
pub(super) async fn get(name: String, server: &Server) -> Result<Joint, Failure> {
    let request = GetJointRequest { name };
    server.jobs(JobServiceClient::get_joint, request).await
}

async fn add(args: JointArgs, server: &Server, out: &Out) -> Result<(), Failure> {
    let ticket = args.change.ticket();
    let request = CreateJointRequest {
        parent: name::job(&args.job),
        joint_id: args.id.clone(),
        joint: Some(described(&args.job, args.described)),
        request_id: ticket.request_id(),
        said_time: None,
    };
    let joint = server
        .change(&ticket, JobServiceClient::create_joint, request)
        .await?;
    out.answer(&joint, show::joint::joint)
}

/// A joint of a job as described.
pub(super) fn described(job: &str, args: DescribedArgs) -> Joint {
    Joint {
        assembly: name::assembly(job, &args.assembly),
        display_name: args.name,
        layout: args.layout.into(),
        row_count: args.rows,
        positions: positions(args.positions, args.label),
        criticality: args.class.into(),
        hole_kind: args.hole_kind.into(),
        purpose: args.purpose.unwrap_or_default().into(),
        target: target(args.target),
        build: args.build.into_wire().map(Box::new),
        lock: args.lock,
        preparation: args.preparation,
        computed_torque_approver: args.approver,
        specification: args
            .specification
            .map(|id| name::specification(&id))
            .unwrap_or_default(),
        specification_revision: args.specification_revision,
        ..Joint::default()
    }
}

/// So many nameless positions, or one for each name.
fn positions(count: Option<u16>, labels: Vec<String>) -> Vec<Position> {
    match count {
        Some(count) => vec![Position::default(); usize::from(count)],
        None => labels
            .into_iter()
            .map(|label| Position {
                label,
                ..Position::default()
            })
            .collect(),
    }
}

/// The target; nothing when none of its flags was given. Whether one is needed is the server's to say.
fn target(args: TargetArgs) -> Option<JointTarget> {
    let target = JointTarget {
        thread: args.thread.unwrap_or_default(),
        grade: args.grade.unwrap_or_default(),
        lubrication: args.lubrication.unwrap_or_default(),
        proof_share: args.aim.proof_share,
        clamp_load_n: args.aim.clamp_load_n,
        nut_factor: args.aim.nut_factor,
        nut_grade: args.aim.nut_grade,
        baked: args.aim.baked,
    };
    (target != JointTarget::default()).then_some(target)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn positions_are_counted_or_named() {
        assert_eq!(positions(Some(3), Vec::new()).len(), 3);
        let named = positions(None, vec!["front".to_owned(), "rear".to_owned()]);
        let labels: Vec<_> = named
            .iter()
            .map(|position| position.label.as_str())
            .collect();
        assert_eq!(labels, ["front", "rear"]);
    }
}
