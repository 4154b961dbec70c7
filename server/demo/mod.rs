//! The demo.

use crate::config::Demo;

pub(crate) fn run(_flags: &Demo) -> anyhow::Result<()> {
    Ok(())
}
