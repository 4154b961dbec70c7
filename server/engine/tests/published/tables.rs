//! Published torque and clamp load tables, as whole tables.

use super::{Published, answer, close, lbf, reckoned, rows};
use clampbook_engine::{
    Ask, Catalogue, CheckId,
    units::{
        NEWTON_METRES_PER_POUND_FORCE_FOOT, NEWTON_METRES_PER_POUND_FORCE_INCH,
        NEWTONS_PER_POUND_FORCE,
    },
};

fn ask(row: &Published) -> Ask<'_> {
    Ask {
        thread: row.text("thread"),
        grade: row.text("grade"),
        lubrication: "dry",
        nut_factor: Some(row.number("nut_factor")),
        ..Ask::default()
    }
}

/// Torque at the clamp load the table itself prints, in lbf ft.
fn torque_at_printed_clamp(catalogue: &Catalogue, row: &Published) -> f64 {
    let clamp_load_n = Some(row.number("clamp_load_lbf") * NEWTONS_PER_POUND_FORCE);
    let answer = answer(
        catalogue,
        &Ask {
            clamp_load_n,
            ..ask(row)
        },
    );
    answer.torque.get() / NEWTON_METRES_PER_POUND_FORCE_FOOT
}

/// SAE grades 5 and 8, 75 % of proof, K 0.20 plain and 0.15 plated.
///
/// The table takes 0.75 of proof loads rounded as SAE J429 prints them (to 50 lbf below 10 000,
/// to 100 above), from areas rounded to three or four figures; torque is then rounded to 1 lbf ft.
#[test]
pub(super) fn sae_grades_5_and_8_are_reproduced() {
    let catalogue = Catalogue::built_in();
    let published = rows(include_str!("sae_5_and_8.csv"));
    assert_eq!(published.len(), 80);
    for row in &published {
        let ours = answer(&catalogue, &ask(row));
        let printed = row.number("clamp_load_lbf");
        let proof = lbf(ours.proof_load.unwrap().get());
        let half_step = if proof < 10_000.0 { 25.0 } else { 50.0 };
        let thread = catalogue.thread(row.text("thread")).unwrap();
        let area = thread.published_stress_area().unwrap();
        let rounding = 0.75 * (half_step + proof * area.half_last_digit / area.value) + 0.5;
        let what = format!("{} {}", row.text("thread"), row.text("grade"));
        // Misprinted for 5213: SAE J429 proves 5/16-24 grade 8 at 6950 lbf, and the torque fits that.
        let misprinted = what == "5/16-24 SAE 8" && printed == 5113.0;
        let meant = if misprinted { 5213.0 } else { printed };
        close(lbf(ours.clamp_load.get()), meant, rounding, &what);

        let torque = ours.torque.get() / NEWTON_METRES_PER_POUND_FORCE_FOOT;
        let clamp_rounding = torque * rounding / printed;
        let half_digit = row.half_last_digit("torque_lbf_ft");
        close(
            torque,
            row.number("torque_lbf_ft"),
            half_digit + clamp_rounding,
            &what,
        );
    }
}

/// SAE grade 2 dry, 75 % of proof, K 0.20, some torques cut off instead of rounded: a whole last
/// digit is allowed. 5/16-18 is a misprint, see below.
#[test]
pub(super) fn sae_grade_2_dry_is_reproduced() {
    let catalogue = Catalogue::built_in();
    let published = rows(include_str!("sae_2_dry.csv"));
    assert_eq!(published.len(), 28);
    for row in published.iter().filter(|r| r.text("thread") != "5/16-18") {
        let ours = answer(&catalogue, &ask(row));
        let what = row.text("thread");
        // The areas behind it are rounded to three or four figures.
        let clamp = row.number("clamp_load_lbf");
        close(lbf(ours.clamp_load.get()), clamp, 0.0016 * clamp, what);
        let torque = ours.torque.get() / NEWTON_METRES_PER_POUND_FORCE_FOOT;
        let digit = 2.0 * row.half_last_digit("torque_lbf_ft");
        close(torque, row.number("torque_lbf_ft"), digit, what);
    }
}

/// The same table prints 11.5 lbf ft for 5/16-18, but its own clamp load of 2162 lbf gives 11.26.
#[test]
pub(super) fn a_misprinted_torque_is_not_reproduced() {
    let catalogue = Catalogue::built_in();
    let published = rows(include_str!("sae_2_dry.csv"));
    let row = published
        .iter()
        .find(|r| r.text("thread") == "5/16-18")
        .unwrap();
    let torque = torque_at_printed_clamp(&catalogue, row);
    reckoned(torque, 11.26, 0.005, "5/16-18");
    assert!((torque - row.number("torque_lbf_ft")).abs() > 0.2);
}

