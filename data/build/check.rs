//! What a row must satisfy before it becomes part of the catalogue.

#[path = "check_joints.rs"]
mod joints;
#[path = "check_old_iron.rs"]
mod old_iron;
#[path = "check_parts.rs"]
mod parts;
#[path = "check_procedures.rs"]
mod procedures;
#[path = "check_targets.rs"]
mod targets;
#[path = "check_threads.rs"]
mod threads;

pub(crate) use joints::{AcrossFlats, ParentMetal};
pub(crate) use old_iron::{LookAlike, PublishedTorque, Spanner};
pub(crate) use parts::{
    Grade, Lubrication, Nut, NutProof, Origin, Range, Source, Strength, Thread,
};
pub(crate) use procedures::{LockNut, Procedure, Step};
pub(crate) use targets::PublishedTarget;

use super::rows::{Complaint, Row, as_id, positive, read};
use std::{collections::BTreeSet, io};

/// All tables, checked.
pub(crate) struct Tables {
    pub(crate) sources: Vec<Source>,
    pub(crate) threads: Vec<Thread>,
    pub(crate) grades: Vec<Grade>,
    pub(crate) nuts: Vec<Nut>,
    pub(crate) lubrications: Vec<Lubrication>,
    pub(crate) across_flats: Vec<AcrossFlats>,
    pub(crate) parent_metals: Vec<ParentMetal>,
    pub(crate) lock_nuts: Vec<LockNut>,
    pub(crate) procedures: Vec<Procedure>,
    pub(crate) look_alikes: Vec<LookAlike>,
    pub(crate) spanners: Vec<Spanner>,
    pub(crate) published_torques: Vec<PublishedTorque>,
    pub(crate) published_targets: Vec<PublishedTarget>,
}

const KSI: f64 = 6.894_757_293_168_361;
/// Long tons: 2240 lbf/in².
const TON_FORCE_PER_SQUARE_INCH: f64 = 2.24 * KSI;
const INCH: f64 = 25.4;

impl Tables {
    /// Reads and checks all files; `open` gives the text of one.
    pub(crate) fn read(open: impl Fn(&str) -> io::Result<String>) -> Result<Self, Complaint> {
        let open = |name: &'static str| open(name).map_err(|e| format!("{name}: {e}"));
        let sources = sources(&open("sources.csv")?)?;
        let known: BTreeSet<&str> = sources.iter().map(|s| s.id.as_str()).collect();
        let mut ids = BTreeSet::new();
        let mut all_threads = threads::unified(&open("threads_unified.csv")?, &known, &mut ids)?;
        all_threads.extend(threads::metric(
            &open("threads_metric.csv")?,
            &known,
            &mut ids,
        )?);
        all_threads.extend(threads::british(
            &open("threads_british.csv")?,
            &known,
            &mut ids,
        )?);
        let look_alikes = old_iron::look_alikes(&open("look_alikes.csv")?, &ids, &known)?;
        let spanners = old_iron::spanners(&open("spanners.csv")?, &all_threads, &known)?;
        let published = open("published_torques.csv")?;
        let published_torques = old_iron::published_torques(&published, &known)?;
        let printed = open("published_targets.csv")?;
        let published_targets = targets::published_targets(&printed, &known)?;
        let grades = grades(&open("grades.csv")?, &known)?;
        let mates = grades.iter().map(|g| g.id.as_str()).collect();
        let nuts = nuts(&open("nuts.csv")?, &known, &mates)?;
        let lubrications = lubrications(&open("lubrications.csv")?, &known)?;
        let across_flats = joints::across_flats(&open("across_flats.csv")?, &known)?;
        let parent_metals = joints::parent_metals(&open("parent_metals.csv")?, &known)?;
        let lock_nuts = procedures::lock_nuts(&open("lock_nuts.csv")?, &known)?;
        let (heads, steps) = (open("procedures.csv")?, open("steps.csv")?);
        let procedures = procedures::procedures(&heads, &steps, &known)?;
        Ok(Self {
            look_alikes,
            spanners,
            published_torques,
            published_targets,
            across_flats,
            parent_metals,
            lock_nuts,
            procedures,
            sources,
            threads: all_threads,
            grades,
            nuts,
            lubrications,
        })
    }
}

