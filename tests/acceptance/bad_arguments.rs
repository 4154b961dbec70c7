//! One bad argument at a time for every command: the exit code, the name of what is wrong, and nothing written.

use crate::support::cli::{clampbook, run};
use crate::support::{Server, cli};

const PREPARED: [&[&str]; 4] = [
    &["jobs", "create", "tractor", "--name", "Orchard tractor"],
    &["assemblies", "add", "tractor", "hub", "--name", "Hub"],
    &[
        "joints",
        "add",
        "tractor",
        "plate",
        "--assembly",
        "hub",
        "--name",
        "Plate",
        "--layout",
        "ring",
        "--positions",
        "4",
        "--class",
        "B",
        "--hole",
        "stud",
        "--thread",
        "7/16-20",
        "--grade",
        "SAE J429 5",
        "--condition",
        "dry",
    ],
    &["removal", "log", "tractor", "plate", "1", "normal"],
];

/// A good command; what is put in place of or after its words; the exit code; what the message names.
type Bad = (
    &'static [&'static str],
    &'static [(&'static str, &'static str)],
    i32,
    &'static str,
);

const TORQUE: &[&str] = &["torque", "7/16-20", "SAE J429 5", "dry"];
const RESTATE: &[&str] = &[
    "restate",
    "7/16-20",
    "50 lbf·ft",
    "dry",
    "oiled",
    "--flat-seats",
    "--grade",
    "SAE J429 5",
];
const WRENCH: &[&str] = &[
    "wrench",
    "60 lbf·ft",
    "--wrench",
    "long,150 lbf·ft,1 lbf·ft,in-date",
];
const PLAN: &[&str] = &[
    "plan",
    "--layout",
    "ring",
    "--positions",
    "8",
    "--gasketed",
    "--torque",
    "90 N·m",
];
const MEASURED: &[&str] = &[
    "identify",
    "thread",
    "--diameter",
    "12.3 mm",
    "--pitch",
    "1.27 mm",
];
const JOB: &[&str] = &["jobs", "create", "other", "--name", "Other"];
const ASSEMBLY: &[&str] = &["assemblies", "add", "tractor", "other", "--name", "Other"];
const JOINT: &[&str] = &[
    "joints",
    "add",
    "tractor",
    "other",
    "--assembly",
    "hub",
    "--name",
    "Other",
    "--layout",
    "ring",
    "--positions",
    "4",
    "--class",
    "B",
    "--hole",
    "stud",
    "--thread",
    "M10",
    "--grade",
    "8.8",
    "--condition",
    "dry",
];
const BUILT: &[&str] = &[
    "joints",
    "add",
    "tractor",
    "other",
    "--assembly",
    "hub",
    "--name",
    "Other",
    "--layout",
    "ring",
    "--positions",
    "4",
    "--class",
    "B",
    "--hole",
    "stud",
    "--thread",
    "M10",
    "--grade",
    "8.8",
    "--condition",
    "dry",
    "--layer",
    "mild steel:20",
    "--bolt-length-mm",
    "35",
    "--castellated",
];
const LOG: &[&str] = &["removal", "log", "tractor", "plate", "2", "normal"];
const ALIKE: &[&str] = &["removal", "alike", "tractor", "plate", "normal"];
const IMPORT: &[&str] = &["removal", "import", "tractor", "-"];
const DECIDE: &[&str] = &[
    "decide", "tractor", "plate", "1", "reuse", "--reason", "sound",
];
const REFIT: &[&str] = &[
    "refit",
    "tractor",
    "plate",
    "1",
    "original",
    "--tightness",
    "final",
];
const WITHDRAW: &[&str] = &[
    "correct",
    "withdraw",
    "tractor",
    "4",
    "--reason",
    "wrong hole",
];
const REMOVAL: &[&str] = &[
    "correct",
    "removal",
    "tractor",
    "4",
    "plate",
    "1",
    "stiff",
    "--reason",
    "wrong word",
];
const REJOINT: &[&str] = &[
    "correct",
    "joint",
    "tractor",
    "3",
    "plate",
    "--assembly",
    "hub",
    "--name",
    "Plate",
    "--layout",
    "ring",
    "--positions",
    "4",
    "--class",
    "B",
    "--hole",
    "stud",
    "--thread",
    "7/16-20",
    "--grade",
    "SAE J429 5",
    "--condition",
    "dry",
    "--reason",
    "looked again",
];

