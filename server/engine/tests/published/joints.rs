//! Torque by the long form, limits of size, stripping, stiffness and lengths.

use super::{close, reckoned, rows};
use clampbook_engine::{
    Catalogue,
    geometry::unified_stress_area,
    joint::reach::{body_and_grip, standard_thread_length},
    long_form::{LongAsk, Seat, Turning, compute_long_form, levers, screw_torque},
    strength::{
        engagement::{engagement_for, equal_strength_engagement, internal_strip_area},
        limits::{Fit, external_limits, internal_limits},
    },
    stretch::{
        castle::travel,
        settling::{Roughness, settling},
        stiffness::{self, Layer, in_line, load_share, members, rod},
    },
    thread::System,
    units::{
        Degrees, Friction, Megapascals, Millimetres, NEWTONS_PER_POUND_FORCE, Newtons,
        SquareMillimetres, Stiffness,
    },
};

const INCH: f64 = 25.4;
const PSI: f64 = NEWTONS_PER_POUND_FORCE / 645.16;

fn inch(value: f64) -> Millimetres {
    Millimetres::new(value * INCH).unwrap()
}

fn friction(value: f64) -> Friction {
    Friction::new(value).unwrap()
}

/// Millions of pounds per inch.
fn mega(k: Stiffness) -> f64 {
    k.get() * INCH / NEWTONS_PER_POUND_FORCE / 1e6
}

/// VDI 2230 part 1 (2003), table A3: clamp load at 0.90 of yield and its torque. The table's torque
/// is rounded to whole N·m from 40 on and its bearing faces are those of an older hexagon at M10,
/// M12, M14 and M22 (17, 19, 22 and 32 mm), so torque may be 3 % off; clamp loads agree to 0.4 %.
#[test]
pub(super) fn vdi_tables_at_nine_tenths_of_yield() {
    let catalogue = Catalogue::built_in();
    let published = rows(include_str!("vdi_2230_fine.csv"));
    assert!(published.len() >= 80, "{}", published.len());
    for row in &published {
        let mu = row.number("mu");
        let ask = LongAsk {
            thread: row.text("thread"),
            grade: row.text("grade"),
            thread_friction: mu,
            bearing_friction: mu,
            yield_share: Some(0.90),
            ..LongAsk::default()
        };
        let answer = compute_long_form(&catalogue.resolve_long_form(&ask).unwrap());
        let (load, torque) = (row.number("clamp_load_kn"), row.number("torque_nm"));
        let what = format!("{} {} at {mu}", row.text("thread"), row.text("grade"));
        close(
            answer.clamp_load.get() / 1000.0,
            load,
            0.004 * load + 0.05,
            &what,
        );
        close(answer.torque.get(), torque, 0.03 * torque + 0.5, &what);
    }
}

/// Shigley, 9th ed., example 8-3 c: 3/4-16, 25 000 lbf, f = fc = 0.15, collar 1.25 d: 3551 lbf in;
/// its mean diameter is (d + dr)/2 with dr from Ar = 0.351 in².
#[test]
pub(super) fn shigley_8_3_c() {
    let dm = f64::midpoint(0.750, 0.6685);
    let torque = screw_torque(
        Turning::Tightening,
        Newtons::new(25_000.0 * NEWTONS_PER_POUND_FORCE).unwrap(),
        inch(1.0 / 16.0),
        inch(dm),
        30.0,
        friction(0.15),
        (friction(0.15), inch(1.25 * 0.75)),
    );
    close(
        torque / (NEWTONS_PER_POUND_FORCE * 0.0254),
        3551.0,
        1.0,
        "torque",
    );
}

/// Shigley, 9th ed., equation 8-26 at f = fc = 0.15: K by size, from the root of each thread's
/// published minor area (mean diameter between it and the nominal).
#[test]
pub(super) fn nut_factor_hardly_depends_on_size() {
    let published = [
        (0.25, 20.0, 0.2023),
        (0.25, 28.0, 0.1959),
        (0.5, 13.0, 0.1972),
        (0.5, 20.0, 0.1912),
        (0.75, 10.0, 0.1949),
        (0.75, 16.0, 0.1894),
        (1.0, 8.0, 0.1940),
        (1.5, 6.0, 0.1924),
    ];
    for (d, n, k) in published {
        // ANSI B1.1-1974: dr = d - 1.299038 P, as Shigley's minor areas have it.
        let dm = d - 1.299_038 / n / 2.0;
        let (mu, load) = (friction(0.15), Newtons::new(1000.0).unwrap());
        let torque = screw_torque(
            Turning::Tightening,
            load,
            inch(1.0 / n),
            inch(dm),
            30.0,
            mu,
            (mu, inch(1.25 * d)),
        );
        reckoned(torque / (d * INCH), k, 0.0006, &format!("{d}-{n}"));
    }
}

