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
        return "No rule has anything to say about this job as it is recorded.\n".to_owned();
    }
    block(&list.flags)
}

/// Flags one under the other; nothing when there are none.
pub(crate) fn block(flags: &[Flag]) -> String {
    flags.iter().map(flag).collect()
}

fn flag(flag: &Flag) -> String {
    let place = match flag.position {
        0 => name::id(&flag.joint).to_owned(),
        position => format!("{} position {position}", name::id(&flag.joint)),
    };
    let mut shown = format!(
        "{}  {}  {}\n",
        severity(flag.severity),
        strong(&place),
        flag.rule
    );
    shown.push_str(&wrap("  ", 2, &flag.cause));
    shown.push_str(&wrap("  Clears: ", 10, &flag.clears));
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
                cause: "Came out seized, with heat and hammer, at 1.8 times the torque it was specified for.".to_owned(),
                clears: "Decide on the fastener, and run a new bolt in by hand to depth.".to_owned(),
                entries: Vec::new(),
            },
            Flag {
                rule: "no-approval".to_owned(),
                severity: Severity::Note.into(),
                joint: "jobs/oak/joints/hub".to_owned(),
                cause: "Nobody approved the computed torque.".to_owned(),
                clears: "An approver named in the joint.".to_owned(),
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
        NOTE  hub  no-approval
          Nobody approved the computed torque.
          Clears: An approver named in the joint.
        ");
    }

    #[test]
    fn no_flag_is_not_called_safe() {
        let shown = list(&ListFlagsResponse::default());
        assert_eq!(
            shown,
            "No rule has anything to say about this job as it is recorded.\n"
        );
    }
}
