//! A bad row is refused with its file, its line and what is wrong: the checks of the build, run on
//! spoiled copies of the tables.

#![allow(clippy::unwrap_used)] // a test may panic

#[path = "../build/check.rs"]
mod check;
#[path = "../build/emit.rs"]
mod emit;
#[path = "../build/rows.rs"]
mod rows;

use std::{fs, io, path::Path};

fn table(name: &str) -> io::Result<String> {
    fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join(name))
}

/// What the checks say when one text of one table is replaced, once.
fn complaint(file: &str, from: &str, to: &str) -> String {
    let spoiled = |name: &str| {
        let text = table(name)?;
        if name != file {
            return Ok(text);
        }
        assert!(text.contains(from), "{file} has no {from:?}");
        Ok(text.replacen(from, to, 1))
    };
    match check::Tables::read(spoiled) {
        Ok(_) => panic!("{file}: {from:?} -> {to:?} was let through"),
        Err(complaint) => complaint,
    }
}

#[test]
fn the_tables_as_they_are_pass() {
    let tables = check::Tables::read(table).unwrap();
    assert_eq!(tables.threads.len(), clampbook_data::THREADS.len());
    assert_eq!(tables.grades.len(), clampbook_data::GRADES.len());
    assert_eq!(tables.sources.len(), clampbook_data::SOURCES.len());
    assert_eq!(
        emit::tables(&tables),
        include_str!(concat!(env!("OUT_DIR"), "/tables.rs")),
        "the crate is made from these tables"
    );
}

#[test]
fn a_complaint_names_file_line_and_what() {
    let said = complaint(
        "threads_unified.csv",
        "unc-n1-64,UNC,#1,64,0.00263",
        "unc-n1-64,UNC,#1,64,0.00363",
    );
    assert_eq!(
        said,
        "threads_unified.csv:2: published_stress_area_in2 is 0.00363, the formula gives 0.00262"
    );
    let said = complaint("threads_metric.csv", "coarse,10,1.5", "coarse,10,-1.5");
    assert_eq!(
        said,
        "threads_metric.csv:15: pitch_mm is \"-1.5\", must be a positive number"
    );
}

