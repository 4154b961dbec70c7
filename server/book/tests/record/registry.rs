//! What belongs to a rule beside its file: its `mod`, its line in `ALL`, and the tests of its four roles.

use clampbook_book::rules;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

const RULES: &str = "src/reason/rules";
const TESTS: &str = "tests/record";

/// The roles that every rule has a test for.
const ROLES: [(&str, &str); 4] = [
    ("raises", "that it is raised"),
    ("does not", "that it is not raised where nothing is wrong"),
    ("clears", "that it clears"),
    ("wrong fact", "that a wrong fact does not clear it"),
];

/// Each rule in the order of `ALL`, and the tests that play its roles; one test may play several.
const TESTED: &str = "
weaker-than-specified
    raises, does not: a_weaker_bolt_is_a_stop_in_every_class_and_a_stronger_one_is_not
    clears, wrong fact: a_weak_bolt_is_cleared_by_a_strong_one_and_not_by_a_weak_one_or_by_words
grade-unknown
    raises: an_unknown_grade_stops_class_a_cautions_b_and_is_noted_in_c
    does not: a_missing_bolt_has_no_grade_to_know
    clears, wrong fact: a_grade_is_known_by_a_marked_part_or_by_a_cited_showing_and_not_by_a_reuse
shear-bolt-other-part
    raises: a_shear_bolt_is_replaced_by_the_same_part_only
    does not: a_shear_bolt_that_goes_back_and_a_bolt_that_clamps_are_no_matter_of_this_rule
    clears, wrong fact: a_shear_bolt_of_unknown_make_wants_its_part_shown
made-for-another-purpose
    raises: a_part_made_for_another_purpose_stops_in_every_class
    does not: a_part_for_the_joints_own_purpose_or_for_any_is_none
    clears, wrong fact: another_part_clears_it_and_a_citation_does_not
plated-hard-unbaked
    raises, clears, wrong fact: hard_plated_bolts_stop_the_joint_until_they_are_said_to_be_baked
    does not: other_finishes_and_softer_grades_need_no_baking
nut-does-not-carry
    raises, does not: a_nut_that_does_not_carry_stops_a_and_b_and_cautions_c
    clears, wrong fact: a_weak_nut_is_cleared_by_a_strong_one_and_not_by_a_decision_on_the_bolt
thread-strips
    raises, does not: threads_that_strip_stop_the_joint_in_a_and_b_and_caution_c
    clears, wrong fact: a_stripping_joint_is_cleared_by_an_insert_or_more_thread_and_not_by_decisions
bearing-pressure
    raises, clears, wrong fact: a_face_that_is_pressed_in_stops_a_cautions_b_and_is_noted_in_c
    does not: a_joint_that_holds_raises_nothing_and_one_that_nobody_described_neither
bottoms
    raises, does not: bottoming_begins_one_pitch_before_the_end_and_stops_every_class
    clears, wrong fact: a_bottoming_bolt_is_cleared_by_a_shorter_one_or_a_citation_and_not_by_the_hole_or_words
too-short
    raises, does not: a_bolt_that_does_not_come_through_is_a_stop_and_one_that_barely_does_a_caution
    clears, wrong fact: a_short_bolt_is_cleared_by_a_longer_one_and_not_by_reuse
thread-runs-out
    raises, does not, clears, wrong fact: a_thread_that_runs_out_stops_where_it_was_measured_and_cautions_where_it_is_the_standards
engagement-short
    raises, does not: little_engagement_is_a_caution_that_shows_both_rules
    clears, wrong fact: little_engagement_at_a_hole_is_cleared_by_what_the_maker_had_and_not_by_reuse
thread-in-shear-plane
    raises, does not, clears, wrong fact: thread_in_the_shear_plane_is_a_caution_until_the_body_is_long_enough
head-without-room
    raises, does not, clears, wrong fact: a_head_that_touches_stops_its_joint_until_it_has_room