/// VDI 2230, M12-8.8 at 0.14: helix, thread and bearing take 12.6, 39.8 and 47.6 % of the torque.
#[test]
pub(super) fn shares_of_the_torque() {
    let mm = |v| Millimetres::new(v).unwrap();
    let mu = friction(0.14);
    let seat = Seat::Flat {
        mean_diameter: mm(15.065),
    };
    let levers = levers(mm(1.75), mm(10.863), mu, mu, seat);
    for (part, share) in [
        (levers.helix, 12.6),
        (levers.thread, 39.8),
        (levers.bearing, 47.6),
    ] {
        close(100.0 * part / levers.total(), share, 0.1, "share");
    }
}

/// Published power screw problems: raising, lowering (N·m) and efficiency F l/(2π T).
#[test]
pub(super) fn power_screws_with_collar() {
    let mm = |v| Millimetres::new(v).unwrap();
    for (load, f, fc, dc, raise, lower, efficiency) in [
        (6000.0, 0.08, 0.05, 40.0, 16.23, 6.622, 0.294),
        (5000.0, 0.09, 0.06, 45.0, 15.85, 7.83, 0.251),
    ] {
        let force = Newtons::new(load).unwrap();
        let turn = |way| {
            let collar = (friction(fc), mm(dc));
            screw_torque(way, force, mm(5.0), mm(22.5), 0.0, friction(f), collar)
        };
        let up = turn(Turning::Tightening);
        close(up, raise, 0.005, "raising");
        close(turn(Turning::Loosening), lower, 0.005, "lowering");
        let ideal = load * 5.0 / (2.0 * std::f64::consts::PI) / 1000.0;
        close(ideal / up, efficiency, 0.0005, "efficiency");
    }
}

/// Shigley, 9th ed., problems on screws: an Acme press of 2500 lbf with a thrust collar (0.06 on a mean of 5 in, from
/// memory; the problem prints its 375 lbf in), and a clamp with 7/16-14 whose collar carries nothing.
#[test]
pub(super) fn power_screws_in_inches() {
    let pounds = |v: f64| Newtons::new(v * NEWTONS_PER_POUND_FORCE).unwrap();
    let lbf_in = |torque: f64| torque / (NEWTONS_PER_POUND_FORCE * 0.0254);
    let acme = |collar| {
        let (load, lead, dm) = (pounds(2500.0), inch(0.5), inch(2.75));
        screw_torque(
            Turning::Tightening,
            load,
            lead,
            dm,
            14.5,
            friction(0.05),
            collar,
        )
    };
    let whole = lbf_in(acme((friction(0.06), inch(5.0))));
    close(whole, 753.0, 0.5, "press with collar");
    // Half the collar's friction, half its torque: what is left is the screw's own.
    let half = lbf_in(acme((friction(0.03), inch(5.0))));
    close(2.0 * (whole - half), 375.0, 0.5, "collar");
    close(2.0 * half - whole, 377.6, 0.05, "screw");
    let clamp = |collar: f64| {
        let (load, lead, dm) = (pounds(1.0), inch(1.0 / 14.0), inch(0.3911));
        let collar = (friction(collar), inch(0.4375));
        lbf_in(screw_torque(
            Turning::Tightening,
            load,
            lead,
            dm,
            30.0,
            friction(0.075),
            collar,
        ))
    };
    let clamp = 2.0 * clamp(0.05) - clamp(0.10);
    close(clamp, 0.028_45, 0.000_005, "clamp");
    // Printed 1030 lbf: 29.2 over the rounded 0.028 45 is 1026.
    let load = 29.2 / clamp;
    reckoned(load, 1026.0, 0.5, "clamp load");
    assert!((load - 1030.0).abs() > 3.0);
}