const LONG: &[&str] = &["torque-long", "M12", "8.8", "0.14", "0.12"];
const HELD: &[&str] = &[
    "joint-check",
    "M10",
    "8.8",
    "dry",
    "--layer",
    "mild steel:12",
];
const LENGTH: &[&str] = &["length", "M10", "--layer", "mild steel:12"];
const STRETCH: &[&str] = &[
    "stretch",
    "M10",
    "8.8",
    "dry",
    "--layer",
    "mild steel:30",
    "--bolt-length-mm",
    "45",
];
const CASTLE: &[&str] = &[
    "castle-nut",
    "M10",
    "8.8",
    "dry",
    "--layer",
    "mild steel:30",
    "--bolt-length-mm",
    "45",
    "--minimum-torque-nm",
    "40",
];

/// A word in `""` is added at the end instead of put in place of another.
const TABLE: &[Bad] = &[
    (TORQUE, &[("7/16-20", "7/16-21")], 2, "thread"),
    (TORQUE, &[("7/16-20", "")], 2, "thread"),
    (TORQUE, &[("SAE J429 5", "cheese")], 2, "grade"),
    (TORQUE, &[("dry", "honey")], 2, "condition"),
    (TORQUE, &[("", "--proof-share=NaN")], 2, "proof_share"),
    (TORQUE, &[("", "--proof-share=inf")], 2, "proof_share"),
    (TORQUE, &[("", "--proof-share=1.01")], 2, "proof_share"),
    (TORQUE, &[("", "--proof-share=-0.5")], 2, "proof_share"),
    (TORQUE, &[("", "--proof-share=half")], 2, "--proof-share"),
    (TORQUE, &[("", "--nut-factor=0")], 2, "nut_factor"),
    (TORQUE, &[("", "--nut-factor=1e300")], 2, "nut_factor"),
    (TORQUE, &[("", "--clamp-load-n=-1")], 2, "clamp_load_n"),
    (TORQUE, &[("", "--clamp-load-n=1e300")], 2, "clamp_load_n"),
    (TORQUE, &[("", "--nut-grade=butter")], 2, "nut_grade"),
    (TORQUE, &[("", "--purpose=dancing")], 2, "--purpose"),
    (TORQUE, &[("", "--unit=furlongs")], 2, "--unit"),
    (TORQUE, &[("", "--timeout=0")], 2, "--timeout"),
    (TORQUE, &[("", "--timeout=NaN")], 2, "--timeout"),
    (TORQUE, &[("", "--server=ftp://nowhere")], 2, "--server"),
    (RESTATE, &[("7/16-20", "7/16-21")], 2, "thread"),
    (RESTATE, &[("50 lbf·ft", "50")], 2, "torque"),
    (RESTATE, &[("50 lbf·ft", "NaN N·m")], 2, "torque"),
    (RESTATE, &[("dry", "honey")], 2, "published_condition"),
    (RESTATE, &[("oiled", "honey")], 2, "condition"),
    (RESTATE, &[("SAE J429 5", "cheese")], 2, "grade"),
    (RESTATE, &[("", "--purpose=wheel-nut")], 7, "purpose"),
    (WRENCH, &[("60 lbf·ft", "60")], 2, "torque"),
    (WRENCH, &[("60 lbf·ft", "-60 N·m")], 2, "'-6'"),
    (WRENCH, &[("", "--run-on-excluded")], 2, "run_on_torque"),
    (
        WRENCH,
        &[("", "--used-lock-nut=7/16-20")],
        2,
        "run_on_torque",
    ),
    (
        WRENCH,
        &[("", "--adapter-length=2 in")],
        2,
        "--wrench-length",
    ),
    (
        WRENCH,
        &[("long,150 lbf·ft,1 lbf·ft,in-date", "long")],
        2,
        "--wrench",
    ),
    (
        WRENCH,
        &[(
            "long,150 lbf·ft,1 lbf·ft,in-date",
            "long,150,1 lbf·ft,in-date",
        )],
        2,
        "wrenches[0].greatest_torque",
    ),
    (LONG, &[("M12", "M12.3")], 2, "thread"),
    (LONG, &[("0.14", "NaN")], 2, "thread_friction"),
    (LONG, &[("0.12", "-1")], 2, "bearing_friction"),
    (LONG, &[("", "--friction-low=0.1")], 2, "friction_high"),
    (LONG, &[("", "--yield-share=2")], 2, "yield_share"),
    (LONG, &[("", "--purpose=spark-plug")], 7, "purpose"),
    (HELD, &[("M10", "M10.3")], 2, "torque.thread"),
    (
        HELD,
        &[("mild steel:12", "cheese:12")],
        2,
        "stack.layers[0].metal",
    ),
    (HELD, &[("mild steel:12", "mild steel")], 2, "--layer"),
    (HELD, &[("", "--fit=close")], 2, "fit"),
    (
        HELD,
        &[("", "--tapped=mild steel:-1")],
        2,
        "stack.tapped.full_thread_mm",
    ),
    (
        LENGTH,
        &[("mild steel:12", "mild steel:NaN")],
        2,
        "stack.layers[0].thickness_mm",
    ),
    (LENGTH, &[("", "--shear-plane-mm=-2")], 2, "shear_plane_mm"),
    (STRETCH, &[("45", "20")], 2, "stack.bolt_length_mm"),
    (STRETCH, &[("", "--loading-plane=1.5")], 2, "loading_plane"),
    (STRETCH, &[("", "--roughness=polished")], 2, "--roughness"),
    (CASTLE, &[("40", "0")], 2, "minimum_torque_nm"),
    (CASTLE, &[("", "--holes=3")], 2, "holes"),
    (CASTLE, &[("", "--slots=-6")], 2, "slots"),
    (
        CASTLE,
        &[("", "--to-slot-degrees=61")],
        2,
        "to_slot_degrees",
    ),
    (PLAN, &[("8", "501")], 2, "position_count"),
    (PLAN, &[("8", "-1")], 2, "-1"),
    (PLAN, &[("ring", "grid")], 2, "row_count"),
    (PLAN, &[("ring", "spiral")], 2, "--layout"),
    (PLAN, &[("90 N·m", "90")], 2, "torque"),
    (PLAN, &[("", "no-such-procedure")], 2, "procedure"),
    (PLAN, &[("", "--back-off=NaN")], 2, "back_off_degrees"),
    (
        &["catalog", "thread", "7/16-20"],
        &[("7/16-20", "7/16-21")],
        3,
        "7/16-21",
    ),
    (
        &["catalog", "thread", "7/16-20"],
        &[("7/16-20", "7/16")],
        2,
        "name",
    ),
    (&["catalog", "threads"], &[("threads", "bolts")], 2, "bolts"),
    (
        &["catalog", "published"],
        &[("", "--purpose=hope")],
        2,
        "--purpose",
    ),
    (MEASURED, &[("12.3 mm", "wide")], 2, "diameter"),
    (MEASURED, &[("1.27 mm", "0 mm")], 2, "pitch"),
    (MEASURED, &[("", "--tpi=20")], 2, "--tpi"),
    (MEASURED, &[("", "--wear=NaN")], 2, "wear_mm"),
    (
        MEASURED,
        &[("", "--flank-angle=90")],
        2,
        "flank_angle_degrees",
    ),
    (
        MEASURED,
        &[("", "--diameter-error=-1")],
        2,
        "diameter_error_mm",
    ),
    (MEASURED, &[("", "--pitch-error=0")], 2, "pitch_error_mm"),
    (
        &["identify", "head", "three radial lines"],
        &[("three radial lines", "")],
        2,
        "marking",
    ),
    (
        &["identify", "spanner", "9/16 in"],
        &[("9/16 in", "wide")],
        2,
        "width",
    ),
    (JOB, &[("other", "NOT LOWER")], 2, "job_id"),
    (JOB, &[("other", "tractor")], 4, "jobs/tractor"),
    (JOB, &[("Other", "")], 2, "job.display_name"),
    (JOB, &[("Other", "two\u{7}bells")], 2, "job.display_name"),
    (JOB, &[("", "--unit=cubits")], 2, "--unit"),
    (JOB, &[("", "--request-id=7")], 2, "request_id"),
    (
        &["jobs", "show", "tractor"],
        &[("tractor", "none")],
        3,
        "jobs/none",
    ),
    (
        &["jobs", "show", "tractor"],
        &[("tractor", "a/b")],
        2,
        "name",
    ),
    (ASSEMBLY, &[("tractor", "none")], 3, "jobs/none"),
    (ASSEMBLY, &[("other", "hub")], 4, "assemblies/hub"),
    (
        ASSEMBLY,
        &[("", "--counterpart=none")],
        3,
        "assemblies/none",
    ),
    (
        ASSEMBLY,
        &[("", "--counterpart=other")],
        2,
        "assembly.counterpart",
    ),
    (JOINT, &[("tractor", "none")], 3, "jobs/none"),
    (JOINT, &[("hub", "none")], 2, "joint.assembly"),
    (JOINT, &[("4", "0")], 2, "joint.positions"),
    (JOINT, &[("4", "201")], 2, "joint.positions"),
    (JOINT, &[("4", "-1")], 2, "-1"),
    (JOINT, &[("ring", "single")], 2, "joint.positions"),
    (JOINT, &[("ring", "grid")], 2, "joint.row_count"),
    (JOINT, &[("ring", "spiral")], 2, "--layout"),
    (JOINT, &[("B", "D")], 2, "--class"),
    (JOINT, &[("stud", "keyhole")], 2, "--hole"),
    (JOINT, &[("M10", "M10.5")], 2, "joint.target.thread"),
    (JOINT, &[("8.8", "8.9")], 2, "joint.target.grade"),
    (JOINT, &[("dry", "damp")], 2, "joint.target.condition"),
    (
        JOINT,
        &[("", "--proof-share=NaN")],
        2,
        "joint.target.proof_share",
    ),
    (JOINT, &[("", "--purpose=pipe-fitting")], 2, "joint.target"),
    (
        &["joints", "show", "tractor", "plate"],
        &[("plate", "none")],
        3,
        "joints/none",
    ),
    (
        &["joints", "list", "tractor"],
        &[("tractor", "none")],
        3,
        "jobs/none",
    ),
    (LOG, &[("2", "0")], 2, "removal.position"),
    (LOG, &[("2", "5")], 2, "removal.position"),
    (LOG, &[("2", "-1")], 2, "removal.position"),
    (LOG, &[("2", "99999999999")], 2, "POSITION"),
    (LOG, &[("2", "1")], 4, "is empty already"),
    (LOG, &[("normal", "free")], 2, "free"),
    (LOG, &[("plate", "none")], 3, "joints/none"),
    (LOG, &[("", "--means=hand,hand")], 2, "removal.means[1]"),
    (LOG, &[("", "--means=prayer")], 2, "--means"),
    (LOG, &[("", "--means=heat")], 2, "removal.heat_colour"),
    (LOG, &[("", "--heat=red")], 2, "removal.heat_colour"),
    (LOG, &[("", "--tick=bent,bent")], 2, "removal.ticks[1]"),
    (LOG, &[("", "--length=45")], 2, "removal.length"),
    (LOG, &[("", "--length=-45 mm")], 2, "removal.length"),
    (
        LOG,
        &[("", "--breakaway=60")],
        2,
        "removal.breakaway_torque",
    ),
    (
        LOG,
        &[("", "--breakaway=NaN N·m")],
        2,
        "removal.breakaway_torque",
    ),
    (LOG, &[("", "--compared=odd")], 2, "--compared"),
    (ALIKE, &[("", "--positions=2,2")], 2, "positions[1]"),
    (ALIKE, &[("", "--positions=9")], 2, "positions[0]"),
    (ALIKE, &[("", "--positions=1")], 4, "is empty already"),
    (ALIKE, &[("normal", "alike")], 2, "alike"),
    (
        IMPORT,
        &[("-", "no-such-table.csv")],
        2,
        "no-such-table.csv",
    ),
    // Standard input is empty here.
    (IMPORT, &[("-", "-")], 2, "csv"),
    (IMPORT, &[("", "--dry-run=perhaps")], 2, "--dry-run"),
    (DECIDE, &[("sound", "")], 2, "decision.reason"),
    (DECIDE, &[("1", "2")], 4, "nothing was removed"),
    (DECIDE, &[("reuse", "replace")], 2, "decision.replacement"),
    (DECIDE, &[("reuse", "pray")], 2, "pray"),
    (DECIDE, &[("", "--grade-shown=8.8")], 2, "decision.citation"),
    (DECIDE, &[("", "--thread=M10")], 2, "decision.replacement"),
    (DECIDE, &[("", "--etag=\"1\"")], 4, "changed"),
    (REFIT, &[("1", "3")], 4, "nothing was removed"),
    (REFIT, &[("final", "loose")], 2, "--tightness"),
    (REFIT, &[("original", "new")], 2, "refit.new_part"),
    (REFIT, &[("", "--reading=67")], 2, "refit.torque_reading"),
    (
        REFIT,
        &[("", "--reading=1e9 N·m")],
        2,
        "refit.torque_reading",
    ),
    (WITHDRAW, &[("4", "99")], 3, "entries/99"),
    (WITHDRAW, &[("4", "x")], 2, "entry"),
    (WITHDRAW, &[("4", "1")], 4, "entries/1"),
    (WITHDRAW, &[("wrong hole", "")], 2, "reason"),
    (WITHDRAW, &[("", "--etag=\"1\"")], 4, "changed"),
    (
        JOINT,
        &[("", "--layer=cheese:12")],
        2,
        "joint.build.stack.layers[0].metal",
    ),
    (
        JOINT,
        &[("", "--layer=mild steel:NaN")],
        2,
        "joint.build.stack.layers[0].thickness_mm",
    ),
    (
        JOINT,
        &[("", "--bolt-length-mm=30")],
        2,
        "joint.build.stack.layers",
    ),
    (JOINT, &[("", "--layer=mild steel")], 2, "metal:thickness"),
    (JOINT, &[("", "--tapped=brass")], 2, "metal:depth"),
    (JOINT, &[("", "--blind")], 2, "--tapped"),
    (JOINT, &[("", "--insert")], 2, "--tapped"),
    (JOINT, &[("", "--slots=6")], 2, "--castellated"),
    (
        BUILT,
        &[("", "--tapped=brass:20")],
        2,
        "joint.build.stack.tapped",
    ),
    (
        BUILT,
        &[("", "--slots=5")],
        2,
        "joint.build.castellated_nut.slots",
    ),
    (
        BUILT,
        &[("", "--cross-holes=-1")],
        2,
        "joint.build.castellated_nut.holes",
    ),
    (
        BUILT,
        &[("", "--maximum-torque-nm=40")],
        2,
        "joint.build.castellated_nut.minimum_torque_nm",
    ),
    (
        BUILT,
        &[("", "--minimum-torque-nm=-1")],
        2,
        "joint.build.castellated_nut.minimum_torque_nm",
    ),
    (BUILT, &[("", "--fit=loose")], 2, "--fit"),
    (BUILT, &[("", "--fit=close")], 2, "joint.build.fit"),
    (
        BUILT,
        &[("", "--shear-plane-mm=-1")],
        2,
        "joint.build.shear_plane_mm",
    ),
    (
        BUILT,
        &[("35", "1e300")],
        2,
        "joint.build.stack.bolt_length_mm",
    ),
    (REJOINT, &[("3", "4")], 4, "entries/4"),
    (REJOINT, &[("3", "99")], 4, "entries/99"),
    (REJOINT, &[("plate", "other")], 2, "joint.name"),
    (REJOINT, &[("4", "5")], 2, "joint.positions"),
    (REJOINT, &[("looked again", "")], 2, "reason"),
    (
        REJOINT,
        &[("", "--layer=cheese:1")],
        2,
        "joint.build.stack.layers[0].metal",
    ),
    (REMOVAL, &[("1", "0")], 2, "removal.position"),
    (REMOVAL, &[("stiff", "free")], 2, "free"),
    (REMOVAL, &[("4", "2")], 4, "entries/2"),
    (
        &["flags", "list", "tractor"],
        &[("tractor", "none")],
        3,
        "jobs/none",
    ),
    (
        &["flags", "explain", "odd-length"],
        &[("odd-length", "none")],
        3,
        "rules/none",
    ),
    (
        &["sheet", "tractor"],
        &[("tractor", "none")],
        3,
        "jobs/none",
    ),
    (
        &["sheet", "tractor"],
        &[("", "--assembly=none")],
        3,
        "assemblies/none",
    ),
    (
        &["sheet", "tractor"],
        &[("", "--format=papyrus")],
        2,
        "--format",
    ),
    (
        &["watch", "tractor"],
        &[("tractor", "none")],
        3,
        "jobs/none",
    ),
    (
        &["watch", "tractor"],
        &[("", "--after=-1")],
        2,
        "after_sequence",
    ),
    (
        &["entries", "tractor"],
        &[("tractor", "none")],
        3,
        "jobs/none",
    ),
    (&["completions", "bash"], &[("bash", "latin")], 2, "latin"),
    (&["man"], &[("", "dance")], 2, "dance"),
];

