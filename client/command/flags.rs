//! `flags`.

use clampbook_api::v1::{
    GetRuleRequest, ListFlagsRequest, ListRulesRequest, job_service_client::JobServiceClient,
};

use super::paging::all;
use crate::{args::FlagsCommand, call::Server, error::Failure, name, out::Out, show::flag};

pub(super) async fn run(command: FlagsCommand, server: &Server, out: &Out) -> Result<(), Failure> {
    match command {
        FlagsCommand::List { job } => {
            let parent = name::job(&job);
            let page = async |page_token| {
                let parent = parent.clone();
                let request = ListFlagsRequest {
                    parent,
                    page_size: 0,
                    page_token,
                };
                server.jobs(JobServiceClient::list_flags, request).await
            };
            out.answer(&all(page).await?, flag::list)
        }
        FlagsCommand::Explain { rule } => {
            let request = GetRuleRequest {
                name: name::rule(&rule),
            };
            let rule = server.jobs(JobServiceClient::get_rule, request).await?;
            out.answer(&rule, flag::rule)
        }
        FlagsCommand::Rules => {
            let page = async |page_token| {
                let request = ListRulesRequest {
                    page_size: 0,
                    page_token,
                };
                server.jobs(JobServiceClient::list_rules, request).await
            };
            out.answer(&all(page).await?, flag::rules)
        }
    }
}