/// An engine maker's norm (1990s) lets bolts whose shank is held against twisting take 12.5 to 33 % more torque (M10 55
/// for 42, M12 93 for 75, M16 225 for 180 N·m at μ 0.125). Taking the twist alone away from the combined stress at yield
/// explains the lower end of that range, no more; the rest is the maker's.
#[test]
pub(super) fn a_shank_that_is_not_twisted_bears_more() {
    let catalogue = Catalogue::built_in();
    for (thread, twisted, held) in [
        ("M10", 42.0, 55.0),
        ("M12", 75.0, 93.0),
        ("M16", 180.0, 225.0),
    ] {
        let ask = LongAsk {
            thread,
            grade: "8.8",
            thread_friction: 0.125,
            bearing_friction: 0.125,
            yield_share: Some(0.90),
            ..LongAsk::default()
        };
        let question = catalogue.resolve_long_form(&ask).unwrap();
        let with_twist = compute_long_form(&question).clamp_load.get();
        let area = catalogue
            .thread(thread)
            .unwrap()
            .geometry()
            .tensile_stress_area;
        let gain = 0.90 * 640.0 * area.get() / with_twist;
        assert!((1.125 - 0.005..=1.33).contains(&gain), "{thread}: {gain}");
        assert!(
            (1.125 - 0.005..=1.33).contains(&(held / twisted)),
            "{thread}"
        );
        assert!(gain < held / twisted, "{thread}: {gain}");
    }
}

/// A drive maker's table after VDI 2230 (2003): stainless A2 and A4, μ 0.10, 0.90 of yield. Its torques have two or three
/// figures and the heads are those of socket screws, a little smaller: 5 %.
#[test]
pub(super) fn stainless_by_the_long_form() {
    let catalogue = Catalogue::built_in();
    let published = [
        ("M6", 2.95, 6.4, 8.4),
        ("M8", 7.2, 15.2, 20.5),
        ("M10", 14.0, 30.0, 40.0),
        ("M12", 24.0, 51.5, 69.0),
        ("M14", 38.5, 83.0, 111.0),
        ("M16", 59.0, 127.0, 169.0),
        ("M18", 82.0, 176.0, 234.0),
        ("M20", 115.0, 248.0, 330.0),
        ("M22", 157.0, 336.0, 450.0),
        ("M24", 199.0, 425.0, 570.0),
    ];
    for (thread, soft, cold_worked, strong) in published {
        for (grade, torque) in [("A2-50", soft), ("A2-70", cold_worked), ("A2-80", strong)] {
            let ask = LongAsk {
                thread,
                grade,
                thread_friction: 0.10,
                bearing_friction: 0.10,
                yield_share: Some(0.90),
                ..LongAsk::default()
            };
            let ours = compute_long_form(&catalogue.resolve_long_form(&ask).unwrap());
            let what = format!("{thread} {grade}");
            close(ours.torque.get(), torque, 0.05 * torque, &what);
        }
    }
}

/// ASME B1.1-2003 table 2, classes 2A and 2B. The standard rounds basic size, allowance and tolerance to four
/// places before it takes them off: three halves of the last digit. Its 2B minor diameters have three places,
/// rounded once for the least and again for the maximum.
#[test]
pub(super) fn limits_of_unified_threads() {
    let catalogue = Catalogue::built_in();
    let published = rows(include_str!("asme_b1_1_limits.csv"));
    for row in &published {
        let name = row.text("thread");
        let thread = catalogue.thread(name).unwrap();
        let out = external_limits(thread, Fit::Medium).unwrap();
        let inner = internal_limits(thread, Fit::Medium).unwrap();
        for (ours, column, tolerance) in [
            (out.major.most, "major_max_2a", 0.000_15),
            (out.major.minimum, "major_min_2a", 0.000_15),
            (out.pitch.most, "pitch_max_2a", 0.000_15),
            (out.pitch.minimum, "pitch_min_2a", 0.000_15),
            (inner.pitch.most, "pitch_max_2b", 0.000_15),
            (inner.minor.minimum, "minor_min_2b", 0.000_6),
            (inner.minor.most, "minor_max_2b", 0.000_6),
        ] {
            let what = format!("{name} {column}");
            close(ours.get() / INCH, row.number(column), tolerance, &what);
        }
    }
}

