//! Printed torques, as their tables print them.

use clampbook_api::v1::{ListPublishedTorquesResponse, PublishedTorque};

use super::{
    cite,
    text::{paragraphs, strong, table, unbroken, wrap},
};
use crate::args::Word;

/// All rows, then their rules and where they are from.
pub(crate) fn list(list: &ListPublishedTorquesResponse) -> String {
    // A table may go through its materials size by size: rows are gathered under heads, in the order of the first.
    let mut groups: Vec<(String, Vec<[String; 3]>)> = Vec::new();
    for torque in &list.published_torques {
        let head = what(torque);
        match groups.iter_mut().find(|(known, _)| *known == head) {
            Some((_, rows)) => rows.push(row(torque)),
            None => groups.push((head, vec![row(torque)])),
        }
    }
    let mut shown = String::new();
    for (head, rows) in groups {
        shown.push_str(&wrap("", 0, &strong(&head)));
        shown.push_str(&table(["size", "as printed", ""], &rows));
        shown.push('\n');
    }
    let mut rules: Vec<String> = Vec::new();
    for torque in &list.published_torques {
        let rule = format!(
            "{}: {}.",
            for_what(torque),
            torque.rule.trim_end_matches('.')
        );
        if !rules.contains(&rule) {
            rules.push(rule);
        }
    }
    shown.push_str(&paragraphs("Rules", rules));
    shown.push_str(&cite::once(
        list.published_torques.iter().flat_map(|t| &t.sources),
    ));
    shown.push_str(&format!(
        "\nPublished, never computed. The maker's value takes precedence over them.\nCatalogue edition {}.\n",
        list.edition
    ));
    shown
}

/// What rows that stand under one head have in common.
fn what(torque: &PublishedTorque) -> String {
    format!(
        "{}: {}, {}, {}",
        for_what(torque),
        torque.seat,
        torque.material,
        torque.lubrication
    )
}

fn row(torque: &PublishedTorque) -> [String; 3] {
    let size = match torque.thread.as_str() {
        "" => torque.size.clone(),
        thread => format!("{}, {thread}", torque.size),
    };
    [
        size,
        unbroken(&torque.printed),
        unbroken(&torque.range_text),
    ]
}

fn for_what(torque: &PublishedTorque) -> String {
    torque.purpose().said()
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::Purpose;

    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn a_printed_torque_shows_its_rule_once() {
        let torque = PublishedTorque {
            purpose: Purpose::WheelNut.into(),
            size: "1/2".to_owned(),
            printed: "75 to 85 lbf·ft".to_owned(),
            range_text: "102 to 115 N·m".to_owned(),
            rule: "Crosswise".to_owned(),
            ..PublishedTorque::default()
        };
        let found = ListPublishedTorquesResponse {
            published_torques: vec![torque.clone(), torque],
            ..ListPublishedTorquesResponse::default()
        };
        let shown = finish(&list(&found), Look::default());
        assert_eq!(shown.matches("wheel nut: Crosswise.").count(), 1, "{shown}");
        assert!(shown.contains("102 to 115 N·m"), "{shown}");
    }
}