fn sources(text: &str) -> Result<Vec<Source>, Complaint> {
    let mut seen = BTreeSet::new();
    let rows = read("sources.csv", text, &["id", "citation"])?;
    rows.iter()
        .map(|row| {
            once(row, &mut seen, row.needed("id")?)?;
            Ok(Source {
                id: row.needed("id")?.to_owned(),
                citation: row.needed("citation")?.to_owned(),
            })
        })
        .collect()
}

fn grades(text: &str, known: &BTreeSet<&str>) -> Result<Vec<Grade>, Complaint> {
    let columns = [
        "id",
        "standard",
        "name",
        "aliases",
        "system",
        "size_min",
        "size_max",
        "proof",
        "yield",
        "tensile",
        "stress_unit",
        "hardness",
        "head_marking",
        "material",
        "use",
        "sources",
        "basis",
        "note",
    ];
    let mut grades: Vec<Grade> = Vec::new();
    for row in &read("grades.csv", text, &columns)? {
        let unit = stress_unit(row)?;
        let stress = |c| Ok::<_, Complaint>(row.number_if_any(c)?.map(|s| s * unit));
        let (proof, yields) = (stress("proof")?, stress("yield")?);
        let tensile = row.number("tensile")? * unit;
        let ladder = [proof, yields, Some(tensile)];
        if !ladder.iter().flatten().is_sorted_by(|a, b| a < b) {
            return Err(row.bad("proof, yield and tensile must rise in that order"));
        }
        let restriction = old_iron::restriction(row)?;
        if proof.is_none() && yields.is_none() && restriction != Some("Unproven") {
            return Err(row.bad("proof and yield are both empty: nothing to work with"));
        }
        let system = parts::system(row)?;
        let strength = Strength {
            range: Range::of(row, system)?,
            proof,
            yields,
            tensile,
            hardness: row.text("hardness").to_owned(),
            minimum_hrc: minimum_hrc(row)?,
            origin: Origin::of(row, known)?,
        };
        let id = row.id("id")?;
        let grade = Grade {
            id: id.clone(),
            standard: row.needed("standard")?.to_owned(),
            name: row.needed("name")?.to_owned(),
            aliases: row.phrases("aliases"),
            system,
            head_marking: row.needed("head_marking")?.to_owned(),
            material: row.needed("material")?.to_owned(),
            restriction,
            strengths: Vec::new(),
        };
        match grades.iter_mut().find(|g| g.id == grade.id) {
            None => grades.push(grade),
            Some(known) if known.same_head(&grade) => {}
            Some(_) => return Err(row.bad("differs from the rows above of the same id")),
        }
        // Just found or pushed, so it is there.
        if let Some(grade) = grades.iter_mut().find(|g| g.id == id) {
            let before = grade.strengths.iter().map(|s| &s.range);
            strength.range.clear_of(row, before)?;
            grade.strengths.push(strength);
        }
    }
    Ok(grades)
}

/// Minimum hardness of `HRC 33-39`; nothing for other scales.
fn minimum_hrc(row: &Row) -> Result<Option<f64>, Complaint> {
    let Some(range) = row.text("hardness").strip_prefix("HRC ") else {
        return Ok(None);
    };
    let ends = range
        .split_once('-')
        .map(|(low, high)| (positive(low), positive(high)));
    match ends {
        Some((Some(low), Some(high))) if low < high => Ok(Some(low)),
        _ => Err(row.bad(format_args!(
            "hardness is \"HRC {range}\", must be HRC low-high"
        ))),
    }
}

