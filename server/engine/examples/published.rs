//! Published values from standard input: units, what a torque implies, rows in other units, lock nuts; for comparison
//! with a second implementation.
//!
//! Lines are `torque,text`, `length,text`, `show,N·m,unit`, `slip,thread,grade,torque,published lubrication,lubrication,confirmed`,
//! `row,id`, `target,id` or `lock,thread,kind,N·m`. Each gets one line of numbers and words, or `error`.

mod lines;

use clampbook_engine::{
    Catalogue, Purpose,
    lock_nut::{LockNutKind, UsedNut},
    published::{Published, PublishedAsk, UnitCheck},
    published_rows::published_torques,
    published_targets::{Target, published_targets},
    quantity::{Length, Torque, TorqueUnit},
    show,
    units::{NewtonMetres, Newtons},
};
use lines::{Wrong, answer_each, exact};

fn main() -> std::io::Result<()> {
    let catalogue = Catalogue::built_in();
    answer_each(|fields| answer(&catalogue, fields))
}

fn answer(catalogue: &Catalogue, fields: &[&str]) -> Result<String, Wrong> {
    Ok(match fields {
        ["torque", text] => exact([Torque::parse(text)?.torque.get()]),
        ["length", text] => exact([Length::parse(text)?.length.get()]),
        ["show", torque, unit] => {
            let unit = TorqueUnit::parse(unit).ok_or("no unit")?;
            show::torque(NewtonMetres::new(torque.parse()?)?, unit)
        }
        [
            "slip",
            thread,
            grade,
            torque,
            published,
            lubrication,
            confirmed,
        ] => {
            let examined = catalogue.examine(&PublishedAsk {
                thread,
                grade,
                torque: Torque::parse(torque)?,
                published_lubrication: published,
                lubrication,
                flat_seats: true,
                purpose: Purpose::Clamping,
                unit_is_confirmed: *confirmed == "confirmed",
            });
            implied(&examined.map_err(|_| "refused")?)
        }
        ["row", id] => {
            let row = published_torques().find(|row| row.id() == *id);
            let (low, high) = row.ok_or("no row")?.range();
            exact([low.get(), high.get()])
        }
        ["target", id] => {
            let row = published_targets().find(|row| row.id() == *id);
            match row.ok_or("no row")?.target() {
                Target::Turn(angle) => exact([angle.get()]),
                Target::ClampLoad {
                    minimum,
                    nominal,
                    maximum,
                } => {
                    let known = |load: Option<Newtons>| load.map_or(f64::NAN, Newtons::get);
                    exact([minimum.get(), known(nominal), known(maximum)])
                }
            }
        }
        ["lock", thread, kind, measured] => {
            let kind = match *kind {
                "all-metal" => LockNutKind::AllMetal,
                "insert" => LockNutKind::Insert,
                _ => LockNutKind::Any,
            };
            let thread = catalogue.thread(thread).map_err(|_| "no thread")?;
            let nut = UsedNut::judge(thread, kind, NewtonMetres::new(measured.parse()?)?);
            let minimum = exact(nut.minimum.iter().map(|l| l.torque.get()));
            let severity = nut.severity().map(|s| format!("{s:?}"));
            format!("{}|{minimum}", severity.unwrap_or_default())
        }
        _ => return Err("no such question".into()),
    })
}

/// Load and share; the verdict on the unit with its other readings; the torque for the other lubricant.
fn implied(p: &Published<'_>) -> String {
    let first = exact([p.clamp_load.get(), p.share_of_proof.unwrap_or(f64::NAN)]);
    let unit = match p.unit {
        UnitCheck::NotChecked => "not checked".to_owned(),
        UnitCheck::Believable => "believable".to_owned(),
        UnitCheck::Confirmed => "confirmed".to_owned(),
        UnitCheck::Ask { readings } => {
            let each = readings.iter().map(|r| {
                let numbers = exact([r.torque.get(), r.share_of_proof, r.factor]);
                format!("{}={numbers}", r.unit.symbol())
            });
            format!("ask;{}", each.collect::<Vec<_>>().join(";"))
        }
    };
    let restated = p.restated.map_or_else(String::new, |r| {
        exact([r.torque.get(), r.ratio, r.minimum.get(), r.maximum.get()])
    });
    [first, unit, restated].join("|")
}
