//! Answers questions about strength, stretch and lengths from standard input, for comparison with a
//! second implementation.
//!
//! Each line is `what,arguments...`; each gets one line: the numbers with 17 significant digits, or
//! `error,<field>`.

use clampbook_engine::{
    Ask, Catalogue, Fault,
    joint::{
        GripLayer, GripStack, JointAsk, LengthAsk, StretchAsk, TappedHole, check_joint, fit_length,
        stretch,
    },
    long_form::{LongAsk, compute_long_form},
    strength::limits::{Fit, external_limits, internal_limits},
    stretch::castle::{slot_step, washer_change},
    units::{Degrees, Millimetres},
};
use std::io::{self, BufRead, BufWriter, Write};

fn main() -> io::Result<()> {
    let catalogue = Catalogue::built_in();
    let mut out = BufWriter::new(io::stdout().lock());
    for line in io::stdin().lock().lines() {
        let line = line?;
        let fields: Vec<&str> = line.split(',').collect();
        match answer(&catalogue, &fields) {
            Ok(numbers) => {
                let shown: Vec<String> = numbers.iter().map(|n| format!("{n:.16e}")).collect();
                writeln!(out, "{}", shown.join(","))?;
            }
            Err(field) => writeln!(out, "error,{field}")?,
        }
    }
    out.flush()
}

type Numbers = Result<Vec<f64>, String>;

fn answer(catalogue: &Catalogue, fields: &[&str]) -> Numbers {
    match fields {
        ["long", rest @ ..] => long(catalogue, rest),
        ["limits", thread, fit] => limits(catalogue, thread, fit),
        ["joint", rest @ ..] => joint(catalogue, rest),
        ["stretch", rest @ ..] => stretched(catalogue, rest),
        ["length", rest @ ..] => length(catalogue, rest),
        ["slots", slots, holes] => {
            let count = |text: &str| text.parse().map_err(|_| "line".to_owned());
            Ok(vec![slot_step(count(slots)?, count(holes)?).get()])
        }
        ["washers", rest @ ..] => washers(rest),
        _ => Err("line".to_owned()),
    }
}

fn number(text: &str) -> Result<f64, String> {
    text.parse().map_err(|_| "line".to_owned())
}

fn optional(text: &str) -> Result<Option<f64>, String> {
    match text {
        "" => Ok(None),
        text => number(text).map(Some),
    }
}

fn first(faults: &[Fault]) -> String {
    faults
        .first()
        .map_or("torque", |fault| fault.field)
        .to_owned()
}

fn long(catalogue: &Catalogue, fields: &[&str]) -> Numbers {
    let [
        thread,
        grade,
        mt,
        mb,
        low,
        high,
        seat,
        cone,
        proof,
        yields,
        load,
    ] = fields
    else {
        return Err("line".to_owned());
    };
    let ask = LongAsk {
        thread,
        grade,
        thread_friction: number(mt)?,
        bearing_friction: number(mb)?,
        friction_low: optional(low)?,
        friction_high: optional(high)?,
        bearing_diameter_mm: optional(seat)?,
        cone_half_angle_degrees: optional(cone)?,
        proof_share: optional(proof)?,
        yield_share: optional(yields)?,
        clamp_load_n: optional(load)?,
        ..LongAsk::default()
    };
    let question = catalogue.resolve_long_form(&ask).map_err(|f| first(&f))?;
    let answer = compute_long_form(&question);
    let mut numbers = vec![
        answer.torque.get(),
        answer.clamp_load.get(),
        answer.helix_torque.get(),
        answer.thread_torque.get(),
        answer.bearing_torque.get(),
        answer.loosening_torque_nm,
        answer.equivalent_nut_factor,
        answer.combined_plastic.get(),
        answer.combined_elastic.get(),
    ];
    if let Some(spread) = answer.friction {
        numbers.extend([
            spread.low_torque.get(),
            spread.high_torque.get(),
            spread.minimum_clamp_load.get(),
            spread.maximum_clamp_load.get(),
        ]);
    }
    Ok(numbers)
}

fn limits(catalogue: &Catalogue, thread: &str, fit: &str) -> Numbers {
    let thread = catalogue.thread(thread).map_err(|_| "thread")?;
    let fit = if fit == "close" {
        Fit::Close
    } else {
        Fit::Medium
    };
    let outer = external_limits(thread, fit).ok_or("fit")?;
    let inner = internal_limits(thread, fit).ok_or("fit")?;
    let both = [outer.major, outer.pitch, inner.pitch, inner.minor];
    Ok(both
        .iter()
        .flat_map(|l| [l.minimum.get(), l.most.get()])
        .collect())
}

