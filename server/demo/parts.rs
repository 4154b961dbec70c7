//! What is to be ordered, and what came.

use super::page::line;
use super::scribe::Scribe;
use super::story::JOB;

/// Shows the list of parts, and logs that the bolt and the spindle came.
pub(super) async fn order(scribe: &Scribe) -> anyhow::Result<()> {
    let parts = scribe.parts(JOB).await?;
    for part in &parts {
        let assembly = part.assembly.rsplit('/').next().unwrap_or_default();
        line(format_args!(
            "  {assembly}: {} x {}",
            part.waiting_count, part.what
        ))?;
    }
    let wanted = |part: &&clampbook_api::v1::PartToOrder| {
        part.what == "spindle" || part.what.starts_with("7/16-20 UNF x 1-3/4 in")
    };
    for part in parts.iter().filter(wanted) {
        let open = scribe.arrival(part, "delivery note 44").await?;
        line(format_args!(
            "  came: {} x {}; flags about parts still open there: {open}",
            part.waiting_count, part.what
        ))?;
    }
    Ok(())
}
