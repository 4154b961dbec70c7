//! What a measured thread may be, and what a spanner is for, from standard input, for comparison with a second
//! implementation.
//!
//! Lines are `thread,external|internal,diameter,error,wear,pitch,pitch error,angle`, all but the first three may be
//! empty, or `spanner,width`; in mm and degrees. The first gets `verdict=id=worn=misfits=off;...|what to try|...`, the
//! second `size=fit;...`.

mod lines;

use clampbook_engine::{
    Catalogue,
    identify::{Candidate, Identified, Measured, MeasuredAsk},
    units::Millimetres,
};
use lines::{Wrong, answer_each, exact, optional};

fn main() -> std::io::Result<()> {
    let catalogue = Catalogue::built_in();
    answer_each(|fields| answer(&catalogue, fields))
}

fn answer(catalogue: &Catalogue, fields: &[&str]) -> Result<String, Wrong> {
    match fields {
        [
            "thread",
            side,
            diameter,
            error,
            wear,
            pitch,
            pitch_error,
            angle,
        ] => {
            let measured = Measured::new(&MeasuredAsk {
                internal: *side == "internal",
                diameter_mm: diameter.parse()?,
                diameter_error_mm: optional(error)?,
                wear_mm: optional(wear)?,
                pitch_mm: optional(pitch)?,
                pitch_error_mm: optional(pitch_error)?,
                flank_angle_deg: optional(angle)?,
            });
            let measured = measured.map_err(|_| "outside its bounds")?;
            Ok(told(&catalogue.identify_thread(&measured)))
        }
        ["spanner", width] => {
            let found = catalogue.identify_spanner(Millimetres::new(width.parse()?)?);
            let told = found
                .iter()
                .map(|m| format!("{}={:?}", m.thread_size.replace(", ", "/"), m.fit));
            Ok(told.collect::<Vec<_>>().join(";"))
        }
        _ => Err("no such question".into()),
    }
}

fn told(found: &Identified<'_>) -> String {
    let candidates = found.candidates.iter().map(one).collect::<Vec<_>>();
    [candidates.join(";"), found.try_next.join("|")].join("|")
}

fn one(c: &Candidate<'_>) -> String {
    let misfits: Vec<_> = c.misfits.iter().map(|m| format!("{m:?}")).collect();
    format!(
        "{:?}={}={}={}={}",
        c.verdict,
        c.thread.id(),
        c.only_if_worn,
        misfits.join("+"),
        exact([c.off_mm])
    )
}
