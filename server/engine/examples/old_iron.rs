//! British geometry, insert holes and overlap of look-alikes from standard input, for a second implementation.
//!
//! Lines are `thread,id` or `overlap,external id,internal id`. Each gets one line of numbers with 17 significant digits:
//! d2, d3, D1, As, and of the insert hole major, pitch, minor and gain, where there is one; or `error`.

mod lines;

use clampbook_engine::{Catalogue, identify::overlap_share, insert::insert_hole};
use lines::{Wrong, answer_each, exact};

fn main() -> std::io::Result<()> {
    let catalogue = Catalogue::built_in();
    answer_each(|fields| answer(&catalogue, fields))
}

fn answer(catalogue: &Catalogue, fields: &[&str]) -> Result<String, Wrong> {
    match fields {
        ["thread", id] => {
            let thread = catalogue.thread_by_id(id).ok_or("no thread")?;
            let g = thread.geometry();
            let mut all = vec![
                g.pitch_diameter.get(),
                g.external_minor_diameter.get(),
                g.internal_minor_diameter.get(),
                g.tensile_stress_area.get(),
            ];
            if let Some(hole) = insert_hole(thread) {
                let sizes = [hole.major, hole.pitch, hole.minor];
                all.extend(sizes.map(clampbook_engine::units::Millimetres::get));
                all.push(hole.shear_gain);
            }
            Ok(exact(all))
        }
        ["overlap", external, internal] => {
            let screw = catalogue.thread_by_id(external).ok_or("no screw")?;
            let nut = catalogue.thread_by_id(internal).ok_or("no nut")?;
            Ok(exact([overlap_share(screw, nut)]))
        }
        _ => Err("no such question".into()),
    }
}