#[test]
fn no_command_takes_a_bad_argument() {
    let server = Server::start();
    for command in PREPARED {
        cli(&server, command).output();
    }
    let before = server.entry_count();
    let mut wrong = Vec::new();
    for (good, changes, code, words) in TABLE {
        let command = spoil(good, changes);
        let told = cli(&server, &command);
        if told.code != Some(*code) || !told.stderr.contains(words) || !told.stdout.is_empty() {
            wrong.push(format!(
                "{command:?}: wanted {code} and {words:?}, got {told:#?}"
            ));
        }
    }
    assert!(
        wrong.is_empty(),
        "{} of {}:\n{}",
        wrong.len(),
        TABLE.len(),
        wrong.join("\n")
    );
    assert_eq!(server.entry_count(), before, "something was written");
}

#[test]
fn what_the_bad_ones_were_made_from_is_good() {
    let server = Server::start();
    for command in PREPARED {
        cli(&server, command).output();
    }
    for command in [
        TORQUE, RESTATE, WRENCH, PLAN, JOB, ASSEMBLY, JOINT, DECIDE, LOG, ALIKE, REMOVAL, REFIT,
    ] {
        cli(&server, command).output();
    }
    let withdraw = spoil(WITHDRAW, &[("4", "12")]);
    cli(&server, &withdraw).output();
}