#[test]
fn whatever_is_wrong_is_refused() {
    let spoiled = [
        ("sources.csv", "id,citation", "id,cite", "columns must be"),
        (
            "sources.csv",
            "shigley-8-9,",
            "shigley-8-2,",
            "is there twice",
        ),
        (
            "across_flats.csv",
            "metric,10,16,6.4,14.63,",
            "metric,10,16,6.4,16.63,",
            "must rise in that order",
        ),
        (
            "across_flats.csv",
            "metric,4,",
            "metric,3,",
            "is there twice",
        ),
        (
            "across_flats.csv",
            ",5.5,6,1.2,",
            ",5.5,7,1.2,",
            "must be 6 or 8",
        ),
        ("across_flats.csv", "inch,1/4,", "inch,1/x,", "is no size"),
        (
            "parent_metals.csv",
            ",200,490,",
            ",-200,490,",
            "must be a positive number",
        ),
        (
            "parent_metals.csv",
            "brass,brass",
            "mild-steel,brass",
            "is there twice",
        ),
        ("threads_unified.csv", "#2,56", "#99,56", "is no inch size"),
        ("threads_unified.csv", "#2,56", "#1,64", "is there twice"),
        (
            "threads_unified.csv",
            ",UNC,",
            ",UNX,",
            "series \"UNX\" is unknown",
        ),
        (
            "threads_unified.csv",
            "shigley-8-2 asme-b1.1",
            "hearsay",
            "is not in sources.csv",
        ),
        (
            "threads_unified.csv",
            "shigley-8-2 asme-b1.1",
            "",
            "sources is empty",
        ),
        (
            "threads_unified.csv",
            "found+computed",
            "guessed",
            "basis \"guessed\" is unknown",
        ),
        (
            "threads_metric.csv",
            "coarse,10,1.5",
            "coarse,10,NaN",
            "must be a positive number",
        ),
        (
            "threads_metric.csv",
            "coarse,10,1.5",
            "coarse,10,inf",
            "must be a positive number",
        ),
        (
            "threads_metric.csv",
            "coarse,10,1.5",
            "coarse,10,4",
            "too coarse",
        ),
        (
            "grades.csv",
            "0.25,1.5,33,36,60",
            "0.25,1.5,37,36,60",
            "must rise in that order",
        ),
        (
            "grades.csv",
            "0.25,1.5,33,36,60",
            "0.25,1.5,,,60",
            "nothing to work with",
        ),
        (
            "grades.csv",
            "0.25,1.5,33,36,60",
            "2,1.5,33,36,60",
            "size_min is above size_max",
        ),
        ("grades.csv", ">0.75,1.5", "0.5,1.5", "overlap"),
        ("grades.csv", ",ksi,", ",psi,", "must be MPa or ksi"),
        (
            "grades.csv",
            ",inch,",
            ",imperial,",
            "must be inch or metric",
        ),
        (
            "nuts.csv",
            "j429-1 j429-2",
            "j429-1 j429-99",
            "which is no grade id",
        ),
        (
            "lubrications.csv",
            "0.20,0.18,0.30",
            "0.20,0.21,0.30",
            "must rise from low to high",
        ),
        (
            "lubrications.csv",
            "0.20,0.18,0.30",
            "0.20,0.18,0.61",
            "must rise from low to high",
        ),
        (
            "grades.csv",
            ",structural,",
            ",bridge,",
            "must be empty, structural or unproven",
        ),
        ("grades.csv", ",unproven,", ",,", "nothing to work with"),
        (
            "threads_british.csv",
            "bsw-1_4,BSW,1/4,,20",
            "bsw-1_4,BSW,1/4,,",
            "threads_per_inch is empty",
        ),
        (
            "threads_british.csv",
            "ba-2,BA,2,4.7,,0.81",
            "ba-2,BA,2,4.7,,1.81",
            "too coarse",
        ),
        (
            "threads_british.csv",
            "bsw-1_4,BSW,1/4",
            "bsw-1_4,BSW,x",
            "no inch size",
        ),
        (
            "look_alikes.csv",
            ",cruel,",
            ",nasty,",
            "must be kind or cruel",
        ),
        (
            "threads_british.csv",
            "bsw-1_4,BSW",
            "BSW-1_4,BSW",
            "id is \"BSW-1_4\", must be a lower case letter",
        ),
        (
            "grades.csv",
            "j429-5.2,",
            "j429-5/2,",
            "must be a lower case letter",
        ),
        (
            "threads_british.csv",
            "bsw-1_4,BSW",
            "bsw-5.16,BSW",
            "\"bsw-5-16\" is there twice",
        ),
        (
            "look_alikes.csv",
            ",unf-1_2-20,",
            ",unf-1_2-99,",
            "which is no thread id",
        ),
        ("spanners.csv", "BSW,1/8,", "BSW,9/8,", "no thread of size"),
        (
            "published_torques.csv",
            ",lbf-in,",
            ",Nm,",
            "must be lbf-ft, lbf-in or N-m",
        ),
        (
            "published_torques.csv",
            "2.0,2.0",
            "3.0,2.0",
            "low is above high",
        ),
        (
            "published_targets.csv",
            ",lbf,",
            ",N,",
            "must be lbf, kip or degrees",
        ),
        (
            "published_targets.csv",
            "146,204,256",
            "146,304,256",
            "must rise in that order",
        ),
        (
            "published_targets.csv",
            "a286-n4-40",
            "a286-n2-56",
            "is there twice",
        ),
        ("lubrications.csv", "clean dry", "oiled", "is there twice"),
        ("lubrications.csv", ",no,", ",maybe,", "must be yes or no"),
        (
            "lubrications.csv",
            ",yes,no,",
            ",yes,perhaps,",
            "must be yes or no",
        ),
        (
            "grades.csv",
            "HRC 22-32",
            "HRC 32-22",
            "must be HRC low-high",
        ),
        ("lock_nuts.csv", ",any,", ",new,", "must be one of"),
        ("lock_nuts.csv", ",any,8,", ",any,0,", "positive number"),
        (
            "procedures.csv",
            ",published,",
            ",guessed,",
            "must be one of",
        ),
        ("procedures.csv", ",drain-plug,", ",banjo-fitting,", "twice"),
        (
            "steps.csv",
            "staged,torque-to,0.7",
            "staged,torque-to,1.7",
            "above 1",
        ),
        (
            "steps.csv",
            "banjo,measure",
            "bonjo,measure",
            "procedures.csv",
        ),
        (
            "steps.csv",
            "yield-bolt,turn-by,",
            "yield-bolt,turn-by,1",
            "no torque",
        ),
        (
            "steps.csv",
            "eye and dry paper",
            "",
            "instrument and limits",
        ),
    ];
    for (file, from, to, what) in spoiled {
        let said = complaint(file, from, to);
        let place = format!("{file}:");
        assert!(
            said.starts_with(&place) && said.contains(what),
            "{from:?} -> {to:?}: {said}"
        );
        let line = said[place.len()..].split(':').next().unwrap();
        assert!(line.parse::<u32>().is_ok(), "{said}");
    }
}

#[test]
fn a_row_with_too_few_fields_is_refused() {
    let said = complaint(
        "lubrications.csv",
        "as-received,as received,",
        "as-received,",
    );
    assert!(said.starts_with("lubrications.csv:3: "), "{said}");
}

#[test]
fn a_missing_table_is_named() {
    let missing = |name: &str| match name {
        "nuts.csv" => Err(io::Error::from(io::ErrorKind::NotFound)),
        name => table(name),
    };
    let said = check::Tables::read(missing).err().unwrap();
    assert!(said.starts_with("nuts.csv: "), "{said}");
}

/// A number found nowhere is not a citation.
#[test]
fn no_citation_is_a_web_address() {
    for source in &clampbook_data::SOURCES {
        assert!(!source.citation.contains("//"), "{}", source.citation);
    }
}
