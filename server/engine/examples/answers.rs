//! Answers questions from standard input, for comparison with a second implementation.
//!
//! Lines are `thread,grade,lubrication,proof_share,clamp_load_n,nut_factor,nut_grade,baked`, all but the
//! first three may be empty, `baked` is empty or `baked`. Each gets one line: the numbers with 17
//! significant digits, or `error,<field>` for the first thing that is wrong.

use clampbook_engine::{Answer, Ask, Catalogue, compute};
use std::io::{self, BufRead, BufWriter, Write};

fn main() -> io::Result<()> {
    let catalogue = Catalogue::built_in();
    let mut out = BufWriter::new(io::stdout().lock());
    for line in io::stdin().lock().lines() {
        let line = line?;
        let fields: Vec<&str> = line.split(',').collect();
        let [thread, grade, lubrication, share, load, factor, nut, baked] = fields[..] else {
            writeln!(out, "error,line")?;
            continue;
        };
        let numbers = (number(share), number(load), number(factor));
        let (Ok(proof_share), Ok(clamp_load_n), Ok(nut_factor)) = numbers else {
            writeln!(out, "error,line")?;
            continue;
        };
        let ask = Ask {
            thread,
            grade,
            lubrication,
            proof_share,
            clamp_load_n,
            nut_factor,
            nut_grade: Some(nut).filter(|nut| !nut.is_empty()),
            baked: baked == "baked",
            ..Ask::default()
        };
        match catalogue.resolve(&ask) {
            Ok(question) => write_answer(&mut out, &compute(&question))?,
            Err(faults) => writeln!(out, "error,{}", faults[0].field)?,
        }
    }
    out.flush()
}

fn number(text: &str) -> Result<Option<f64>, std::num::ParseFloatError> {
    match text {
        "" => Ok(None),
        text => text.parse().map(Some),
    }
}

fn write_answer(out: &mut impl Write, answer: &Answer<'_>) -> io::Result<()> {
    let numbers = [
        answer.torque.get(),
        answer.clamp_load.get(),
        answer.nut_factor.get(),
        answer.tensile_stress_area.get(),
        answer.proof_load.map_or(f64::NAN, |f| f.get()),
        answer.yield_load.map_or(f64::NAN, |f| f.get()),
        answer.tensile_load.get(),
        answer.nut_proof_load.map_or(f64::NAN, |f| f.get()),
        answer.scatter.minimum.get(),
        answer.scatter.maximum.get(),
        answer.scatter.relative_scatter,
        answer.literature.low_nut_factor.get(),
        answer.literature.high_nut_factor.get(),
        answer.literature.low_torque.get(),
        answer.literature.high_torque.get(),
    ];
    write!(out, "{}", answer.governed_by.id())?;
    for value in numbers {
        write!(out, ",{value:.16e}")?;
    }
    let mut findings: Vec<String> = answer
        .findings
        .iter()
        .map(|f| format!("{}={:?}={:.16e}", f.id.id(), f.severity, f.share))
        .collect();
    findings.sort_unstable();
    writeln!(out, ",{}", findings.join(" "))
}
