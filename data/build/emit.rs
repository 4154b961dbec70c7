//! Writes checked tables as Rust statics.

#[path = "emit_joints.rs"]
mod joints;
#[path = "emit_old_iron.rs"]
mod old_iron;
#[path = "emit_procedures.rs"]
mod procedures;
#[path = "emit_targets.rs"]
mod targets;

use super::check::{Grade, Lubrication, Nut, Origin, Range, Source, Tables, Thread};
use std::fmt::Write;

/// The text of `tables.rs`.
pub(crate) fn tables(tables: &Tables) -> String {
    let mut out = String::new();
    table(
        &mut out,
        "SOURCES",
        "Source",
        "Everything the tables cite.",
        &tables.sources,
        source,
    );
    table(
        &mut out,
        "THREADS",
        "ThreadRow",
        "All thread sizes.",
        &tables.threads,
        thread,
    );
    table(
        &mut out,
        "GRADES",
        "GradeRow",
        "All grades of bolts.",
        &tables.grades,
        grade,
    );
    table(
        &mut out,
        "NUTS",
        "NutRow",
        "All grades of nuts.",
        &tables.nuts,
        nut,
    );
    let doc = "All lubrications and finishes.";
    table(
        &mut out,
        "LUBRICATIONS",
        "LubricationRow",
        doc,
        &tables.lubrications,
        lubrication,
    );
    procedures::tables(&mut out, tables);
    joints::tables(&mut out, tables);
    old_iron::tables(&mut out, tables);
    targets::tables(&mut out, tables);
    cite(&mut out, &tables.sources);
    out
}

fn table<T>(
    out: &mut String,
    name: &str,
    kind: &str,
    doc: &str,
    rows: &[T],
    row: fn(&T) -> String,
) {
    let rows: Vec<String> = rows.iter().map(row).collect();
    // Writing into a String cannot fail.
    let _ = writeln!(
        out,
        "/// {doc}\npub static {name}: [{kind}; {}] = [\n{}];",
        rows.len(),
        rows.concat()
    );
}

fn source(s: &Source) -> String {
    format!(
        "Source {{ id: Cow::Borrowed({:?}), citation: Cow::Borrowed({:?}) }},\n",
        s.id, s.citation
    )
}

fn thread(t: &Thread) -> String {
    let published = match t.published {
        Some((value, half)) => {
            format!("Some(PublishedArea {{ value: {value:?}, half_last_digit: {half:?} }})")
        }
        None => "None".to_owned(),
    };
    format!(
        "ThreadRow {{ id: {:?}, system: System::{}, series: Series::{}, designation: {:?}, \
         size: {:?}, diameter_mm: {:?}, pitch_mm: {:?}, threads_per_inch: {:?}, \
         published_stress_area: {published}, {} }},\n",
        t.id,
        t.system,
        t.series,
        t.designation,
        t.size,
        t.diameter_mm,
        t.pitch_mm,
        t.threads_per_inch,
        origin(&t.origin),
    )
}

fn grade(g: &Grade) -> String {
    let strengths: String = g
        .strengths
        .iter()
        .map(|s| {
            format!(
                "StrengthRow {{ {}, proof_mpa: {:?}, yield_mpa: {:?}, tensile_mpa: {:?}, \
                 hardness: {:?}, minimum_hrc: {:?}, {} }}, ",
                range(&s.range),
                s.proof,
                s.yields,
                s.tensile,
                s.hardness,
                s.minimum_hrc,
                origin(&s.origin),
            )
        })
        .collect();
    format!(
        "GradeRow {{ id: {:?}, standard: {:?}, name: {:?}, full_name: {:?}, aliases: &{:?}, system: System::{}, \
         head_marking: {:?}, material: {:?}, restriction: {}, strengths: &[{strengths}] }},\n",
        g.id,
        g.standard,
        g.name,
        format!("{} {}", g.standard, g.name),
        g.aliases,
        g.system,
        g.head_marking,
        g.material,
        g.restriction
            .map_or_else(|| "None".to_owned(), |r| format!("Some(Restriction::{r})")),
    )
}

fn nut(n: &Nut) -> String {
    let proofs: String = n
        .proofs
        .iter()
        .map(|p| {
            let series: String = p.series.iter().map(|s| format!("Series::{s}, ")).collect();
            format!(
                "NutProofRow {{ {}, series: &[{series}], proof_mpa: {:?}, {} }}, ",
                range(&p.range),
                p.proof,
                origin(&p.origin),
            )
        })
        .collect();
    format!(
        "NutRow {{ id: {:?}, standard: {:?}, name: {:?}, aliases: &{:?}, style: {:?}, \
         system: System::{}, marking: {:?}, mates: &{:?}, proofs: &[{proofs}] }},\n",
        n.id, n.standard, n.name, n.aliases, n.style, n.system, n.marking, n.mates,
    )
}

fn lubrication(c: &Lubrication) -> String {
    let [typical, low, high] = c.nut_factors;
    format!(
        "LubricationRow {{ id: {:?}, name: {:?}, aliases: &{:?}, nut_factor: {typical:?}, \
         low_nut_factor: {low:?}, high_nut_factor: {high:?}, lubricated: {}, electroplated: {}, {} }},\n",
        c.id,
        c.name,
        c.aliases,
        c.lubricated,
        c.electroplated,
        origin(&c.origin),
    )
}

fn range(r: &Range) -> String {
    format!(
        "from_mm: {:?}, from_is_open: {}, to_mm: {:?}",
        r.from_mm, r.from_is_open, r.to_mm
    )
}

fn origin(o: &Origin) -> String {
    let sources: String = o
        .sources
        .iter()
        .map(|id| format!("cite::{}, ", constant(id)))
        .collect();
    format!(
        "origin: Origin {{ sources: &[{sources}], basis: Basis::{}, note: {:?} }}",
        o.basis, o.note
    )
}

/// One constant per source, so that code cites by name and a missing source does not compile.
fn cite(out: &mut String, sources: &[Source]) {
    let _ = writeln!(
        out,
        "/// Sources by name.\npub mod cite {{\nuse super::{{Source, SOURCES}};"
    );
    for (index, source) in sources.iter().enumerate() {
        let _ = writeln!(
            out,
            "/// {}.\npub const {}: &Source = &SOURCES[{index}];",
            source.citation,
            constant(&source.id)
        );
    }
    let _ = writeln!(out, "}}");
}

/// `asme-b1.1` becomes `ASME_B1_1`.
fn constant(id: &str) -> String {
    id.to_uppercase().replace(['-', '.'], "_")
}