/// ASME B1.1-2003 table 2, classes 3A and 3B (from memory): pitch diameters, minor diameter of 3B.
#[test]
pub(super) fn limits_of_close_unified_threads() {
    let catalogue = Catalogue::built_in();
    for (name, pitch_3a, pitch_3b, minor_3b) in [
        ("1/4-20", 0.2147, 0.2211, 0.2067),
        ("1/4-28", 0.2243, 0.2300, 0.2190),
        ("3/8-16", 0.3311, 0.3387, 0.3182),
        ("1/2-13", 0.4463, 0.4548, 0.4284),
        ("1/2-20", 0.4643, 0.4717, 0.4537),
        ("3/4-10", 0.6806, 0.6907, 0.6545),
        ("1-8", 0.9137, 0.9254, 0.8797),
    ] {
        let thread = catalogue.thread(name).unwrap();
        let out = external_limits(thread, Fit::Close).unwrap();
        let inner = internal_limits(thread, Fit::Close).unwrap();
        reckoned(out.major.most.get(), thread.diameter().get(), 0.0, name);
        close(out.pitch.minimum.get() / INCH, pitch_3a, 0.0001, name);
        close(inner.pitch.most.get() / INCH, pitch_3b, 0.0001, name);
        close(inner.minor.most.get() / INCH, minor_3b, 0.0001, name);
    }
}

/// ASME B1.1-2003 table 2 (from memory): extra fine threads are reckoned with nine pitches of engagement, and the minor
/// diameters of the smallest and of fine class 3B threads lie at the bounds of their formula.
#[test]
pub(super) fn limits_of_extra_fine_and_of_small_threads() {
    let catalogue = Catalogue::built_in();
    for (name, minimum, maximum) in [("1/4-32", 0.2255, 0.2339), ("1-20", 0.9616, 0.9734)] {
        let thread = catalogue.thread(name).unwrap();
        let out = external_limits(thread, Fit::Medium).unwrap();
        let inner = internal_limits(thread, Fit::Medium).unwrap();
        close(out.pitch.minimum.get() / INCH, minimum, 0.000_1, name);
        close(inner.pitch.most.get() / INCH, maximum, 0.000_1, name);
    }
    for (name, fit, minor) in [
        ("#0-80", Fit::Medium, 0.0514),
        ("#0-80", Fit::Close, 0.0514),
        ("1-20", Fit::Close, 0.9537),
    ] {
        let thread = catalogue.thread(name).unwrap();
        let inner = internal_limits(thread, fit).unwrap();
        close(inner.minor.most.get() / INCH, minor, 0.000_1, name);
    }
}

/// ISO 965-1:2013 (from memory): an M1.6 in micrometres, whose tolerance of the major diameter leans most on the
/// second part of its formula; and the limits of an M10 themselves.
#[test]
pub(super) fn limits_of_the_smallest_metric_thread() {
    let catalogue = Catalogue::built_in();
    for (name, outside, inside) in [
        (
            "M1.6",
            [1.581, 1.496, 1.354, 1.291],
            [1.458, 1.373, 1.321, 1.221],
        ),
        (
            "M10",
            [9.968, 9.732, 8.994, 8.862],
            [9.206, 9.026, 8.676, 8.376],
        ),
    ] {
        let thread = catalogue.thread(name).unwrap();
        let out = external_limits(thread, Fit::Medium).unwrap();
        let inner = internal_limits(thread, Fit::Medium).unwrap();
        let ours = [
            out.major.most,
            out.major.minimum,
            out.pitch.most,
            out.pitch.minimum,
        ];
        for (ours, published) in ours.iter().zip(outside) {
            close(ours.get(), published, 0.000_5, name);
        }
        let ours = [
            inner.pitch.most,
            inner.pitch.minimum,
            inner.minor.most,
            inner.minor.minimum,
        ];
        for (ours, published) in ours.iter().zip(inside) {
            close(ours.get(), published, 0.000_5, name);
        }
    }
}