mixed-grades
    raises: a_stronger_bolt_among_its_neighbours_is_a_caution_in_a_and_b_and_a_note_in_c
    does not: the_grade_of_its_neighbours_or_neighbours_of_unknown_grade_raise_nothing
    clears: one_grade_for_all_clears_it
    wrong fact: a_refit_or_a_citation_does_not_make_them_alike
finish-pair
    raises: metals_two_groups_apart_are_a_caution_and_a_note_in_class_c
    does not: neighbouring_groups_and_what_nobody_said_raise_nothing
    clears, wrong fact: another_finish_clears_it_and_no_hole_check_does
odd-length
    raises, does not: one_long_bolt_among_four_is_odd_and_one_within_tolerance_is_not
    clears, wrong fact: an_odd_length_is_cleared_by_a_citation_or_the_common_length_and_not_by_reuse
forced-out
    raises, does not: force_of_any_kind_stops_the_bolt_and_its_hole
    clears: force_is_cleared_by_a_decision_and_a_proved_hole_together_and_by_neither_alone
    wrong fact: a_refit_does_not_clear_force
broken-or-missing
    raises, does not, clears, wrong fact: broken_and_missing_bolts_are_replaced_and_a_stub_wants_its_hole_proved
thread-damaged
    raises, does not, clears, wrong fact: damaged_threads_want_a_new_bolt_and_a_proved_hole
fastener-unfit
    raises, does not, clears, wrong fact: unfit_bolts_are_replaced_and_cleaning_does_not_mend_them
heated
    raises, does not, clears, wrong fact: heat_stops_by_colour_or_class_and_only_a_new_bolt_clears_it
loose-on-arrival
    raises, clears, wrong fact: loose_on_arrival_is_a_finding_that_wants_the_hole_measured
    does not: a_breakaway_below_three_tenths_of_the_torque_counts_as_loose
yield-bolt-again
    raises, clears: a_bolt_past_yield_wants_a_new_one_and_never_goes_back
    does not, wrong fact: a_bolt_that_clamps_may_go_back_and_one_on_hold_is_not_decided
lock-nut-again
    raises, clears, wrong fact: a_used_lock_nut_shows_its_grip_or_is_replaced
    does not: what_goes_back_as_it_is_raises_nothing
small-part-unfit
    raises, clears: a_missing_or_unfit_small_part_is_told_until_a_new_one_is_in
    does not: what_goes_back_as_it_is_raises_nothing
    wrong fact: a_small_part_is_not_made_fit_by_the_old_one_nor_by_one_of_two
used-once
    raises: what_is_used_once_is_a_note_until_it_is_closed_without_a_new_one
    does not: what_goes_back_as_it_is_raises_nothing
    clears: a_new_one_clears_what_is_used_once_until_the_fastener_goes_in_again
    wrong fact: an_old_one_another_part_or_a_decision_does_not_clear_what_is_used_once
on-hold
    raises: a_hold_stops_its_hole_in_every_class_and_says_what_it_waits_for
    does not: no_other_decision_is_a_hold
    clears, wrong fact: only_another_decision_ends_it
part-ruined
    raises: a_ruined_part_stops_its_own_side_whatever_ruined_it
    does not: a_part_that_is_not_ruined_stops_nothing
    clears: it_clears_when_the_part_is_replaced_or_repaired_or_was_not_ruined_after_all
    wrong fact: another_part_an_earlier_repair_or_a_second_look_does_not_clear_it
other-side
    raises: a_part_ruined_by_wear_heat_or_crack_stops_the_other_side
    does not: nothing_is_asked_where_there_is_nothing_to_ask
    clears: a_reading_a_photo_or_somebody_who_declares_it_absent_clears_it
    wrong fact: what_is_said_of_something_else_does_not_clear_it
part-not-arrived
    raises: a_part_wanted_by_hand_stops_its_joint_in_a_and_b_and_is_a_caution_in_c
    does not: small_parts_things_used_once_and_what_is_not_decided_are_listed_and_not_flagged
    clears: the_arrival_or_the_new_part_in_its_hole_clears_it
    wrong fact: too_few_another_part_or_the_original_back_do_not_clear_it
