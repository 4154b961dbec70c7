//! Rows of the catalogue on the wire: threads, grades, nuts, lubrications, and sources.

use clampbook_api::v1 as wire;
use clampbook_app::catalogue::thread_note;
use clampbook_app::names;
use clampbook_engine::grade::{Strength, not_computed};
use clampbook_engine::insert::insert_hole;
use clampbook_engine::show;
use clampbook_engine::source::{Basis, Cited, Origin, UsedFor};
use clampbook_engine::thread::{self, System};
use clampbook_engine::units::{Degrees, Megapascals};
use clampbook_engine::{Grade, Lubrication, Nut, Thread};

/// Exact, since 1 in is 25.4 mm.
const SQUARE_MILLIMETRES_PER_SQUARE_INCH: f64 = 25.4 * 25.4;

/// A source with what it was used for.
pub(crate) fn cited(cited: &Cited<'_>) -> wire::Source {
    wire::Source {
        source: cited.source.id.to_string(),
        citation: cited.source.citation.to_string(),
        basis: basis(cited.basis).into(),
        used_for: cited.used_for.text().into(),
    }
}

/// A thread on the wire.
pub(crate) fn thread(thread: &Thread) -> wire::Thread {
    let geometry = thread.geometry();
    let per_inch = thread
        .threads_per_inch()
        .map(|count| format!(", {count} threads per inch"));
    let printed = published_area(thread);
    wire::Thread {
        name: names::row("threads", thread.id()),
        designation: thread.designation().into(),
        series: thread::series_name(thread.series()).into(),
        major_diameter_mm: thread.diameter().get(),
        pitch_mm: thread.pitch().get(),
        pitch_diameter_mm: geometry.pitch_diameter.get(),
        minor_diameter_mm: geometry.external_minor_diameter.get(),
        tensile_stress_area_mm2: geometry.tensile_stress_area.get(),
        published_stress_area_mm2: printed,
        major_diameter_text: mm(thread.diameter().get()),
        pitch_text: mm(thread.pitch().get()) + &per_inch.unwrap_or_default(),
        pitch_diameter_text: mm(geometry.pitch_diameter.get()),
        minor_diameter_text: mm(geometry.external_minor_diameter.get()),
        tensile_stress_area_text: show::area(geometry.tensile_stress_area.get()),
        published_stress_area_text: printed.map(show::area).unwrap_or_default(),
        flank_angle_text: Degrees::new(thread.flank_angle_deg())
            .map(show::angle)
            .unwrap_or_default(),
        threads_per_inch: thread.threads_per_inch(),
        sources: sources(thread.origin()),
        flank_angle_degrees: thread.flank_angle_deg(),
        note: thread_note(thread),
        insert_hole: insert_hole(thread).map(|hole| wire::InsertHole {
            major_diameter_mm: hole.major.get(),
            pitch_diameter_mm: hole.pitch.get(),
            minor_diameter_mm: hole.minor.get(),
            shear_ratio: hole.shear_gain,
            text: format!(
                "major {}, pitch {}, minor {} at least; the parent metal shears over {} times the length (from memory)",
                mm(hole.major.get()),
                mm(hole.pitch.get()),
                mm(hole.minor.get()),
                show::ratio(hole.shear_gain)
            ),
            sources: vec![cited(&hole.source)],
        }),
    }
}

/// The stress area as printed, in square millimetres.
fn published_area(thread: &Thread) -> Option<f64> {
    let area = thread.published_stress_area()?;
    Some(match thread.system() {
        System::Metric => area.value,
        System::Inch | System::British => area.value * SQUARE_MILLIMETRES_PER_SQUARE_INCH,
    })
}

/// Threads are told in millimetres, whatever their family.
fn mm(mm: f64) -> String {
    show::dimension(mm, System::Metric)
}

/// A grade on the wire.
pub(crate) fn grade(grade: &Grade) -> wire::Grade {
    wire::Grade {
        name: names::row("grades", grade.id()),
        standard: grade.standard().into(),
        designation: grade.name().into(),
        aliases: texts(grade.aliases()),
        head_marking: grade.head_marking().into(),
        material: grade.material().into(),
        not_computed: grade.restriction().map_or_else(String::new, |restriction| {
            let (why, instead) = not_computed(restriction);
            format!("No torque is computed with it: {why}. {instead}")
        }),
        strengths: grade
            .strengths()
            .map(|strength| {
                let (minimum, maximum) = strength.sizes_mm();
                wire::Strength {
                    minimum_diameter_mm: minimum,
                    over_minimum_diameter: strength.smallest_is_outside(),
                    maximum_diameter_mm: maximum,
                    proof_stress_mpa: strength.proof().map(|s| s.get()),
                    yield_strength_mpa: strength.yield_stress().map(|s| s.get()),
                    tensile_strength_mpa: strength.tensile().get(),
                    hardness: strength.hardness().into(),
                    sources: sources(strength.origin()),
                    note: strength.origin().note.into(),
                    text: strength_text(&strength),
                }
            })
            .collect(),
    }
}