/// Where the tables of ISO 965-1 depart from its own formulae, with what the formula gives.
const SMOOTHED: [(&str, &str, f64); 2] = [("M20x2.5", "tdd1_6h", 0.425), ("M36x4", "td_6g", 0.450)];

/// ISO 965-1: tolerances are R40 numbers and agree exactly; allowances of position g are rounded by
/// the standard without a rule, one micrometre.
#[test]
pub(super) fn limits_of_metric_threads() {
    let catalogue = Catalogue::built_in();
    let published = rows(include_str!("iso_965_limits.csv"));
    for row in &published {
        let name = row.text("thread");
        let thread = catalogue.thread(name).unwrap();
        let out = external_limits(thread, Fit::Medium).unwrap();
        let inner = internal_limits(thread, Fit::Medium).unwrap();
        let width = |limits: clampbook_engine::strength::limits::Limits| {
            limits.most.get() - limits.minimum.get()
        };
        let allowance = thread.diameter().get() - out.major.most.get();
        close(allowance, row.number("allowance"), 0.001, name);
        for (ours, column) in [
            (width(out.major), "td_6g"),
            (width(out.pitch), "td2_6g"),
            (width(inner.pitch), "tdd2_6h"),
            (width(inner.minor), "tdd1_6h"),
        ] {
            let smoothed = SMOOTHED.iter().find(|s| (s.0, s.1) == (name, column));
            let what = format!("{name} {column}");
            match smoothed {
                Some((_, _, formula)) => reckoned(ours, *formula, 1e-9, &what),
                None => close(ours, row.number(column), 1e-9, &what),
            }
        }
    }
    for (name, column, formula) in SMOOTHED {
        let row = published.iter().find(|r| r.text("thread") == name).unwrap();
        assert!(
            (row.number(column) - formula).abs() > 0.001,
            "{name} needs no explanation"
        );
    }
}

/// Published shear areas of internal threads, in² per inch of engagement. They follow from class
/// limits (2A minimum major diameter, 2B maximum pitch diameter), not from basic dimensions.
#[test]
pub(super) fn strip_areas_of_internal_threads() {
    let catalogue = Catalogue::built_in();
    for (name, area, half) in [
        ("1/4-20", 0.539, 0.0005),
        ("1/4-28", 0.521, 0.0005),
        ("3/8-16", 0.828, 0.0005),
        ("1/2-13", 1.12, 0.005),
        ("1/2-20", 1.08, 0.005),
        ("3/4-10", 1.72, 0.005),
        ("3/4-16", 1.66, 0.005),
        ("1-8", 2.33, 0.005),
    ] {
        let thread = catalogue.thread(name).unwrap();
        let ds = external_limits(thread, Fit::Medium).unwrap().major.minimum;
        let en = internal_limits(thread, Fit::Medium).unwrap().pitch.most;
        let ours = internal_strip_area(thread.pitch(), ds, en) / INCH;
        // The limits behind the table are rounded to four places: 0.3 % of a thread's depth.
        close(ours, area, half + 0.003 * area, name);
        // Basic sizes are nowhere near.
        let basic = internal_strip_area(
            thread.pitch(),
            thread.diameter(),
            thread.geometry().pitch_diameter,
        );
        assert!((basic / INCH - area).abs() > 0.1 * area, "{name}");
    }
}

/// Handbook of Bolts and Bolted Joints: M10 of 1200 MPa on 58 mm² into aluminium of 130 MPa.
#[test]
pub(super) fn m10_into_aluminium() {
    let mm = |v| Millimetres::new(v).unwrap();
    let area = internal_strip_area(mm(1.5), mm(9.968), mm(9.206));
    close(area, 24.84, 0.005, "area");
    let load = Newtons::new(1200.0 * 58.0).unwrap();
    let le = engagement_for(load, Megapascals::new(130.0).unwrap(), area);
    close(le.get(), 21.6, 0.05, "engagement");
    close(le.get() / 10.0, 2.16, 0.005, "in diameters");
}

