//! Groups of lengths, length tolerances, orders, corners and load shares from standard input, for comparison with a second
//! implementation.
//!
//! Lines are `odd,pitch,length:error;...`, `tolerance,length`, `order,ring|line,positions`, `order,grid,rows:columns`,
//! `corners,flats` or `share,bolt,members,plane`. Each gets one line: numbers separated by commas, groups by a bar, or `error`.

use clampbook_engine::{
    joint::head::across_corners,
    length::{LengthGroup, Lengths, Measured, odd_lengths, standard_length_tolerance},
    order::{Layout, tightening_order},
    stretch::stiffness::load_share,
    units::{Millimetres, Stiffness},
};
use std::{
    error::Error,
    io::{self, BufRead, BufWriter, Write},
};

fn main() -> io::Result<()> {
    let mut out = BufWriter::new(io::stdout().lock());
    for line in io::stdin().lock().lines() {
        let line = line?;
        let fields: Vec<&str> = line.split(',').collect();
        match answer(&fields) {
            Ok(said) => writeln!(out, "{said}")?,
            Err(_) => writeln!(out, "error")?,
        }
    }
    out.flush()
}

fn answer(fields: &[&str]) -> Result<String, Box<dyn Error>> {
    Ok(match fields {
        ["odd", pitch, lengths] => grouped(&odd_lengths(&measured(lengths)?, pitch.parse()?)),
        ["tolerance", length] => exact(standard_length_tolerance(length.parse()?)),
        ["order", kind, count] => {
            let order = tightening_order(layout(kind, count)?)?;
            joined(order.iter().map(ToString::to_string), ",")
        }
        ["corners", flats] => exact(across_corners(Millimetres::new(flats.parse()?)?).get()),
        ["share", bolt, members, plane] => exact(load_share(
            Stiffness::new(bolt.parse()?)?,
            Stiffness::new(members.parse()?)?,
            plane.parse()?,
        )),
        _ => return Err("no such question".into()),
    })
}

fn layout(kind: &str, count: &str) -> Result<Layout, Box<dyn Error>> {
    Ok(match (kind, count.split_once(':')) {
        ("ring", _) => Layout::Ring {
            positions: count.parse()?,
        },
        ("line", _) => Layout::Line {
            positions: count.parse()?,
        },
        ("grid", Some((rows, columns))) => Layout::Grid {
            rows: rows.parse()?,
            columns: columns.parse()?,
        },
        _ => return Err("no such layout".into()),
    })
}

fn measured(text: &str) -> Result<Vec<Measured>, Box<dyn Error>> {
    let all = text.split(';').filter(|one| !one.is_empty());
    all.zip(1..)
        .map(|(one, position)| {
            let (length, error) = one.split_once(':').ok_or("no error of measuring")?;
            Ok(Measured {
                position,
                length_mm: length.parse()?,
                uncertainty_mm: error.parse()?,
            })
        })
        .collect()
}

/// `odd|` or `mixed|` or `alike|` and the positions of each group, the majority first.
fn grouped(lengths: &Lengths) -> String {
    let group = |g: &LengthGroup| joined(g.positions.iter().map(ToString::to_string), ",");
    let groups = |groups: &[LengthGroup]| joined(groups.iter().map(group), "|");
    match lengths {
        Lengths::NothingToCompare => "nothing".to_owned(),
        Lengths::Alike(all) => format!("alike|{}", group(all)),
        Lengths::Odd { majority, odd } => format!("odd|{}|{}", group(majority), groups(odd)),
        Lengths::NoMajority(all) => format!("mixed|{}", groups(all)),
    }
}

fn exact(number: f64) -> String {
    format!("{number:.16e}")
}

fn joined(texts: impl Iterator<Item = String>, between: &str) -> String {
    texts.collect::<Vec<_>>().join(between)
}