/// `metal:thickness` for each layer, separated by `;`.
fn layers(text: &str) -> Result<Vec<GripLayer>, String> {
    text.split(';')
        .map(|layer| {
            let (metal, thickness) = layer.split_once(':').ok_or("line")?;
            Ok(GripLayer {
                metal: metal.into(),
                thickness_mm: number(thickness)?,
                outer_diameter_mm: None,
            })
        })
        .collect()
}

/// `metal:depth`, or nothing for a nut.
fn tapped(text: &str) -> Result<Option<TappedHole>, String> {
    if text.is_empty() {
        return Ok(None);
    }
    let (metal, depth) = text.split_once(':').ok_or("line")?;
    Ok(Some(TappedHole {
        metal: metal.into(),
        shear_mpa: None,
        full_thread_mm: number(depth)?,
        blind: true,
        insert: false,
    }))
}

fn stack(stacked: &str, far: &str, bolt: &str) -> Result<GripStack, String> {
    Ok(GripStack {
        layers: layers(stacked)?,
        tapped: tapped(far)?,
        bolt_length_mm: optional(bolt)?,
        ..GripStack::default()
    })
}

fn tighten<'a>(thread: &'a str, grade: &'a str) -> Ask<'a> {
    Ask {
        thread,
        grade,
        lubrication: "dry",
        ..Ask::default()
    }
}

fn joint(catalogue: &Catalogue, fields: &[&str]) -> Numbers {
    let [thread, grade, stacked, far, bolt] = fields else {
        return Err("line".to_owned());
    };
    let ask = JointAsk {
        torque: tighten(thread, grade),
        stack: &stack(stacked, far, bolt)?,
        ..JointAsk::default()
    };
    let question = catalogue
        .resolve_joint(&ask)
        .map_err(|faults| first(&faults.stack))?;
    let checked = check_joint(&question);
    let engagement = checked.engagement;
    let mut numbers = vec![
        engagement.by_strength_mm,
        engagement.by_trade_mm.unwrap_or(f64::NAN),
        engagement.equal_strength_mm,
        engagement.external_area_per_mm,
        engagement.internal_area_per_mm,
    ];
    for id in ["bolt-thread", "tapped-thread"] {
        let partner = checked.partners.iter().find(|partner| partner.id == id);
        numbers.push(partner.map_or(f64::NAN, |partner| partner.capacity.get()));
    }
    numbers.extend(checked.bearing.iter().map(|face| face.nominal.get()));
    Ok(numbers)
}

fn stretched(catalogue: &Catalogue, fields: &[&str]) -> Numbers {
    let [thread, grade, stacked, far, bolt] = fields else {
        return Err("line".to_owned());
    };
    let ask = StretchAsk {
        torque: tighten(thread, grade),
        stack: &stack(stacked, far, bolt)?,
        ..StretchAsk::default()
    };
    let question = catalogue
        .resolve_stretch(&ask)
        .map_err(|faults| first(&faults.stack))?;
    let found = stretch(&question);
    Ok(vec![
        found.bolt.get(),
        found.members.get(),
        found.load_share,
        found.angle.get(),
        found.elongation_mm,
        found.settling_loss.get(),
    ])
}

fn length(catalogue: &Catalogue, fields: &[&str]) -> Numbers {
    let [thread, stacked, far, bolt] = fields else {
        return Err("line".to_owned());
    };
    let ask = LengthAsk {
        thread,
        stack: &stack(stacked, far, bolt)?,
        shear_plane_mm: None,
    };
    let question = catalogue.resolve_length(&ask).map_err(|f| first(&f))?;
    let found = fit_length(&question);
    let stops = found.remarks.findings.iter();
    let bottoms = stops.filter(|f| f.id == "bottoming").count();
    let at_hand = found.at_hand.ok_or("stack.bolt_length_mm")?;
    Ok(vec![
        found.needed_mm,
        found.standard_mm.unwrap_or(f64::NAN),
        at_hand.engagement_mm,
        at_hand.body_mm,
        at_hand.grip_length_mm,
        bottoms as f64,
    ])
}

fn washers(fields: &[&str]) -> Numbers {
    let [slot, window, step, p] = fields else {
        return Err("line".to_owned());
    };
    let angle = |text: &str| Degrees::new(number(text)?).map_err(|e| e.to_string());
    let p = Millimetres::new(number(p)?).map_err(|e| e.to_string())?;
    let (thinner, thicker) = washer_change(angle(slot)?, angle(window)?, angle(step)?, p);
    Ok(vec![thinner.0, thinner.1, thicker.0, thicker.1])
}