fn nuts(
    text: &str,
    known: &BTreeSet<&str>,
    grades: &BTreeSet<&str>,
) -> Result<Vec<Nut>, Complaint> {
    let columns = [
        "id",
        "standard",
        "name",
        "aliases",
        "style",
        "system",
        "size_min",
        "size_max",
        "threads",
        "proof",
        "stress_unit",
        "marking",
        "mates",
        "sources",
        "basis",
        "note",
    ];
    let mut nuts: Vec<Nut> = Vec::new();
    for row in &read("nuts.csv", text, &columns)? {
        let system = parts::system(row)?;
        let mates: Vec<String> = row.words("mates").iter().map(|m| as_id(m)).collect();
        if let Some(m) = mates.iter().find(|m| !grades.contains(m.as_str())) {
            return Err(row.bad(format_args!("mates with \"{m}\", which is no grade id")));
        }
        let series = row.words("threads");
        let proof = NutProof {
            range: Range::of(row, system)?,
            series: series
                .iter()
                .map(|s| parts::series(row, s))
                .collect::<Result<_, _>>()?,
            proof: row.number("proof")? * stress_unit(row)?,
            origin: Origin::of(row, known)?,
        };
        let id = row.id("id")?;
        let nut = Nut {
            id: id.clone(),
            standard: row.needed("standard")?.to_owned(),
            name: row.needed("name")?.to_owned(),
            aliases: row.phrases("aliases"),
            style: row.needed("style")?.to_owned(),
            system,
            marking: row.needed("marking")?.to_owned(),
            mates,
            proofs: Vec::new(),
        };
        match nuts.iter_mut().find(|n| n.id == nut.id) {
            None => nuts.push(nut),
            Some(known) if known.same_head(&nut) => {}
            Some(_) => return Err(row.bad("differs from the rows above of the same id")),
        }
        if let Some(nut) = nuts.iter_mut().find(|n| n.id == id) {
            let same_series = nut.proofs.iter().filter(|p| p.series == proof.series);
            proof.range.clear_of(row, same_series.map(|p| &p.range))?;
            nut.proofs.push(proof);
        }
    }
    Ok(nuts)
}

fn lubrications(text: &str, known: &BTreeSet<&str>) -> Result<Vec<Lubrication>, Complaint> {
    let columns = [
        "id",
        "name",
        "aliases",
        "nut_factor",
        "low_nut_factor",
        "high_nut_factor",
        "lubricated",
        "electroplated",
        "sources",
        "basis",
        "note",
    ];
    let (mut ids, mut spoken) = (BTreeSet::new(), BTreeSet::new());
    let rows = read("lubrications.csv", text, &columns)?;
    rows.iter()
        .map(|row| {
            once(row, &mut ids, &row.id("id")?)?;
            for phrase in [vec![row.needed("name")?.to_owned()], row.phrases("aliases")].concat() {
                once(row, &mut spoken, &phrase.to_lowercase())?;
            }
            let low = row.number("low_nut_factor")?;
            let typical = row.number("nut_factor")?;
            let high = row.number("high_nut_factor")?;
            if !(0.05 <= low && low <= typical && typical <= high && high <= 0.60) {
                return Err(row.bad("nut factors must rise from low to high inside 0.05 to 0.60"));
            }
            Ok(Lubrication {
                id: row.id("id")?,
                name: row.needed("name")?.to_owned(),
                aliases: row.phrases("aliases"),
                nut_factors: [typical, low, high],
                lubricated: yes_or_no(row, "lubricated")?,
                electroplated: yes_or_no(row, "electroplated")?,
                origin: Origin::of(row, known)?,
            })
        })
        .collect()
}

fn yes_or_no(row: &Row, column: &str) -> Result<bool, Complaint> {
    match row.needed(column)? {
        "yes" => Ok(true),
        "no" => Ok(false),
        other => Err(row.bad(format_args!("{column} is \"{other}\", must be yes or no"))),
    }
}

fn stress_unit(row: &Row) -> Result<f64, Complaint> {
    match row.needed("stress_unit")? {
        "MPa" => Ok(1.0),
        "ksi" => Ok(KSI),
        "tonf/in2" => Ok(TON_FORCE_PER_SQUARE_INCH),
        other => Err(row.bad(format_args!(
            "stress_unit is \"{other}\", must be MPa or ksi or tonf/in2"
        ))),
    }
}

fn once(row: &Row, seen: &mut BTreeSet<String>, what: &str) -> Result<(), Complaint> {
    match seen.insert(what.to_owned()) {
        true => Ok(()),
        false => Err(row.bad(format_args!("\"{what}\" is there twice"))),
    }
}