other-thread
    raises, does not, clears: another_thread_is_a_caution_as_found_and_a_stop_as_bought
    wrong fact: neither_a_citation_nor_a_proved_hole_nor_a_refit_makes_another_thread_fit
computed-torque-not-approved
    raises, does not, clears, wrong fact: a_computed_torque_in_class_a_stops_until_somebody_approves_it_by_name
specification-not-in-force
    raises, does not, clears, wrong fact: a_withdrawn_specification_stops_class_a_and_cautions_the_rest
specification-revised
    raises, does not, clears, wrong fact: a_new_revision_is_to_be_read_before_the_joint_follows_it
other-lubrication
    raises, clears, wrong fact: another_lubrication_than_stated_is_told_with_what_it_makes
    does not: a_publication_without_lubrication_has_none_to_differ_from
published-torque-overloads
    raises, does not, clears, wrong fact: a_published_torque_that_the_bolt_does_not_carry_stops_with_its_number
not-as-decided
    raises, clears: what_went_in_is_what_was_decided
    does not: an_original_that_may_go_back_goes_back_at_its_torque_and_nothing_is_said
    wrong fact: tightening_a_part_that_is_not_the_decided_one_does_not_make_it_so
not-tight
    raises, clears, wrong fact: in_but_not_tight_and_not_in_at_all_are_said
    does not: an_original_that_may_go_back_goes_back_at_its_torque_and_nothing_is_said
not-read
    raises: a_final_torque_without_reading_or_wrench_is_not_read_in_class_a_and_b
    does not: class_c_snug_and_what_no_torque_is_asked_for_need_no_reading
    clears, wrong fact: reading_and_wrench_clear_it_and_one_of_the_two_does_not
reading-off
    raises, does not, clears, wrong fact: a_reading_that_is_not_the_torque_asked_for_is_said
not-refitted
    raises, clears: in_but_not_tight_and_not_in_at_all_are_said
    does not: an_original_that_may_go_back_goes_back_at_its_torque_and_nothing_is_said
    wrong fact: neither_a_decision_nor_a_part_that_came_fills_an_empty_hole
over-torqued
    raises: too_much_is_a_stop_in_class_a_and_a_caution_below_and_a_lower_reading_does_not_clear_it
    does not: what_the_maker_allows_and_a_little_more_than_computed_is_not_too_much
    clears: a_new_fastener_or_a_corrected_reading_clears_what_was_too_much
    wrong fact: too_much_is_a_stop_in_class_a_and_a_caution_below_and_a_lower_reading_does_not_clear_it
left-out
    raises, does not, clears: left_out_is_a_note_in_c_a_caution_in_b_and_a_stop_in_a_until_the_maker_is_cited
    wrong fact: nothing_but_a_citation_makes_it_less_than_a_stop_in_class_a
does-not-add-up
    raises: what_is_left_over_when_a_position_is_closed_is_named_by_kind
    does not: what_went_back_adds_up_in_whichever_hole_and_under_either_name
    clears, wrong fact: the_named_piece_found_or_explained_clears_it_and_another_does_not
";

fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// The sources right in a folder of this crate, by name without `.rs`.
fn sources(folder: &Path) -> BTreeMap<String, String> {
    let entries = fs::read_dir(folder)
        .expect("the folder")
        .map(|e| e.expect("an entry").path());
    let rust = entries.filter(|path| path.extension().is_some_and(|ext| ext == "rs"));
    let name = |path: &PathBuf| {
        path.file_stem()
            .expect("a name")
            .to_string_lossy()
            .into_owned()
    };
    rust.map(|path| (name(&path), read(&path))).collect()
}

/// The sources of the rules but for `mod.rs`, and `mod.rs`.
fn of_rules() -> (BTreeMap<String, String>, String) {
    let mut files = sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join(RULES));
    let table = files.remove("mod").expect("mod.rs");
    (files, table)
}

