//! British geometry, insert holes and overlap of look-alikes from standard input, for a second implementation.
//!
//! Lines are `thread,id` or `overlap,external id,internal id`. Each gets one line of numbers with 17 significant digits:
//! d2, d3, D1, As, and of the insert hole major, pitch, minor and gain, where there is one; or `error`.

use clampbook_engine::{Catalogue, identify::overlap_share, insert::insert_hole};
use std::io::{self, BufRead, BufWriter, Write};

fn main() -> io::Result<()> {
    let catalogue = Catalogue::built_in();
    let mut out = BufWriter::new(io::stdout().lock());
    for line in io::stdin().lock().lines() {
        let line = line?;
        let fields: Vec<&str> = line.split(',').collect();
        let numbers = answer(&catalogue, &fields);
        let numbers: Vec<String> = numbers.iter().map(|n| format!("{n:.16e}")).collect();
        match numbers.is_empty() {
            true => writeln!(out, "error")?,
            false => writeln!(out, "{}", numbers.join(","))?,
        }
    }
    out.flush()
}

fn answer(catalogue: &Catalogue, fields: &[&str]) -> Vec<f64> {
    match fields {
        ["thread", id] => catalogue.thread_by_id(id).map_or_else(Vec::new, |thread| {
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
            all
        }),
        ["overlap", external, internal] => {
            let pair = catalogue
                .thread_by_id(external)
                .zip(catalogue.thread_by_id(internal));
            pair.map_or_else(Vec::new, |(screw, nut)| vec![overlap_share(screw, nut)])
        }
        _ => Vec::new(),
    }
}
