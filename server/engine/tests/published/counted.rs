//! How many published values are compared, by area: counted while the tests run, held to the table in data/SOURCES.md.

use super::{
    COMPARED, geometry, joints, naming, old_iron, procedures, strength, tables, worked_examples,
    wrenches,
};

/// Fewer than this in an area are too few.
const WANTED: u32 = 25;

/// An area and its tests.
type Area = (&'static str, &'static [fn()]);

/// Every test of published values, by area.
const AREAS: [Area; 12] = [
    (
        "torque, short form",
        &[
            tables::sae_grades_5_and_8_are_reproduced,
            tables::sae_grade_2_dry_is_reproduced,
            tables::a_misprinted_torque_is_not_reproduced,
            tables::a_table_that_obeys_no_single_nut_factor_is_known_as_such,
            tables::scatter_of_lubricated_bolts_is_nasas,
            tables::combined_stress_is_vdis,
            worked_examples::shigley_example_8_3,
            worked_examples::shigley_m20_permanent,
            worked_examples::an6_bolt_in_two_lubrications,
            worked_examples::seven_sixteenths_grade_5_dry,
            worked_examples::stainless_takes_085_of_yield,
        ],
    ),
    (
        "torque, long form",
        &[
            joints::vdi_tables_at_nine_tenths_of_yield,
            joints::shigley_8_3_c,
            joints::nut_factor_hardly_depends_on_size,
            joints::shares_of_the_torque,
            joints::power_screws_with_collar,
            joints::power_screws_in_inches,
            joints::a_shank_that_is_not_twisted_bears_more,
            joints::stainless_by_the_long_form,
        ],
    ),
    (
        "weaker partner",
        &[
            joints::strip_areas_of_internal_threads,
            joints::m10_into_aluminium,
            joints::engagement_for_equal_strength,
            strength::proof_loads_of_nuts_are_those_published,
            strength::proof_loads_of_fine_nuts_are_those_remembered,
            strength::nuts_of_the_older_standard_prove_less_and_are_not_ours,
            old_iron::insert_holes_are_those_published,
        ],
    ),
    (
        "limits of size",
        &[
            joints::limits_of_unified_threads,
            joints::limits_of_close_unified_threads,
            joints::limits_of_extra_fine_and_of_small_threads,
            joints::limits_of_the_smallest_metric_thread,
            joints::limits_of_metric_threads,
        ],
    ),
    (
        "stretch and slots",
        &[
            joints::shigley_8_2_members,
            joints::shigley_8_22,
            joints::shigley_8_23,
            joints::shigley_8_24,
            joints::shigley_8_25,
            joints::nasa_member_stiffness,
            joints::settling_of_vdi,
            joints::one_slot_of_a_castellated_nut,
        ],
    ),
    (
        "published values restated",
        &[
            wrenches::plated_torques_are_the_plain_ones_restated,
            wrenches::both_torques_of_the_an6_example_imply_its_clamp_load,
        ],
    ),
    (
        "wrenches and lock nuts",
        &[
            wrenches::adapters_are_set_as_printed,
            wrenches::wrenches_are_chosen_as_printed,
            wrenches::a_used_lock_nut_is_judged_by_the_printed_minimum,
        ],
    ),
    (
        "procedures and patterns",
        &[
            procedures::star_orders_are_those_published,
            procedures::passes_are_those_published,
            procedures::turns_of_the_nut_are_those_published,
            procedures::a_wheel_bearing_is_backed_off_as_published,
        ],
    ),
    (
        "old iron",
        &[
            old_iron::british_diameters_are_those_published,
            old_iron::ba_sizes_follow_the_rule_of_their_standard,
            old_iron::a_misprinted_cycle_thread_is_not_ours,
            old_iron::old_grades_are_those_published,
        ],
    ),
    (
        "identification",
        &[
            naming::parts_at_the_limits_of_their_class_are_named,
            naming::published_head_marks_lead_to_their_grades,
            old_iron::look_alikes_bear_on_a_share_of_their_depth,
        ],
    ),
    (
        "lengths",
        &[
            joints::bodies_and_grips_of_metric_bolts,
            joints::thread_lengths_of_inch_bolts,
        ],
    ),
    (
        "rows of the catalogue",
        &[
            geometry::stress_areas_are_those_published,
            geometry::an_explained_difference_is_really_there,
            geometry::a_misprinted_area_is_not_ours,
            geometry::diameters_are_those_of_iso_724,
            geometry::the_published_area_is_carried_beside_the_computed_one,
            geometry::the_catalogue_covers_what_is_promised,
            strength::loads_of_bolts_are_those_published,
            strength::strengths_of_j429_are_those_published,
            strength::size_ranges_of_iso_898_decide,
        ],
    ),
];

#[test]
fn the_table_of_compared_values_is_true() {
    let sources = include_str!("../../../../data/SOURCES.md");
    let mut missing = Vec::new();
    for (area, tests) in AREAS {
        COMPARED.set(0);
        for test in tests {
            test();
        }
        let compared = COMPARED.get();
        assert!(compared >= WANTED, "{area}: {compared}");
        let line = format!("| {area} | {compared} |");
        if !sources.contains(&line) {
            missing.push(line);
        }
    }
    assert!(
        missing.is_empty(),
        "data/SOURCES.md lacks\n{}",
        missing.join("\n")
    );
}

/// A test that no area names would not be counted.
#[test]
fn every_test_belongs_to_one_area() {
    let ours = include_str!("counted.rs");
    for (module, text) in [
        ("geometry", include_str!("geometry.rs")),
        ("joints", include_str!("joints.rs")),
        ("naming", include_str!("naming.rs")),
        ("old_iron", include_str!("old_iron.rs")),
        ("procedures", include_str!("procedures.rs")),
        ("strength", include_str!("strength.rs")),
        ("tables", include_str!("tables.rs")),
        ("worked_examples", include_str!("worked_examples.rs")),
        ("wrenches", include_str!("wrenches.rs")),
    ] {
        for rest in text.split("#[test]\n").skip(1) {
            let name = rest.split_once("fn ").and_then(|(_, r)| r.split_once('('));
            let name = format!("{module}::{},", name.unwrap().0);
            assert_eq!(ours.matches(&name).count(), 1, "{name}");
        }
    }
}
