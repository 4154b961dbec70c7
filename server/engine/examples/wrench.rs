//! Wrench settings, the choice of a wrench and restated torques from standard input, for comparison with a second
//! implementation.
//!
//! Lines are `set,torque,prevailing_torque,wrench,adapter,angle,tool`, `choose,torque,tool,tool,...`, `read,torque,graduation`,
//! `restate,torque,k1,k2,diameter` or `turn,pitch,degrees`, in N·m, mm and degrees; prevailing torque, wrench, adapter and angle may
//! be empty. A tool is `maximum:graduation:minimum:deviation:calibration`. Each gets one line of numbers with 17
//! significant digits and the ids of what is found, or `error`.

mod lines;

use clampbook_engine::{
    procedure::along_thread,
    published::{implied_clamp_load, restated},
    quantity::Torque,
    units::{Millimetres, NewtonMetres, NutFactor},
    wrench::{Adapter, Calibration, Reading, Wrench, choose, setting},
};
use lines::{Wrong, answer_each, exact, optional};

fn main() -> std::io::Result<()> {
    answer_each(answer)
}

fn answer(fields: &[&str]) -> Result<String, Wrong> {
    match fields {
        [
            "set",
            torque,
            prevailing_torque,
            wrench,
            adapter,
            angle,
            said,
        ] => {
            let prevailing_torque = optional(prevailing_torque)?
                .map(NewtonMetres::new)
                .transpose()?;
            let adapter = match (optional(wrench)?, optional(adapter)?, optional(angle)?) {
                (Some(l), Some(e), Some(angle)) => Some(Adapter::new(
                    Millimetres::new(l)?,
                    Millimetres::new(e)?,
                    angle,
                )?),
                _ => None,
            };
            let torque = NewtonMetres::new(torque.parse()?)?;
            let setting = setting(torque, prevailing_torque, adapter.as_ref())?;
            let fit = tool(said)?.judge(setting);
            let found: Vec<_> = fit.findings.iter().map(|f| f.id()).collect();
            let numbers = exact([
                setting.get(),
                fit.set.map_or(f64::NAN, NewtonMetres::get),
                fit.minimum.get(),
                fit.maximum.get(),
                fit.rounding,
                fit.share_of_scale,
            ]);
            Ok(format!("{numbers},{}", found.join(" ")))
        }
        ["choose", torque, tools @ ..] => {
            let tools = tools.iter().map(|said| tool(said));
            let tools = tools.collect::<Result<Vec<_>, _>>()?;
            let chosen = choose(&tools, NewtonMetres::new(torque.parse()?)?);
            Ok(chosen.map_or_else(|| "none".to_owned(), |index| index.to_string()))
        }
        ["read", torque, graduation] => {
            let torque = NewtonMetres::new(torque.parse()?)?;
            Ok(Reading::on(&Torque::parse(graduation)?, torque).text)
        }
        ["restate", torque, k1, k2, diameter] => {
            let t1 = NewtonMetres::new(torque.parse()?)?;
            let (k1, k2) = (NutFactor::new(k1.parse()?)?, NutFactor::new(k2.parse()?)?);
            let load = implied_clamp_load(t1, k1, Millimetres::new(diameter.parse()?)?);
            Ok(exact([restated(t1, k1, k2)?.get(), load.get()]))
        }
        ["turn", pitch, degrees] => {
            let way = along_thread(Millimetres::new(pitch.parse()?)?, degrees.parse()?)?;
            Ok(exact([way.get()]))
        }
        _ => Err("no such question".into()),
    }
}

fn tool(said: &str) -> Result<Wrench, Wrong> {
    let parts: Vec<&str> = said.split(':').collect();
    let [maximum, graduation, minimum, deviation, calibration] = parts[..] else {
        return Err("no tool".into());
    };
    let wrench = Wrench {
        minimum: optional(minimum)?.map(NewtonMetres::new).transpose()?,
        maximum: NewtonMetres::new(maximum.parse()?)?,
        graduation: NewtonMetres::new(graduation.parse()?)?,
        stated_deviation: optional(deviation)?,
        calibration: match calibration {
            "in date" => Calibration::InDate,
            "overdue" => Calibration::Overdue,
            "bad" => Calibration::KnownBad,
            _ => Calibration::Unknown,
        },
    };
    Ok(wrench.checked().map_err(|(_, e)| e)?)
}
