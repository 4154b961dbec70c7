//! Groups of lengths, length tolerances, orders, passes, corners and load shares from standard input, for comparison with a
//! second implementation.
//!
//! Lines are `odd,pitch,length:error;...`, `tolerance,length`, `order|loosen,ring|line,positions`,
//! `order|loosen,grid,rows:columns`, `passes,procedure,ring|line|grid,positions,torque`, `corners,flats` or
//! `share,bolt,members,plane`. Each gets one line: numbers separated by commas, groups by a bar, or `error`.

mod lines;

use clampbook_engine::{
    Purpose,
    joint::head::across_corners,
    length::{LengthGroup, Lengths, Measured, odd_lengths, standard_length_tolerance},
    procedure::{PlanAsk, PlannedStep, plan},
    sequence::{Layout, loosening_order, tightening_order},
    stretch::stiffness::load_share,
    units::{Millimetres, NewtonMetres, Stiffness},
};
use lines::{Wrong, answer_each, exact};

fn main() -> std::io::Result<()> {
    answer_each(answer)
}

fn answer(fields: &[&str]) -> Result<String, Wrong> {
    Ok(match fields {
        ["odd", pitch, lengths] => grouped(&odd_lengths(&measured(lengths)?, pitch.parse()?)),
        ["tolerance", length] => exact([standard_length_tolerance(length.parse()?)]),
        ["order", kind, count] => {
            let order = tightening_order(layout(kind, count)?)?;
            joined(order.iter().map(ToString::to_string), ",")
        }
        ["loosen", kind, count] => {
            let order = loosening_order(layout(kind, count)?)?;
            joined(order.iter().map(ToString::to_string), ",")
        }
        ["passes", procedure, kind, count, torque] => {
            let plan = plan(&PlanAsk {
                procedure,
                layout: layout(kind, count)?,
                purpose: Purpose::Clamping,
                is_gasketed: false,
                torque: Some(NewtonMetres::new(torque.parse()?)?),
                torque_is_published: true,
                back_off_degrees: None,
                pitch: None,
            });
            let steps = plan.map_err(|_| "refused")?.steps;
            joined(steps.iter().map(pass), "|")
        }
        ["corners", flats] => exact([across_corners(Millimetres::new(flats.parse()?)?).get()]),
        ["share", bolt, members, plane] => exact([load_share(
            Stiffness::new(bolt.parse()?)?,
            Stiffness::new(members.parse()?)?,
            plane.parse()?,
        )]),
        _ => return Err("no such question".into()),
    })
}

/// Torque of a step and the order it goes over its positions.
fn pass(step: &PlannedStep) -> String {
    let torque = step.torque.map_or(f64::NAN, NewtonMetres::get);
    let order = joined(step.positions.iter().map(ToString::to_string), " ");
    format!("{}:{order}", exact([torque]))
}

fn layout(kind: &str, count: &str) -> Result<Layout, Wrong> {
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

fn measured(text: &str) -> Result<Vec<Measured>, Wrong> {
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

fn joined(texts: impl Iterator<Item = String>, between: &str) -> String {
    texts.collect::<Vec<_>>().join(between)
}