fn strength_text(strength: &Strength) -> String {
    let (minimum, maximum) = strength.sizes_mm();
    let given = |stress: Option<Megapascals>| {
        stress.map_or("not given".to_owned(), |stress| show::figures(stress.get()))
    };
    let note = match strength.origin().note {
        "" => String::new(),
        note => format!(". {note}"),
    };
    format!(
        "{}: proof {}, yield {}, tensile {}{note}",
        show::size_range(minimum, strength.smallest_is_outside(), maximum),
        given(strength.proof()),
        given(strength.yield_stress()),
        show::stress(strength.tensile())
    )
}

/// A nut grade on the wire.
pub(crate) fn nut(nut: &Nut) -> wire::NutGrade {
    wire::NutGrade {
        name: names::row("nutGrades", nut.id()),
        standard: nut.standard().into(),
        designation: nut.name().into(),
        aliases: texts(nut.aliases()),
        head_marking: nut.marking().into(),
        mates: nut.mates().join(", "),
        proofs: nut
            .proofs()
            .map(|proof| {
                let (minimum, maximum) = proof.sizes_mm();
                let series: Vec<&str> = (proof.series().iter())
                    .map(|series| thread::series_name(*series))
                    .collect();
                let sizes = show::size_range(minimum, proof.smallest_is_outside(), maximum);
                let holds: Vec<&str> = std::iter::once(sizes.as_str())
                    .chain(series.iter().copied())
                    .collect();
                wire::NutProof {
                    text: format!("{}: {}", holds.join(", "), show::stress(proof.stress())),
                    minimum_diameter_mm: minimum,
                    over_minimum_diameter: proof.smallest_is_outside(),
                    maximum_diameter_mm: maximum,
                    series: series.join(", "),
                    proof_stress_mpa: proof.stress().get(),
                    sources: sources(proof.origin()),
                }
            })
            .collect(),
    }
}

/// A lubrication on the wire.
pub(crate) fn lubrication(lubrication: &Lubrication) -> wire::Lubrication {
    wire::Lubrication {
        name: names::lubrication(lubrication.id()),
        display_name: lubrication.name().into(),
        aliases: texts(lubrication.aliases()),
        nut_factor: lubrication.nut_factor().get(),
        low_nut_factor: lubrication.low_nut_factor().get(),
        high_nut_factor: lubrication.high_nut_factor().get(),
        relative_scatter: lubrication.relative_scatter(),
        nut_factor_text: show::nut_factor(lubrication.nut_factor()),
        reported_text: format!(
            "{} to {}",
            show::nut_factor(lubrication.low_nut_factor()),
            show::nut_factor(lubrication.high_nut_factor())
        ),
        scatter_text: band(lubrication.relative_scatter()),
        sources: lubrication
            .cited(UsedFor::NutFactor)
            .map(|one| wire::Source {
                used_for: String::new(),
                ..cited(&one)
            })
            .collect(),
        ..wire::Lubrication::default()
    }
}

/// The band of the clamp load for people.
pub(crate) fn band(relative_scatter: f64) -> String {
    format!("± {}", show::percent(relative_scatter))
}

pub(crate) fn sources(origin: &Origin) -> Vec<wire::Source> {
    origin
        .sources
        .iter()
        .map(|source| wire::Source {
            source: source.id.to_string(),
            citation: source.citation.to_string(),
            basis: basis(origin.basis).into(),
            used_for: String::new(),
        })
        .collect()
}

fn texts(texts: &[&str]) -> Vec<String> {
    texts.iter().map(|text| (*text).to_owned()).collect()
}

pub(crate) const fn basis(basis: Basis) -> wire::Basis {
    match basis {
        Basis::Found => wire::Basis::Found,
        Basis::Computed => wire::Basis::Computed,
        Basis::FoundAndComputed => wire::Basis::FoundAndComputed,
        Basis::Memory => wire::Basis::Memory,
        Basis::CommonPractice => wire::Basis::CommonPractice,
        Basis::Shop => wire::Basis::Shop,
    }
}