#[test]
fn every_file_of_rules_is_a_module() {
    let (files, table) = of_rules();
    for file in files.keys() {
        let line = format!("mod {file};");
        let is_here = |said: &str| said == line || said.ends_with(&format!(" {line}"));
        assert!(
            table.lines().any(is_here),
            "server/book/{RULES}/{file}.rs is not compiled: add `{line}` to mod.rs beside it"
        );
    }
}

#[test]
fn every_rule_stands_in_all() {
    let (mut files, table) = of_rules();
    // Rules made up for a test.
    files.remove("sayable").expect("sayable.rs");
    let mut found = 0;
    for (file, text) in &files {
        let declared = text.lines().filter_map(|line| line.split_once(": Rule = "));
        for (before, _) in declared {
            let name = before.rsplit(' ').next().expect("a name");
            let line = format!("&{file}::{name},");
            assert!(
                table.lines().any(|said| said.trim() == line),
                "the rule {name} of {file}.rs is never asked: add `{line}` to ALL in server/book/{RULES}/mod.rs"
            );
            found += 1;
        }
    }
    let all = rules::ALL.len();
    assert_eq!(found, all, "every rule of ALL was found as a const");
}

/// The lines of a rule: which test plays which role.
type Roles<'a> = BTreeMap<&'a str, &'a str>;

fn tested() -> Vec<(&'static str, Roles<'static>)> {
    let mut all: Vec<(&str, Roles<'_>)> = Vec::new();
    for line in TESTED.lines().filter(|line| !line.is_empty()) {
        let Some((roles, test)) = line.split_once(": ") else {
            all.push((line, Roles::new()));
            continue;
        };
        let (rule, played) = all.last_mut().expect("a rule first");
        for role in roles.trim().split(", ") {
            assert!(
                ROLES.iter().any(|(known, _)| *known == role),
                "{rule}: no role is called {role:?}"
            );
            assert_eq!(
                played.insert(role, test),
                None,
                "{rule}: {role} stands twice"
            );
        }
    }
    all
}

#[test]
fn every_rule_has_its_four_tests_in_the_table() {
    let tested = tested();
    for rule in rules::ALL {
        let roles = tested
            .iter()
            .find(|(id, _)| *id == rule.id)
            .map(|(_, roles)| roles);
        for (role, what) in ROLES {
            assert!(
                roles.is_some_and(|roles| roles.contains_key(role)),
                "rule {} has no test {what}: write one in server/book/{TESTS}/rules/ and name it in registry.rs as \"{role}\"",
                rule.id
            );
        }
    }
    for (id, _) in &tested {
        assert!(
            rules::rule(id).is_some(),
            "registry.rs names the rule {id}, which does not stand in ALL: put it there, or take its lines out"
        );
    }
    let ids = tested.iter().map(|(id, _)| *id);
    assert!(
        ids.eq(rules::ALL.iter().map(|rule| rule.id)),
        "registry.rs has each rule once, in the order of ALL"
    );
}

#[test]
fn every_test_in_the_table_is_there_and_its_file_names_the_rule() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join(TESTS);
    let files: Vec<String> = [folder.clone(), folder.join("rules")]
        .iter()
        .flat_map(|folder| sources(folder).into_values())
        .collect();
    for (rule, roles) in tested() {
        for (role, test) in roles {
            let head = format!("#[test]\nfn {test}() {{");
            let file = files.iter().find(|text| text.contains(&head));
            let file = file.unwrap_or_else(|| {
                panic!("registry.rs names {test} for \"{role}\" of rule {rule}, and no test in server/book/{TESTS}/ is called so")
            });
            assert!(
                [format!("\"{rule}\""), format!("`{rule}`")]
                    .iter()
                    .any(|id| file.contains(id)),
                "the file of {test} never names {rule}: name another test for \"{role}\" in registry.rs"
            );
        }
    }
}
