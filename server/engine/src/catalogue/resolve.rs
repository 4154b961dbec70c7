//! Looks up everything a question names, and finds everything that is wrong with it.

use super::Catalogue;
use crate::{
    ask::{Ask, DEFAULT_PROOF_SHARE, Question, Target},
    fault::{Fault, FaultReason},
    grade::{Grade, Strength},
    lubrication::Lubrication,
    thread::{System, Thread},
    torque::load,
    units::{MILLIMETRES_PER_INCH, Newtons, NutFactor, Share, greater, lesser, within},
};

impl Catalogue {
    /// Looks up a question. What comes back always has an answer ([`crate::compute`]).
    ///
    /// # Errors
    /// All faults, not only the first, each with its field.
    pub fn resolve<'c>(&'c self, ask: &Ask<'_>) -> Result<Question<'c>, Vec<Fault>> {
        let mut faults = Vec::new();
        if let Some(refusal) = ask.purpose.refusal() {
            faults.push(Fault::refused(ask.purpose, refusal));
        }
        let mut keep = |field, reason| faults.push(Fault::new(field, reason));
        let thread = kept(self.designate(ask.thread), |r| keep("thread", r));
        let grade = kept(self.grade(ask.grade), |r| keep("grade", r));
        let strength = match (thread, grade) {
            (Some((thread, _)), Some(grade)) => kept(strength(grade, thread), |r| keep("grade", r)),
            _ => None,
        };
        let lubrication = kept(self.asked_lubrication(ask), |r| keep("lubrication", r));
        let given = ask.nut_factor.map(NutFactor::new).transpose();
        let given = kept(given, |e| keep("nut_factor", e.into()));
        // Without a given factor the lubrication is there, or a fault is.
        let nut_factor = given
            .flatten()
            .or(lubrication.flatten().map(Lubrication::nut_factor));
        let nut = match (ask.nut_grade, thread) {
            (Some(said), Some((thread, _))) => {
                let found = self
                    .nut(said, thread)
                    .map(|nut| (nut, nut.proof_at(thread)));
                kept(found, |r| keep("nut_grade", r)).map(Some)
            }
            // Which nut depends on the thread; that there is such a nut at all does not.
            (Some(said), None) => kept(self.some_nut(said), |r| keep("nut_grade", r)).and(None),
            (None, _) => Some(None),
        };
        let tensile = thread.zip(strength).map(|((thread, _), strength)| {
            load(strength.tensile(), thread.geometry().tensile_stress_area)
        });
        let target = kept(target(ask, tensile), |fault: Fault| faults.push(fault));
        // Everything is here exactly when nothing was wrong.
        match (
            thread,
            grade,
            strength,
            lubrication,
            nut_factor,
            nut,
            target,
        ) {
            (
                Some((thread, designation)),
                Some(grade),
                Some(strength),
                Some(lubrication),
                Some(nut_factor),
                Some(nut),
                Some(target),
            ) if faults.is_empty() => Ok(Question {
                thread,
                designation,
                grade,
                strength,
                lubrication,
                nut_factor,
                nut_factor_was_given: ask.nut_factor.is_some(),
                nut: nut.and_then(|(nut, proof)| Some((nut, proof?))),
                target,
                baked: ask.baked,
                share_by_default: ask.proof_share.is_none() && ask.clamp_load_n.is_none(),
            }),
            _ => Err(faults),
        }
    }

    /// The thread, and the grade with its strength there; what is wrong is noted.
    pub(crate) fn bolt<'c>(
        &'c self,
        thread: &str,
        grade: &str,
        faults: &mut Vec<Fault>,
    ) -> (Option<&'c Thread>, Option<(&'c Grade, Strength)>) {
        let thread = Fault::keep(faults, "thread", self.thread(thread));
        let grade = Fault::keep(faults, "grade", self.grade(grade));
        let strength = thread.zip(grade).and_then(|(thread, grade)| {
            Fault::keep(faults, "grade", strength(grade, thread)).map(|s| (grade, s))
        });
        (thread, strength)
    }

    /// The lubrication, or none when a nut factor makes it unnecessary.
    fn asked_lubrication(&self, ask: &Ask<'_>) -> Result<Option<&Lubrication>, FaultReason> {
        match ask.nut_factor {
            Some(_) if ask.lubrication.trim().is_empty() => Ok(None),
            _ => self.lubrication(ask.lubrication).map(Some),
        }
    }
}

/// Keeps a value, or hands over what is wrong.
pub(super) fn kept<T, E>(found: Result<T, E>, complain: impl FnOnce(E)) -> Option<T> {
    found.map_err(complain).ok()
}

pub(super) fn strength(grade: &Grade, thread: &Thread) -> Result<Strength, FaultReason> {
    if let Some(restriction) = grade.restriction() {
        let (why, instead) = crate::grade::not_computed(restriction);
        return Err(FaultReason::GradeRefused {
            grade: grade.to_string(),
            why,
            instead,
        });
    }
    grade
        .strength_at(thread)
        .ok_or_else(|| FaultReason::NoGradeAtThisSize {
            grade: grade.to_string(),
            thread: thread.to_string(),
            sizes: sizes(grade),
        })
}

/// `1/4 in to 1.5 in`, `M1.6 to M39`.
fn sizes(grade: &Grade) -> String {
    let ends = grade.strengths().map(|s| s.sizes_mm());
    let (low, high) = ends.fold((f64::INFINITY, 0.0), |(low, high), (from, to)| {
        (lesser(from, low), greater(to, high))
    });
    match grade.system() {
        System::Metric => format!("M{low} to M{high}"),
        System::Inch | System::British => {
            let inches = |mm: f64| (mm / MILLIMETRES_PER_INCH * 1e4).round() / 1e4;
            format!("inch threads {} to {} in", inches(low), inches(high))
        }
    }
}

fn target(ask: &Ask<'_>, tensile: Option<Newtons>) -> Result<Target, Fault> {
    match (ask.proof_share, ask.clamp_load_n) {
        (Some(_), Some(_)) => Err(Fault::new(
            "clamp_load_n",
            FaultReason::Excludes {
                other: "proof_share",
            },
        )),
        (share, None) => Share::new(share.unwrap_or(DEFAULT_PROOF_SHARE))
            .map(Target::ShareOfProof)
            .map_err(|e| Fault::new("proof_share", e.into())),
        (None, Some(wanted)) => clamp_load(wanted, tensile)
            .map(Target::ClampLoad)
            .map_err(|reason| Fault::new("clamp_load_n", reason)),
    }
}

const CLAMP_LOAD: &str = "clamp load, which may not exceed the bolt's tensile load,";

/// A wanted clamp load lies above zero and not above what breaks the bolt.
fn clamp_load(wanted: f64, tensile: Option<Newtons>) -> Result<Newtons, FaultReason> {
    let high = tensile.map_or(Newtons::HIGH, Newtons::get);
    let checked = within(CLAMP_LOAD, wanted, (Newtons::LOW, high), Newtons::UNIT)?;
    Ok(Newtons::new(checked)?)
}
