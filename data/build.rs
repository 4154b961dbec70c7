//! Checks the tables and turns them into Rust; a bad row ends the build with its file and line.

#[path = "build/check.rs"]
mod check;
#[path = "build/emit.rs"]
mod emit;
#[path = "build/rows.rs"]
mod rows;

use std::{env, error::Error, fs, path::PathBuf};

fn main() -> Result<(), Box<dyn Error>> {
    println!("cargo:rerun-if-changed=.");
    let folder = PathBuf::from(env::var("CARGO_MANIFEST_DIR")?);
    let tables = check::Tables::read(|name| fs::read_to_string(folder.join(name)))?;
    let out = PathBuf::from(env::var("OUT_DIR")?).join("tables.rs");
    fs::write(out, emit::tables(&tables))?;
    Ok(())
}