/// FED-STD-H28/2B, engagement for equal strength on basic dimensions, in diameters.
#[test]
pub(super) fn engagement_for_equal_strength() {
    let catalogue = Catalogue::built_in();
    for (name, diameters) in [
        ("1/4-20", 0.745),
        ("1/4-28", 0.817),
        ("3/8-16", 0.787),
        ("1/2-13", 0.803),
        ("1/2-20", 0.871),
        ("3/4-10", 0.829),
        ("3/4-16", 0.893),
        ("1-8", 0.839),
        ("M6", 0.798),
        ("M8", 0.811),
        ("M10", 0.818),
        ("M12", 0.823),
        ("M16", 0.848),
    ] {
        let thread = catalogue.thread(name).unwrap();
        let area = thread.geometry().tensile_stress_area;
        let d = thread.diameter();
        let ours = equal_strength_engagement(area, d, thread.pitch());
        reckoned(ours.get() / d.get(), diameters, 0.0005, name);
    }
}

fn cone(modulus_psi: f64, d: f64, start: f64, t: f64, angle: f64) -> f64 {
    mega(stiffness::cone(
        modulus_psi * PSI,
        inch(d),
        inch(start),
        inch(t),
        angle,
    ))
}

/// Shigley, 9th ed., example 8-2: steel on cast iron, 1/2 in bolt.
#[test]
pub(super) fn shigley_8_2_members() {
    close(cone(30e6, 0.5, 0.75, 0.595, 30.0), 30.80, 0.005, "k1");
    close(cone(14.5e6, 0.5, 1.437, 0.0775, 30.0), 285.5, 0.05, "k2");
    close(cone(14.5e6, 0.5, 0.75, 0.6725, 30.0), 14.15, 0.005, "k3");
    let layer = |t, e: f64| Layer {
        thickness: inch(t),
        modulus_mpa: e * PSI,
    };
    let km = members(
        &[layer(0.095, 30e6), layer(0.5, 30e6), layer(0.75, 14.5e6)],
        inch(0.5),
        inch(0.75),
    );
    close(mega(km), 9.378, 0.0005, "km");
}

/// Shigley, 8th ed., solution of problem 8-24: 1/2-13, washer, steel, cast iron.
#[test]
pub(super) fn shigley_8_24() {
    let kb = in_line([5.9125, 11.778].map(|k| Stiffness::new(k).unwrap()));
    close(kb.get(), 3.936, 0.0005, "kb");
    let area = |v: f64| SquareMillimetres::new(v * 645.16).unwrap();
    close(
        mega(rod(30e6 * PSI, area(0.1419), inch(0.72))),
        5.9125,
        0.000_1,
        "kt",
    );
    close(
        mega(rod(30e6 * PSI, area(0.1963), inch(0.5))),
        11.778,
        0.000_5,
        "kd",
    );
    close(cone(30e6, 0.5, 0.75, 0.5, 30.0), 33.30, 0.005, "steel");
    close(cone(14.5e6, 0.5, 1.327, 0.11, 30.0), 173.8, 0.05, "iron");
    close(
        cone(14.5e6, 0.5, 0.860, 0.515, 30.0),
        21.47,
        0.005,
        "iron below",
    );
    close(cone(30e6, 0.5, 0.75, 0.095, 30.0), 97.27, 0.05, "washer");
    let layer = |t, e: f64| Layer {
        thickness: inch(t),
        modulus_mpa: e * PSI,
    };
    let km = members(
        &[layer(0.5, 30e6), layer(0.625, 14.5e6), layer(0.095, 30e6)],
        inch(0.5),
        inch(0.75),
    );
    close(mega(km), 10.79, 0.005, "km");
    let share = load_share(
        Stiffness::new(3.936).unwrap(),
        Stiffness::new(10.79).unwrap(),
        1.0,
    );
    close(share, 0.267, 0.0005, "C");
}

