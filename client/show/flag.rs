//! Flags and the rules that raise them.

use clampbook_api::v1::{Flag, ListFlagsResponse, ListRulesResponse, Rule};

use super::{
    severity,
    text::{paragraph, strong, table, wrap},
};
use crate::name;

/// All open flags of a job.
pub(crate) fn list(list: &ListFlagsResponse) -> String {
    if list.flags.is_empty() {
        return "No rule raises a flag on this job as it is recorded.\n".to_owned();
    }
    block(&list.flags)
}

/// Flags one under the other, those that differ only in their position together; nothing when there are none.
pub(crate) fn block(flags: &[Flag]) -> String {
    let mut groups: Vec<(&Flag, Vec<i32>)> = Vec::new();
    for flag in flags {
        match groups.iter_mut().find(|(first, _)| alike(first, flag)) {
            Some((_, positions)) => positions.push(flag.position),
            None => groups.push((flag, vec![flag.position])),
        }
    }
    groups
        .into_iter()
        .map(|(flag, positions)| group(flag, &positions))
        .collect()
}

/// Flags that follow from what was recorded.
pub(super) fn follows(flags: &[Flag]) -> String {
    match flags {
        [] => String::new(),
        flags => format!("\n{}", block(flags)),
    }
}

fn alike(one: &Flag, other: &Flag) -> bool {
    what(one) == what(other)
}

/// What a flag says, without its position.
fn what(flag: &Flag) -> (i32, [&str; 4]) {
    let words = [&flag.rule, &flag.joint, &flag.assembly, &flag.text];
    (flag.severity, words.map(String::as_str))
}

fn group(flag: &Flag, positions: &[i32]) -> String {
    let joint = match name::id(&flag.joint) {
        "" => name::id(&flag.assembly),
        joint => joint,
    };
    let place = match positions {
        [0] => joint.to_owned(),
        [position] => format!("{joint} position {position}"),
        several => {
            let numbers = several.iter().filter(|position| **position > 0);
            let numbers: Vec<_> = numbers.map(ToString::to_string).collect();
            let whole = match several.contains(&0) {
                true => " as a whole,",
                false => "",
            };
            format!("{joint}{whole} positions {}", numbers.join(", "))
        }
    };
    let head = format!(
        "{}  {}  {}",
        severity(flag.severity),
        strong(&place),
        flag.rule
    );
    let mut shown = format!("{head}\n");
    for line in flag.text.lines() {
        shown.push_str(&wrap("  ", 4, line));
    }
    shown
}

/// One rule explained.
pub(crate) fn rule(rule: &Rule) -> String {
    let mut shown = format!("{}: {}\n", strong(name::id(&rule.name)), rule.title);
    shown.push_str(&paragraph("Raised", &rule.raised_when));
    shown.push_str(&paragraph("Cleared", &rule.cleared_by));
    shown.push_str(&paragraph("Source", &rule.source));
    shown
}

/// All rules.
pub(crate) fn rules(list: &ListRulesResponse) -> String {
    let rows: Vec<_> = list
        .rules
        .iter()
        .map(|rule| [name::id(&rule.name).to_owned(), rule.title.clone()])
        .collect();
    table(["rule", "looks for"], &rows)
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::Severity;
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn a_flag_says_where_why_and_what_clears_it() {
        let flags = vec![
            Flag {
                rule: "forced-out".to_owned(),
                severity: Severity::Stop.into(),
                joint: "jobs/oak/joints/hub".to_owned(),
                position: 3,
                text: "Came out seized, with heat and hammer, at 1.8 times the torque it was specified for.\nClears: Decide on the fastener, and run a new bolt in by hand to depth.\nProposed: replace".to_owned(),
                ..Flag::default()
            },
            Flag {
                rule: "no-approval".to_owned(),
                severity: Severity::Note.into(),
                joint: "jobs/oak/joints/hub".to_owned(),
                text: "Nobody approved the computed torque.\nClears: An approver named in the joint.".to_owned(),
                ..Default::default()
            },
        ];
        let shown = list(&ListFlagsResponse {
            flags,
            next_page_token: String::new(),
        });
        assert_snapshot!(finish(&shown, Look::default()), @r"
        STOP  hub position 3  forced-out
          Came out seized, with heat and hammer, at 1.8 times the torque it was
            specified for.
          Clears: Decide on the fastener, and run a new bolt in by hand to depth.
          Proposed: replace
        NOTE  hub  no-approval
          Nobody approved the computed torque.
          Clears: An approver named in the joint.
        ");
    }

    #[test]
    fn flags_that_differ_only_in_their_position_stand_together() {
        let flag = |position, cause: &str| Flag {
            rule: "not-refitted".to_owned(),
            severity: Severity::Note.into(),
            joint: "jobs/oak/joints/hub".to_owned(),
            position,
            text: format!("{cause}\nClears: A refit logged."),
            ..Flag::default()
        };
        let shown = block(&[flag(1, "empty"), flag(2, "started"), flag(4, "empty")]);
        assert_snapshot!(finish(&shown, Look::default()), @r"
        NOTE  hub positions 1, 4  not-refitted
          empty
          Clears: A refit logged.
        NOTE  hub position 2  not-refitted
          started
          Clears: A refit logged.
        ");
    }

    #[test]
    fn no_flag_is_not_called_safe() {
        let shown = list(&ListFlagsResponse::default());
        assert_eq!(
            shown,
            "No rule raises a flag on this job as it is recorded.\n"
        );
    }
}
