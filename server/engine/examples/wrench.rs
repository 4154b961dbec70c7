//! Wrench settings and restated torques from standard input, for comparison with a second implementation.
//!
//! Lines are `set,torque,run_on,wrench,adapter,angle,greatest,graduation` or `restate,torque,k1,k2,diameter` or
//! `turn,pitch,degrees`, in N·m, mm and degrees; run-on, wrench, adapter and angle may be empty. Each gets one line: the
//! numbers with 17 significant digits and the ids of what is found, or `error`.

use clampbook_engine::{
    procedure::along_thread,
    published::{implied_clamp_load, restated},
    units::{Millimetres, NewtonMetres, NutFactor},
    wrench::{Adapter, Calibration, Wrench, setting},
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
    match fields {
        [
            "set",
            torque,
            run_on,
            wrench,
            adapter,
            angle,
            greatest,
            graduation,
        ] => {
            let run_on = number(run_on)?.map(NewtonMetres::new).transpose()?;
            let adapter = match (number(wrench)?, number(adapter)?, number(angle)?) {
                (Some(l), Some(e), Some(angle)) => Some(Adapter::new(
                    Millimetres::new(l)?,
                    Millimetres::new(e)?,
                    angle,
                )?),
                _ => None,
            };
            let setting = setting(
                NewtonMetres::new(torque.parse()?)?,
                run_on,
                adapter.as_ref(),
            )?;
            let wrench = Wrench {
                least: None,
                greatest: NewtonMetres::new(greatest.parse()?)?,
                graduation: NewtonMetres::new(graduation.parse()?)?,
                stated_deviation: None,
                calibration: Calibration::InDate,
            };
            let fit = wrench.checked().map_err(|(_, e)| e)?.judge(setting);
            let found: Vec<_> = fit.findings.iter().map(|f| f.id()).collect();
            Ok(format!(
                "{:.16e},{:.16e},{:.16e},{:.16e},{}",
                setting.get(),
                fit.set.map_or(f64::NAN, NewtonMetres::get),
                fit.least.get(),
                fit.greatest.get(),
                found.join(" ")
            ))
        }
        ["restate", torque, k1, k2, diameter] => {
            let t1 = NewtonMetres::new(torque.parse()?)?;
            let (k1, k2) = (NutFactor::new(k1.parse()?)?, NutFactor::new(k2.parse()?)?);
            let load = implied_clamp_load(t1, k1, Millimetres::new(diameter.parse()?)?);
            let t2 = restated(t1, k1, k2)?;
            Ok(format!("{:.16e},{:.16e}", t2.get(), load.get()))
        }
        ["turn", pitch, degrees] => {
            let way = along_thread(Millimetres::new(pitch.parse()?)?, degrees.parse()?)?;
            Ok(format!("{:.16e}", way.get()))
        }
        _ => Err("no such line".into()),
    }
}

fn number(text: &str) -> Result<Option<f64>, std::num::ParseFloatError> {
    match text {
        "" => Ok(None),
        text => text.parse().map(Some),
    }
}
