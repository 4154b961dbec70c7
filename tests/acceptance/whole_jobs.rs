//! Whole jobs in the shop's words: from the first wrench to the sheet that is clean of stops.

use std::fs;

use crate::support::photo::png;
use crate::support::{Server, cli};

/// A shop that is spoken to in lines; words are separated by bars.
struct Bench(Server);

impl Bench {
    fn open() -> Self {
        let bench = Self(Server::start());
        bench.say("jobs|create|tractor|--name|Orchard tractor|--unit|lbf-ft");
        bench
    }

    /// Says a line that must be taken; gives the answer without its line ends.
    fn say(&self, line: &str) -> String {
        let words: Vec<&str> = line.split('|').collect();
        let told = cli(&self.0, &words).output().to_owned();
        told.split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// Says a line that must be refused; gives the message.
    fn refused(&self, line: &str, code: i32) -> String {
        let words: Vec<&str> = line.split('|').collect();
        let told = cli(&self.0, &words);
        told.ends_with(code);
        told.stderr
    }

    fn sheet(&self) -> String {
        self.say("sheet|tractor")
    }
}

#[track_caller]
fn holds(text: &str, words: &[&str]) {
    for word in words {
        assert!(text.contains(word), "no {word:?} in:\n{text}");
    }
}

#[test]
fn a_ruined_spindle_its_twin_on_a_photo_and_a_new_one_in() {
    let bench = Bench::open();
    bench.say("assemblies|add|tractor|left-hub|--name|Left front hub");
    bench.say("assemblies|add|tractor|right-hub|--name|Right front hub|--counterpart|left-hub");
    for side in ["left", "right"] {
        bench.say(&format!(
            "joints|add|tractor|{side}-plate|--assembly|{side}-hub|--name|Plate|--layout|ring|--positions|4|--class|A|--hole-kind|tapped-through|--thread|7/16-20|--grade|SAE J429 5|--lubrication|oiled|--approver|Ida"
        ));
    }
    for hole in 1..=4 {
        bench.say(&format!(
            "removal|log|tractor|left-plate|{hole}|normal|--methods|hand|--grade|SAE J429 5|--kept-in|bag 1"
        ));
    }
    let found = bench.say(
        "finding|log|tractor|left-hub|spindle|wear|ruined|--class|A|--cause|bearing ran dry|--reading|journal 24.61 mm",
    );
    holds(
        &found,
        &[
            "STOP right-hub other-side",
            "STOP left-hub part-ruined",
            "(entry 10)",
        ],
    );

    // The picture of the ruined one is no look at the other side.
    let folder = tempfile::tempdir().expect("a folder");
    let file = |name: &str, number| {
        let path = folder.path().join(name);
        fs::write(&path, png(number)).expect("a file");
        path.to_str().expect("a name").to_owned()
    };
    let (here, there) = (file("left.png", 1), file("right.png", 2));
    let added = bench.say(&format!(
        "photo|add|tractor|{here}|--of|finding:10|--caption|blue at the shoulder"
    ));
    holds(
        &added,
        &["Photo of finding 10: blue at the shoulder", "(entry 11)"],
    );
    let no = bench.refused("finding|answer|tractor|10|--added-photo|11", 2);
    holds(&no, &["answer.added_photo", "right-hub"]);
    let added = bench.say(&format!(
        "photo|add|tractor|{there}|--of|assembly:right-hub|--caption|journal bright all round"
    ));
    holds(&added, &["(entry 12)"]);
    let answered = bench.say("finding|answer|tractor|10|--added-photo|12");
    holds(&answered, &["other side: photo of entry 12"]);
    assert!(!answered.contains("STOP right-hub"), "{answered}");

    // On its own side it stays stopped until the new one is in, not only in the house.
    holds(
        &bench.sheet(),
        &[
            "STOP: spindle is ruined by wear",
            "blue at the shoulder (photo of entry 11)",
        ],
    );
    bench.say("parts|arrive|tractor|left-hub|spindle|1");
    holds(&bench.sheet(), &["STOP: spindle is ruined by wear"]);
    bench.say("finding|log|tractor|left-hub|spindle|wear|replaced|--class|A|--note|new old stock");
    let sheet = bench.sheet();
    assert!(!sheet.contains("spindle is ruined"), "{sheet}");
    holds(&sheet, &["lbf·ft", "other side: photo of entry 12"]);
    let copy = folder.path().join("shown.png");
    bench.say(&format!("photo|get|tractor|12|{}", copy.display()));
    assert_eq!(
        fs::read(copy).expect("the copy"),
        png(2),
        "the inspector sees what was seen"
    );
}

#[test]
fn a_seized_stud_is_drilled_out_and_its_hole_lined() {
    let bench = Bench::open();
    bench.say("assemblies|add|tractor|head|--name|Cylinder head");
    let described = "--assembly|head|--name|Head to block|--layout|line|--positions|2|--class|B|--hole-kind|tapped-blind|--thread|1/2-13|--grade|SAE J429 5|--lubrication|oiled|--layer|mild steel:25|--tapped|grey cast iron:30|--blind|--bolt-length-mm|44.45";
    bench.say(&format!("joints|add|tractor|studs|{described}"));
    bench.say("marks|log|tractor|studs|2|--mark|exposed-thread:22 mm");
    let out = bench.say(
        "removal|log|tractor|studs|2|broke-now|--methods|penetrant-soak,heat,drilled,extractor-or-welded-nut|--heat|warm|--note|broke below the face",
    );
    holds(
        &out,
        &[
            "STOP studs position 2 forced-out",
            "drilled, extractor or welded nut",
            "broken-or-missing",
        ],
    );
    let stopped = bench.sheet();
    holds(&stopped, &["STOP:", "marks: exposed thread: 22 mm"]);
    // A new stud alone proves nothing about the hole.
    let part = "--thread|1/2-13|--length|1-3/4 in|--grade|SAE J429 5";
    let half = bench.say(&format!(
        "decide|tractor|studs|2|replace|{part}|--reason|stud gone"
    ));
    holds(
        &half,
        &[
            "STOP studs position 2 forced-out",
            "runs by hand to full depth",
        ],
    );
    let measured = bench.say(&format!(
        "decide|tractor|studs|2|replace|{part}|--hole-check|measured|--reason|hole measured"
    ));
    holds(&measured, &["STOP studs position 2 forced-out"]);
    let repaired = bench.say(&format!(
        "decide|tractor|studs|2|replace|{part}|--hole-check|repaired|--reason|helical insert fitted, new stud runs in by hand to depth"
    ));
    assert!(!repaired.contains("STOP"), "{repaired}");

    // The joint is another one now: its thread is in an insert.
    let anew = bench.say(&format!(
        "correct|joint|tractor|3|studs|{described}|--insert|--reason|helical insert"
    ));
    holds(&anew, &["CORRECTS entry 3, because helical insert"]);
    holds(
        &bench.say("joints|show|tractor|studs"),
        &[
            "helical insert",
            "studs position 2: marked exposed thread: 22 mm",
        ],
    );
    let old = bench.say("refit|tractor|studs|2|original");
    holds(&old, &["STOP studs position 2 not-as-decided"]);
    bench.say(&format!(
        "refit|tractor|studs|2|new|{part}|--note|22 mm stands out"
    ));
    let new = bench.say("tighten|tractor|studs|2|final");
    assert!(!new.contains("STOP"), "{new}");
    let history = bench.say("history|tractor|studs|2");
    let told = [
        "marked",
        "removed",
        "decided",
        "stud gone",
        "hole measured",
        "helical insert fitted",
        "refitted",
        "22 mm stands out",
    ];
    let mut from = 0;
    for word in told {
        let at = history[from..].find(word);
        from += at.unwrap_or_else(|| panic!("{word} does not follow in:\n{history}"));
    }
}

/// Sixty holes in six joints, each out of its hole by a line of a table.
fn sixty_lines() -> String {
    let mut table = "joint,position,outcome,methods,length,grade,kept_in,stack\n".to_owned();
    for joint in 1..=6 {
        for position in 1..=10 {
            let (outcome, methods) = match (joint, position) {
                (2, 7) => ("seized", "hammer"),
                _ => ("normal", "hand"),
            };
            table += &format!(
                "cover-{joint},{position},{outcome},{methods},1-1/4 in,SAE J429 5,tin {joint},washer\n"
            );
        }
    }
    table
}

#[test]
fn sixty_holes_come_out_by_a_table_and_are_put_right_one_by_one() {
    let bench = Bench::open();
    bench.say("assemblies|add|tractor|gearbox|--name|Gearbox");
    for joint in 1..=6 {
        bench.say(&format!(
            "joints|add|tractor|cover-{joint}|--assembly|gearbox|--name|Cover {joint}|--layout|grid|--rows|2|--positions|10|--class|B|--hole-kind|tapped-through|--thread|7/16-20|--grade|SAE J429 5|--lubrication|oiled"
        ));
    }
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("strip-down.csv");
    fs::write(&path, sixty_lines()).expect("a table");
    let import = format!("removal|import|tractor|{}", path.display());
    let checked = bench.say(&format!("{import}|--dry-run"));
    holds(&checked, &["60 removals checked, nothing written"]);
    let came = bench.say(&import);
    holds(
        &came,
        &["60 removals recorded", "STOP cover-2 position 7 forced-out"],
    );
    let before = bench.sheet();
    holds(
        &before,
        &[
            "0 of 60 positions are back",
            "60 empty",
            "WHAT STOPS THE JOB (1)",
            "Gearbox: Cover 2, hole 7",
        ],
    );

    // It was hole 8 of the same cover that fought; 7 came out by hand, and was longer than told.
    // Entries: the job, its assembly, six joints, then line by line: hole 7 of cover 2 is the 17th.
    let (seven, eight) = (8 + 17, 8 + 18);
    let sound = "--length|1-1/4 in|--grade|SAE J429 5|--kept-in|tin 2|--stack|washer";
    bench.say(&format!(
        "correct|removal|tractor|{seven}|cover-2|7|normal|--methods|hand|--length|1-3/4 in|--grade|SAE J429 5|--kept-in|tin 2|--stack|washer|--stack|bracket:1:12.7 mm|--reason|it was the next one"
    ));
    let wrong = bench.say(&format!(
        "correct|removal|tractor|{eight}|cover-2|8|seized|--methods|hammer|{sound}|--reason|this one fought"
    ));
    holds(&wrong, &["STOP cover-2 position 8 forced-out"]);
    bench.say(&format!(
        "correct|removal|tractor|{eight}|cover-2|8|stiff|--methods|long-bar|{sound}|--reason|no hammer, a bar"
    ));
    let after = bench.sheet();
    assert!(!after.contains("Cover 2, hole 7 hammer"), "{after}");
    holds(
        &after,
        &[
            "No open stop",
            "LONGER THAN ITS NEIGHBOURS",
            "from the head on: washer, bracket 12.7 mm",
        ],
    );
    let again = bench.refused(&import, 2);
    holds(&again, &["line 2", "is empty already"]);

    let seventh = bench.say("history|tractor|cover-2|7");
    holds(
        &seventh,
        &[
            "jobs/tractor/entries/25 removed",
            "corrected",
            "CORRECTS entry 25",
            "it was the next one",
        ],
    );
    assert!(
        !seventh.contains("entries/26 "),
        "the next hole is another history:\n{seventh}"
    );
    let eighth = bench.say("history|tractor|cover-2|8");
    assert_eq!(eighth.matches("CORRECTS entry 26").count(), 2, "{eighth}");
    assert_eq!(
        bench
            .say("history|tractor|cover-1|1")
            .matches("entries/")
            .count(),
        1
    );

    // Ten go back; one washer stays on the bench until somebody says where it is.
    for position in 2..=10 {
        bench.say(&format!(
            "refit|tractor|cover-1|{position}|original|--as-it-came-out"
        ));
    }
    bench.say("refit|tractor|cover-1|1|original");
    bench.say("tighten|tractor|cover-1|all|final");
    holds(
        &bench.say("flags|list|tractor"),
        &[
            "does-not-add-up",
            "1 x washer left over, of 10 that came out (Cover 1 hole 1)",
        ],
    );
    let found = bench
        .say("not-refitted|tractor|cover-1|1|washer|found|--reason|stuck to the cover, put back");
    assert!(!found.contains("add up"), "{found}");
    holds(
        &bench.say("history|tractor|cover-1|1"),
        &["removed", "refitted", "tightened", "piece-accounted"],
    );
    holds(
        &bench.sheet(),
        &["10 of 60 positions are back and at final torque"],
    );
}