/// Shigley, 8th ed., solution of problem 8-22: M12 of 207 GPa through 20 mm of steel (207) and 25 mm of iron (100), 30 mm
/// of body and 15 mm of thread in the grip; frusta on 1.5 d. Problem 8-23 shares the bolt, with 10 and 16 mm.
#[test]
pub(super) fn shigley_8_22() {
    let mm = |v| Millimetres::new(v).unwrap();
    let area = |v| SquareMillimetres::new(v).unwrap();
    let bolt = |body, thread| {
        in_line([
            rod(207e3, area(113.0), mm(body)),
            rod(207e3, area(84.3), mm(thread)),
        ])
        .get()
            / 1000.0
    };
    close(bolt(30.0, 15.0), 466.8, 0.05, "kb");
    close(bolt(10.0, 16.0), 744.0, 0.5, "kb of 8-23");
    let cone = |modulus, start, t| {
        stiffness::cone(modulus, mm(12.0), mm(start), mm(t), 30.0).get() / 1000.0
    };
    // Ratios of the cones are taken with 1.155 t there for 2 t tan 30°.
    close(cone(207e3, 18.0, 20.0), 4470.0, 5.0, "k1");
    close(cone(100e3, 41.09, 2.5), 52_230.0, 20.0, "k2");
    close(cone(100e3, 18.0, 22.5), 2074.0, 2.0, "k3");
    let layer = |t, modulus_mpa| Layer {
        thickness: mm(t),
        modulus_mpa,
    };
    let km = members(
        &[layer(20.0, 207e3), layer(25.0, 100e3)],
        mm(12.0),
        mm(18.0),
    );
    close(km.get() / 1000.0, 1379.0, 1.5, "km");
    let k = |v: f64| Stiffness::new(v).unwrap();
    close(load_share(k(466.8), k(1379.0), 1.0), 0.253, 0.0005, "C");
}

/// Shigley, 8th ed., solution of problem 8-23: M12 of 207 GPa screwed into iron under 20 mm of steel; the grip is the
/// plate and half a diameter. Its sum takes 55 620 for the 15 620 printed above it, so km and C are not those it prints.
#[test]
pub(super) fn shigley_8_23() {
    let mm = |v| Millimetres::new(v).unwrap();
    let cone = |gpa: f64, start, t| {
        stiffness::cone(gpa * 1000.0, mm(12.0), mm(start), mm(t), 30.0).get() / 1000.0
    };
    close(cone(207.0, 18.0, 13.0), 5316.0, 1.0, "k1");
    close(cone(207.0, 24.9, 7.0), 15_620.0, 5.0, "k2");
    close(cone(100.0, 18.0, 6.0), 3887.0, 1.0, "k3");
    let layer = |t, modulus_mpa| Layer {
        thickness: mm(t),
        modulus_mpa,
    };
    let stack = [layer(20.0, 207e3), layer(6.0, 100e3)];
    let km = members(&stack, mm(12.0), mm(18.0)).get() / 1000.0;
    reckoned(km, 1963.0, 2.0, "km of 15 620");
    assert!((km - 2158.0).abs() > 100.0, "the misprinted sum: {km}");
}

/// Shigley, 8th ed., solution of problem 8-25: 1/2-13 screwed into cast iron under a washer and 1/2 in of steel. It begins its
/// second cone at 1.018 in; under 1/4 in of iron it is 1.039 wide, which makes the members 12.93 instead of 12.87.
#[test]
pub(super) fn shigley_8_25() {
    let area = SquareMillimetres::new(0.1419 * 645.16).unwrap();
    let kb = mega(rod(30e6 * PSI, area, inch(0.845)));
    close(kb, 5.04, 0.005, "kb");
    let cones = [
        (30e6, 0.75, 0.4225, 36.14, 0.005),
        (30e6, 1.018, 0.1725, 134.6, 0.05),
        // 2 tan 30 degrees is taken as 1.155 there.
        (14.5e6, 0.75, 0.25, 23.49, 0.007),
    ];
    for (psi, start, t, published, tolerance) in cones {
        close(cone(psi, 0.5, start, t, 30.0), published, tolerance, "cone");
    }
    let k = |mega: f64| Stiffness::new(mega * 1e6).unwrap();
    let together = in_line(cones.map(|(psi, start, t, ..)| k(cone(psi, 0.5, start, t, 30.0))));
    close(together.get() / 1e6, 12.87, 0.01, "km");
    close(load_share(k(kb), together, 1.0), 0.281, 0.0005, "C");
    let layer = |t, e: f64| Layer {
        thickness: inch(t),
        modulus_mpa: e * PSI,
    };
    let stack = [layer(0.595, 30e6), layer(0.25, 14.5e6)];
    let km = mega(members(&stack, inch(0.5), inch(0.75)));
    reckoned(km, 12.93, 0.005, "km from 1.039");
}

