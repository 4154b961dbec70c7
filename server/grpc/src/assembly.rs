//! Assemblies.

use crate::{Validator, finding};
use clampbook_api::v1 as wire;
use clampbook_app::{Call, Error, names};
use clampbook_book::bounds;
use clampbook_book::fact::AssemblyAdded;
use clampbook_book::ids::AssemblyId;
use clampbook_book::job::Job;

/// Adds an assembly.
pub(crate) async fn create(
    call: Call<'_>,
    request: wire::CreateAssemblyRequest,
) -> Result<wire::Assembly, Error> {
    let mut check = Validator::default();
    let job = check.job_name("parent", &request.parent);
    let id = check.new_id("assembly_id", &request.assembly_id, AssemblyId::new);
    let added = check
        .required("assembly", request.assembly.as_ref())
        .and_then(|assembly| {
            let display_name = check.required_text(
                "assembly.display_name",
                &assembly.display_name,
                bounds::DISPLAY_NAME,
            );
            let counterpart = if assembly.counterpart.is_empty() {
                None
            } else {
                let other = check.assembly_name("assembly.counterpart", &assembly.counterpart);
                if let (Some((owner, _)), Some(job)) = (&other, &job)
                    && owner != job
                {
                    check.wrong("assembly.counterpart", "belongs to another job");
                }
                Some(other?.1)
            };
            if counterpart.is_some() && counterpart == id {
                check.wrong("assembly.counterpart", "is the assembly itself");
            }
            Some(AssemblyAdded {
                assembly: id?,
                display_name,
                counterpart,
            })
        });
    let change = check.change(&request, job.zip(added))?;
    let added = call.add_assembly(change).await?;
    Ok(assembly(&added.job, &added.assembly))
}

/// An assembly of a job.
pub(crate) fn assembly(job: &Job, assembly: &AssemblyAdded) -> wire::Assembly {
    let name = |id| names::assembly(&job.id, id);
    wire::Assembly {
        name: name(&assembly.assembly),
        display_name: assembly.display_name.clone(),
        counterpart: assembly.counterpart.as_ref().map(name).unwrap_or_default(),
        findings: job
            .findings
            .iter()
            .filter(|finding| finding.found.assembly == assembly.assembly)
            .map(|finding| finding::standing(&job.id, finding))
            .collect(),
    }
}
