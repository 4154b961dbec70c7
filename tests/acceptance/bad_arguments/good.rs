//! Good commands, to spoil.

/// What must be there for them.
pub(super) const PREPARED: [&[&str]; 4] = [
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

pub(super) const TORQUE: &[&str] = &["torque", "7/16-20", "SAE J429 5", "dry"];
pub(super) const RESTATE: &[&str] = &[
    "restate",
    "7/16-20",
    "50 lbf·ft",
    "dry",
    "oiled",
    "--flat-seats",
    "--grade",
    "SAE J429 5",
];
pub(super) const WRENCH: &[&str] = &[
    "wrench",
    "60 lbf·ft",
    "--wrench",
    "long,150 lbf·ft,1 lbf·ft,in-date",
];
pub(super) const PLAN: &[&str] = &[
    "plan",
    "--layout",
    "ring",
    "--positions",
    "8",
    "--gasketed",
    "--torque",
    "90 N·m",
];
pub(super) const MEASURED: &[&str] = &[
    "identify",
    "thread",
    "--diameter",
    "12.3 mm",
    "--pitch",
    "1.27 mm",
];
pub(super) const JOB: &[&str] = &["jobs", "create", "other", "--name", "Other"];
pub(super) const ASSEMBLY: &[&str] = &["assemblies", "add", "tractor", "other", "--name", "Other"];
pub(super) const JOINT: &[&str] = &[
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
pub(super) const BUILT: &[&str] = &[
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
pub(super) const REJOINT: &[&str] = &[
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
pub(super) const LOG: &[&str] = &["removal", "log", "tractor", "plate", "2", "normal"];
pub(super) const ALIKE: &[&str] = &["removal", "alike", "tractor", "plate", "normal"];
pub(super) const IMPORT: &[&str] = &["removal", "import", "tractor", "-"];
pub(super) const DECIDE: &[&str] = &[
    "decide", "tractor", "plate", "1", "reuse", "--reason", "sound",
];
pub(super) const FINDING: &[&str] = &[
    "finding", "log", "tractor", "hub", "spindle", "wear", "ruined", "--class", "A",
];
pub(super) const ANSWER: &[&str] = &["finding", "answer", "tractor", "4", "--reading", "24.98 mm"];
pub(super) const REFINDING: &[&str] = &[
    "correct",
    "finding",
    "tractor",
    "4",
    "hub",
    "spindle",
    "wear",
    "usable",
    "--class",
    "A",
    "--reason",
    "looked again",
];
pub(super) const REFIT: &[&str] = &[
    "refit",
    "tractor",
    "plate",
    "1",
    "original",
    "--tightness",
    "final",
];
pub(super) const WITHDRAW: &[&str] = &[
    "correct",
    "withdraw",
    "tractor",
    "4",
    "--reason",
    "wrong hole",
];
pub(super) const REMOVAL: &[&str] = &[
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

pub(super) const LONG: &[&str] = &["torque-long", "M12", "8.8", "0.14", "0.12"];
pub(super) const HELD: &[&str] = &[
    "joint-check",
    "M10",
    "8.8",
    "dry",
    "--layer",
    "mild steel:12",
];
pub(super) const LENGTH: &[&str] = &["length", "M10", "--layer", "mild steel:12"];
pub(super) const STRETCH: &[&str] = &[
    "stretch",
    "M10",
    "8.8",
    "dry",
    "--layer",
    "mild steel:30",
    "--bolt-length-mm",
    "45",
];
pub(super) const CASTLE: &[&str] = &[
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