fn spoil<'w>(good: &[&'w str], changes: &[(&str, &'w str)]) -> Vec<&'w str> {
    let mut command = good.to_vec();
    for (from, to) in changes {
        if from.is_empty() {
            command.push(to);
        } else {
            let place = command.iter().position(|word| word == from);
            command[place.expect("the word to change is there")] = to;
        }
    }
    command
}

#[test]
fn every_command_is_among_the_bad_ones() {
    let mut untried = Vec::new();
    for command in leaves(&[]) {
        let is_tried = TABLE.iter().any(|(good, ..)| {
            good.starts_with(&command.iter().map(String::as_str).collect::<Vec<_>>())
        });
        // These take no argument of their own.
        let takes_none = [
            "jobs list",
            "catalog grades",
            "catalog nuts",
            "catalog conditions",
            "catalog look-alikes",
            "flags rules",
        ];
        let excused = takes_none.contains(&command.join(" ").as_str());
        if is_tried == excused {
            untried.push(command.join(" "));
        }
    }
    assert!(untried.is_empty(), "{untried:?}");
}

/// Every command that has no commands below it, as the help lists them.
fn leaves(above: &[String]) -> Vec<Vec<String>> {
    let words: Vec<&str> = above.iter().map(String::as_str).chain(["--help"]).collect();
    let told = run(&mut clampbook(&words));
    let Some((_, list)) = told.output().split_once("\nCommands:\n") else {
        return vec![above.to_vec()];
    };
    let list = list.split("\n\n").next().unwrap_or_default();
    let names = list.lines().filter_map(|line| {
        let name = line.strip_prefix("  ")?;
        name.starts_with(|c: char| c.is_ascii_lowercase())
            .then(|| name.split(' ').next())?
    });
    names
        .flat_map(|name| leaves(&[above, &[name.to_owned()]].concat()))
        .collect()
}
