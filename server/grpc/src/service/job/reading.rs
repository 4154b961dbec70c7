//! Methods that read, and the watch.

use super::Jobs;
use crate::convert::page::{Sizes, jobs_token, of_list, token};
use crate::convert::{Check, record};
use crate::status::status;
use clampbook_api::v1 as wire;
use clampbook_app::job::joint_of;
use clampbook_app::{Caller, Error, Operation};
use clampbook_book::ids::EntryNumber;
use tokio::sync::mpsc;
use tokio_stream::wrappers::ReceiverStream;
use tonic::Status;

const JOBS: Sizes = Sizes {
    default: 50,
    most: 200,
};
const JOINTS: Sizes = JOBS;
const RULES: Sizes = JOBS;
const FLAGS: Sizes = Sizes {
    default: 200,
    most: 1_000,
};
pub(super) const ENTRIES: Sizes = Sizes {
    default: 100,
    most: 1_000,
};

/// Entries on their way to a watcher; it fetches more from the journal when it has taken these.
const UNDER_WAY: usize = 16;

impl Jobs {
    pub(super) async fn get_job(
        &self,
        caller: &Caller,
        request: wire::GetJobRequest,
    ) -> Result<wire::Job, Error> {
        let mut check = Check::default();
        let id = check.job_name("name", &request.name);
        let id = check.finish(id)?;
        let job = self.0.app.job(caller, Operation::GetJob, &id).await?;
        Ok(record::job(&job))
    }

    pub(super) async fn list_jobs(
        &self,
        caller: &Caller,
        request: wire::ListJobsRequest,
    ) -> Result<wire::ListJobsResponse, Error> {
        let mut check = Check::default();
        let (size, token) = (request.page_size, &request.page_token);
        let page = check.jobs_page("ListJobs", size, token, JOBS);
        let (limit, after) = check.finish(page)?;
        let found = self.0.app.jobs(caller, after, limit).await?;
        Ok(wire::ListJobsResponse {
            jobs: found.jobs.iter().map(record::job_summary).collect(),
            next_page_token: jobs_token("ListJobs", found.next),
        })
    }

    pub(super) async fn get_joint(
        &self,
        caller: &Caller,
        request: wire::GetJointRequest,
    ) -> Result<wire::Joint, Error> {
        let mut check = Check::default();
        let ids = check.joint_name("name", &request.name);
        let (job, joint) = check.finish(ids)?;
        let job = self.0.app.job(caller, Operation::GetJoint, &job).await?;
        Ok(record::joint(&job.id, joint_of(&job, &joint)?))
    }

    pub(super) async fn list_joints(
        &self,
        caller: &Caller,
        request: wire::ListJointsRequest,
    ) -> Result<wire::ListJointsResponse, Error> {
        let mut check = Check::default();
        let id = check.job_name("parent", &request.parent);
        let list = format!("ListJoints {}", request.parent);
        let page = check.numbered_page(&list, request.page_size, &request.page_token, JOINTS);
        let (id, (size, after)) = check.finish(id.zip(page))?;
        let job = self.0.app.job(caller, Operation::ListJoints, &id).await?;
        let (joints, next_page_token) = of_list(&list, job.joints.iter(), size, after);
        Ok(wire::ListJointsResponse {
            joints: joints
                .iter()
                .map(|joint| record::joint(&id, joint))
                .collect(),
            next_page_token,
        })
    }

    pub(super) async fn list_flags(
        &self,
        caller: &Caller,
        request: wire::ListFlagsRequest,
    ) -> Result<wire::ListFlagsResponse, Error> {
        let mut check = Check::default();
        let id = check.job_name("parent", &request.parent);
        let list = format!("ListFlags {}", request.parent);
        let page = check.numbered_page(&list, request.page_size, &request.page_token, FLAGS);
        let (id, (size, after)) = check.finish(id.zip(page))?;
        let flags = self.0.app.flags(caller, &id).await?;
        let (page, next_page_token) = of_list(&list, flags, size, after);
        Ok(wire::ListFlagsResponse {
            flags: record::flags(&id, &page),
            next_page_token,
        })
    }

    pub(super) async fn list_rules(
        &self,
        caller: &Caller,
        request: wire::ListRulesRequest,
    ) -> Result<wire::ListRulesResponse, Error> {
        let mut check = Check::default();
        let page = check.numbered_page("ListRules", request.page_size, &request.page_token, RULES);
        let (size, after) = check.finish(page)?;
        let rules = self.0.app.rules(caller)?;
        let (rules, next_page_token) = of_list("ListRules", rules, size, after);
        Ok(wire::ListRulesResponse {
            rules: rules.iter().map(|rule| record::rule(rule)).collect(),
            next_page_token,
        })
    }

    pub(super) async fn get_rule(
        &self,
        caller: &Caller,
        request: wire::GetRuleRequest,
    ) -> Result<wire::Rule, Error> {
        let mut check = Check::default();
        let id = request
            .name
            .strip_prefix("rules/")
            .filter(|id| clampbook_book::ids::is_slug(id));
        if id.is_none() {
            check.wrong("name", "is not of the form rules/{rule}");
        }
        let id = check.finish(id)?;
        Ok(record::rule(self.0.app.rule(caller, id)?))
    }

    pub(super) async fn list_entries(
        &self,
        caller: &Caller,
        request: wire::ListEntriesRequest,
    ) -> Result<wire::ListEntriesResponse, Error> {
        let mut check = Check::default();
        let stream = check.stream_name("parent", &request.parent);
        let list = format!("ListEntries {}", request.parent);
        let page = check.numbered_page::<EntryNumber>(
            &list,
            request.page_size,
            &request.page_token,
            ENTRIES,
        );
        let (stream, (size, after)) = check.finish(stream.zip(page))?;
        let limit = u32::try_from(size).unwrap_or(u32::MAX - 1) + 1;
        let mut found = self
            .0
            .app
            .entries(caller, stream, after.unwrap_or(0), limit)
            .await?;
        let more = found.len() > size;
        found.truncate(size);
        let next = found.last().filter(|_| more);
        Ok(wire::ListEntriesResponse {
            next_page_token: next
                .map(|last| token(&list, &last.entry.number.to_string()))
                .unwrap_or_default(),
            entries: found.iter().map(record::entry).collect(),
        })
    }

    pub(super) async fn watch(
        &self,
        caller: Caller,
        request: wire::WatchEntriesRequest,
    ) -> Result<ReceiverStream<Result<wire::Entry, Status>>, Error> {
        let mut check = Check::default();
        let stream = if request.parent.is_empty() {
            None
        } else {
            check.stream_name("parent", &request.parent)
        };
        if request.after_sequence < 0 {
            check.wrong("after_sequence", "is negative; allowed are 0 and above");
        }
        check.finish(Some(()))?;
        caller.may(Operation::WatchEntries)?;
        if let Some(stream) = &stream {
            self.0.app.exists(stream).await?;
        }
        let (sender, receiver) = mpsc::channel(UNDER_WAY);
        let app = self.0.app.clone();
        tokio::spawn(async move {
            let sending = &sender;
            let outcome = app
                .watch(
                    &caller,
                    stream,
                    request.after_sequence,
                    |stored| async move { sending.send(Ok(record::entry(&stored))).await.is_ok() },
                )
                .await;
            if let Err(error) = outcome {
                // Nobody listens when this fails, which ends the watch as well.
                let _ = sender.send(Err(status(&error))).await;
            }
        });
        Ok(ReceiverStream::new(receiver))
    }
}