/// AC 43.13-1B table 7-1 states 40 000 psi in the bolt, yet no single K reproduces it: the middle
/// of each range implies 0.12 for 3/8-24 and 0.23 for 7/16-20. Such a table is kept as rows.
#[test]
pub(super) fn a_table_that_obeys_no_single_nut_factor_is_known_as_such() {
    let catalogue = Catalogue::built_in();
    let implied: Vec<f64> = rows(include_str!("ac_43_13_tension.csv"))
        .iter()
        .map(|row| {
            let thread = catalogue.thread(row.text("thread")).unwrap();
            let middle = (row.number("low_torque_lbf_in") + row.number("high_torque_lbf_in")) / 2.0;
            let torque = middle * NEWTON_METRES_PER_POUND_FORCE_INCH;
            let area_in2 = thread.geometry().tensile_stress_area.get() / 645.16;
            let force = 40_000.0 * area_in2 * NEWTONS_PER_POUND_FORCE;
            torque / (force * thread.diameter().get() / 1000.0)
        })
        .collect();
    let lowest = implied
        .iter()
        .copied()
        .fold(f64::INFINITY, |a, b| if b < a { b } else { a });
    let highest = implied
        .iter()
        .copied()
        .fold(0.0, |a, b| if b > a { b } else { a });
    assert!(lowest < 0.14 && highest > 0.22, "{lowest} to {highest}");
}

/// NASA TM-106943 table I: maximum preload is 1.25 of nominal with a hand wrench, lubricated.
/// (Its minimum preload also takes off 5 % relaxation; ours is that at the set torque.)
#[test]
pub(super) fn scatter_of_lubricated_bolts_is_nasas() {
    let catalogue = Catalogue::built_in();
    for row in rows(include_str!("nasa_preload.csv"))
        .iter()
        .filter(|r| !r.text("thread").starts_with('#'))
    {
        let nominal = row.number("nominal_lbf");
        let ask = Ask {
            thread: row.text("thread"),
            grade: "J429 8",
            lubrication: "greased",
            clamp_load_n: Some(nominal * NEWTONS_PER_POUND_FORCE),
            ..Ask::default()
        };
        let scatter = answer(&catalogue, &ask).scatter;
        // The nominal is itself rounded to 1 lbf.
        close(
            lbf(scatter.maximum.get()),
            row.number("maximum_lbf"),
            0.5 + 0.625,
            row.text("thread"),
        );
        reckoned(
            lbf(scatter.minimum.get()),
            0.75 * nominal,
            1e-6,
            row.text("thread"),
        );
        assert_eq!(scatter.source.id, "nasa-tm-106943");
    }
}

/// VDI 2230 table A3 (metric fine): its clamp loads use 0.9 of yield, tension and twist together.
/// Our check of combined stress agrees within 2.5 %: it finds the thread's part of the torque from
/// K with a mean bearing diameter of 1.25 D, where VDI takes each head's own.
#[test]
pub(super) fn combined_stress_is_vdis() {
    let catalogue = Catalogue::built_in();
    let published = rows(include_str!("vdi_2230_fine.csv"));
    assert_eq!(published.len(), 81);
    for row in &published {
        let thread = catalogue.thread(row.text("thread")).unwrap();
        let clamp = row.number("clamp_load_kn") * 1000.0;
        let k = row.number("torque_nm") * 1000.0 / (clamp * thread.diameter().get());
        // A fifth more load and torque exceed yield: 0.9 x 1.2 = 1.08.
        let ask = Ask {
            thread: row.text("thread"),
            grade: row.text("grade"),
            clamp_load_n: Some(clamp * 1.2),
            nut_factor: Some(k),
            ..Ask::default()
        };
        let ours = answer(&catalogue, &ask);
        let found = ours
            .findings
            .iter()
            .find(|f| f.id == CheckId::CombinedAgainstYield);
        close(
            found.unwrap().share / 1.2,
            0.9,
            0.9 * 0.025,
            row.text("thread"),
        );
        let as_printed = answer(
            &catalogue,
            &Ask {
                clamp_load_n: Some(clamp),
                ..ask
            },
        );
        assert!(
            as_printed
                .findings
                .iter()
                .all(|f| f.id != CheckId::CombinedAgainstYield)
        );
    }
}
