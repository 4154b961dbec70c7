//! Bolts made to break: only the same part goes back.

use super::scene::{Case, Scene};
use super::{Flag, Looks, Rule};
use crate::record::words::Severity;
use clampbook_engine::Purpose;

pub(super) const OTHER_FUSE: Rule = Rule {
    id: "shear-bolt-other-part",
    title: "Shear bolt is replaced by another part",
    raised_when: "In a joint of shear bolts the new part's grade or thread is not that of the bolt that came out, or that one's grade or thread is not known: stop. A stronger bolt breaks the machine instead of itself.",
    cleared_by: "Use the same part again, and log grade and thread of the removed one, or show its grade with a citation.",
    source: "common practice",
    looks: Looks::Joint(other_fuse),
};

fn other_fuse(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    if scene.joint.fact().purpose != Purpose::ShearBolt.id() {
        return;
    }
    for case in scene.cases() {
        let Some(part) = case.new_part() else {
            continue;
        };
        let grade = original_grade(&case);
        let thread = case.removed.thread.as_str();
        let (new_grade, new_thread) = (part.grade_said(), part.thread.as_str());
        let cause = if grade.is_empty() || thread.is_empty() {
            format!(
                "whether {new_thread} {new_grade} is the same part is not known: there is no grade or thread on record for the bolt that came out"
            )
        } else if !scene.is_same_grade(grade, new_grade) {
            format!("a shear bolt of {grade} would be replaced by one of {new_grade}")
        } else if !scene.is_same_thread(thread, new_thread) {
            format!("a shear bolt {thread} would be replaced by one {new_thread}")
        } else {
            continue;
        };
        flags.push(scene.flag(rule, Severity::Stop, &case, cause));
    }
}

/// Grade of the bolt that came out, as logged or as shown for the original with a citation.
fn original_grade<'a>(case: &Case<'a>) -> &'a str {
    match case.decided {
        Some(d) if !d.grade_shown.is_empty() && !d.citation.is_empty() => &d.grade_shown,
        _ => &case.removed.grade,
    }
}

impl Scene<'_> {
    /// Whether two words mean one grade; words that the catalogue does not know must be alike.
    fn is_same_grade(&self, a: &str, b: &str) -> bool {
        match (self.catalogue.grade(a), self.catalogue.grade(b)) {
            (Ok(a), Ok(b)) => a.id() == b.id(),
            (Err(_), Err(_)) => a.trim().eq_ignore_ascii_case(b.trim()),
            _ => false,
        }
    }

    /// Whether two words mean one thread.
    pub(super) fn is_same_thread(&self, a: &str, b: &str) -> bool {
        match (self.catalogue.thread(a), self.catalogue.thread(b)) {
            (Ok(a), Ok(b)) => a.id() == b.id(),
            (Err(_), Err(_)) => a.trim().eq_ignore_ascii_case(b.trim()),
            _ => false,
        }
    }
}