/// VDI 2230 part 1 (2003), table 5 (from memory), in micrometres by roughness: the thread 3, each bearing face 2.5, 3 or
/// 4, each face between layers 1.5, 2 or 3.
#[test]
pub(super) fn settling_of_vdi() {
    for (roughness, bearing, between) in [
        (Roughness::Fine, 2.5, 1.5),
        (Roughness::Machined, 3.0, 2.0),
        (Roughness::Rough, 4.0, 3.0),
    ] {
        let none = 1000.0 * settling(roughness, 0);
        close((none - 3.0) / 2.0, bearing, 1e-9, "under head and nut");
        let one = 1000.0 * settling(roughness, 1);
        close(one - none, between, 1e-9, "between layers");
    }
}

/// NASA TM-106943 (1995): 45° cone, written there as 2 ln[5 (L + 0.5 D)/(L + 2.5 D)] for two halves
/// of L/2 each; bolt 2.546e6, share 0.326, and 163 lbf of 1000 at a loading plane factor of 0.5.
#[test]
pub(super) fn nasa_member_stiffness() {
    let half = cone(10e6, 0.375, 1.5 * 0.375, 0.5, 45.0);
    close(half / 2.0, 5.26, 0.005, "Kj");
    let area = SquareMillimetres::new(0.0878 * 645.16).unwrap();
    close(mega(rod(29e6 * PSI, area, inch(1.0))), 2.546, 0.0005, "Kb");
    let k = |mega: f64| Stiffness::new(mega * 1e6).unwrap();
    close(load_share(k(2.546), k(5.26), 1.0), 0.326, 0.0005, "phi");
    close(
        1000.0 * load_share(k(2.546), k(5.26), 0.5),
        163.0,
        0.5,
        "bolt",
    );
}

/// One slot of six moves the nut by a sixth of the pitch; in an all-steel joint of 1 in with a 3/8-24
/// that is 14.8 kip, 168 ksi on 0.0878 in².
#[test]
pub(super) fn one_slot_of_a_castellated_nut() {
    for (n, step) in [
        (20.0, 0.008_33),
        (28.0, 0.005_95),
        (24.0, 0.006_94),
        (16.0, 0.010_42),
    ] {
        let moved = travel(inch(1.0 / n), Degrees::new(60.0).unwrap()) / INCH;
        reckoned(moved, step, 0.000_005, "step");
    }
    let area = unified_stress_area(inch(0.375), inch(1.0 / 24.0));
    let bolt = rod(30e6 * PSI, area, inch(1.0));
    let steel = Layer {
        thickness: inch(1.0),
        modulus_mpa: 30e6 * PSI,
    };
    let joint = in_line([bolt, members(&[steel], inch(0.375), inch(0.5625))]);
    let kips = mega(joint) * 1e3 * (1.0 / 24.0 / 6.0);
    reckoned(kips, 14.8, 0.05, "kip");
    reckoned(kips / 0.0878, 168.0, 1.0, "ksi");
}

/// ISO 4014:2011 table 1: minimum body and maximum grip length.
#[test]
pub(super) fn bodies_and_grips_of_metric_bolts() {
    let catalogue = Catalogue::built_in();
    for row in &rows(include_str!("iso_4014_lengths.csv")) {
        let thread = catalogue.thread(row.text("thread")).unwrap();
        let length = Millimetres::new(row.number("length")).unwrap();
        let b = standard_thread_length(System::Metric, thread.diameter(), length);
        let (body, grip) = body_and_grip(length, b, thread.pitch());
        let what = format!("{thread} {length:?}");
        close(body, row.number("body"), 1e-9, &what);
        close(grip, row.number("grip"), 1e-9, &what);
    }
}

/// ASME B18.2.1: nominal thread length to 6 in and above.
#[test]
pub(super) fn thread_lengths_of_inch_bolts() {
    let catalogue = Catalogue::built_in();
    for row in &rows(include_str!("b18_2_1_threads.csv")) {
        let d = catalogue.thread(row.text("thread")).unwrap().diameter();
        let at = |length| standard_thread_length(System::Inch, d, inch(length)).get() / INCH;
        close(at(6.0), row.number("to_6_in"), 1e-9, row.text("thread"));
        close(at(6.5), row.number("over_6_in"), 1e-9, row.text("thread"));
    }
}
