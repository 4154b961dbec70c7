//! Turns the protos into Rust. No protoc is needed: protox parses them.

use std::{error::Error, fs, path::PathBuf};

fn main() -> Result<(), Box<dyn Error>> {
    // compile_fds prints no such line itself; without it any touched file would run this again.
    println!("cargo:rerun-if-changed=clampbook");
    let mut protos = protox::Compiler::new(["."])?;
    protos
        .include_imports(true)
        .include_source_info(true)
        .open_files(SERVICES)?;
    let out = PathBuf::from(std::env::var("OUT_DIR")?);
    // The encoded set keeps what the typed one drops; reflection and the contract tests read this file.
    fs::write(
        out.join("clampbook_descriptor.bin"),
        protos.encode_file_descriptor_set(),
    )?;
    tonic_prost_build::configure()
        // Few joints say how they are built, and it is larger than everything else they say.
        .boxed(".clampbook.v1.Joint.build")
        .compile_fds(protos.file_descriptor_set())?;
    Ok(())
}

const SERVICES: [&str; 6] = [
    "clampbook/v1/catalog_service.proto",
    "clampbook/v1/torque_service.proto",
    "clampbook/v1/job_service.proto",
    "clampbook/v1/specification_service.proto",
    "clampbook/v1/sheet_service.proto",
    "clampbook/v1/people_service.proto",
];
