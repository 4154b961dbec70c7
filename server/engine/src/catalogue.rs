//! The tables as a value: what can be asked about, and finding it by what people say.
//!
//! A catalogue is made once and passed along; there are no globals. Looking things up takes texts
//! as spoken and answers with the one thing meant, or with why it is none or several.

mod published;
mod resolve;
mod sizes;

use crate::{
    condition::{Condition, OwnCondition, UNFIT_WORDS, WithdrawnCondition},
    designation::Designation,
    fault::FaultReason,
    grade::Grade,
    nut::Nut,
    said::{self, Names},
    thread::Thread,
};
use sizes::Sizes;
use std::sync::Arc;

/// Threads, grades, nuts and conditions that can be asked about. What one catalogue has in common with another, made from
/// it by [`Catalogue::with_own_conditions`], they share.
#[derive(Clone, Debug, PartialEq)]
pub struct Catalogue {
    threads: Arc<[Thread]>,
    sizes: Arc<Sizes>,
    grades: Arc<[Grade]>,
    nuts: Arc<[Nut]>,
    conditions: Vec<Condition>,
    grade_names: Arc<Names>,
    nut_names: Arc<Names>,
    condition_names: Names,
    withdrawn: Vec<WithdrawnCondition>,
    withdrawn_names: Names,
}

impl Default for Catalogue {
    fn default() -> Self {
        Self::built_in()
    }
}

impl Catalogue {
    /// The published tables that come with the engine.
    #[must_use]
    pub fn built_in() -> Self {
        let threads: Arc<[_]> = clampbook_data::THREADS.iter().map(Thread::of).collect();
        let grades: Arc<[_]> = clampbook_data::GRADES.iter().map(Grade::of).collect();
        let nuts: Arc<[_]> = clampbook_data::NUTS.iter().map(Nut::of).collect();
        let conditions: Vec<_> = clampbook_data::CONDITIONS
            .iter()
            .map(Condition::of)
            .collect();
        let grade_names = grades
            .iter()
            .map(|g| (g.standard(), all_names(g.name(), g.aliases())));
        let nut_names = nuts
            .iter()
            .map(|n| (n.standard(), all_names(n.name(), n.aliases())));
        Self {
            grade_names: Arc::new(Names::with_standards(grade_names)),
            nut_names: Arc::new(Names::with_standards(nut_names)),
            condition_names: condition_names(&conditions),
            withdrawn: Vec::new(),
            withdrawn_names: Names::default(),
            sizes: Arc::new(Sizes::of(&threads)),
            threads,
            grades,
            nuts,
            conditions,
        }
    }

    /// The published tables of this catalogue, and these lubrications of the shop.
    #[must_use]
    pub fn with_own_conditions(&self, own: impl IntoIterator<Item = Arc<OwnCondition>>) -> Self {
        let published = self.conditions.iter().filter(|c| !c.is_own()).cloned();
        let conditions: Vec<_> = published
            .chain(own.into_iter().map(Condition::own))
            .collect();
        Self {
            condition_names: condition_names(&conditions),
            conditions,
            ..self.clone()
        }
    }

    /// This catalogue, which tells who asks for one of these that it was withdrawn.
    #[must_use]
    pub fn with_withdrawn_conditions(
        self,
        withdrawn: impl IntoIterator<Item = WithdrawnCondition>,
    ) -> Self {
        let withdrawn: Vec<_> = withdrawn.into_iter().collect();
        let names = withdrawn.iter().map(|w| std::iter::once(&*w.name));
        Self {
            withdrawn_names: Names::new(names),
            withdrawn,
            ..self
        }
    }

    /// All threads.
    #[must_use]
    pub fn threads(&self) -> &[Thread] {
        &self.threads
    }

    /// All grades of bolts.
    #[must_use]
    pub fn grades(&self) -> &[Grade] {
        &self.grades
    }

    /// All grades of nuts.
    #[must_use]
    pub fn nuts(&self) -> &[Nut] {
        &self.nuts
    }

    /// All conditions.
    #[must_use]
    pub fn conditions(&self) -> &[Condition] {
        &self.conditions
    }

    /// The thread with this id.
    #[must_use]
    pub fn thread_by_id(&self, id: &str) -> Option<&Thread> {
        self.threads.iter().find(|t| t.id() == id)
    }

    /// The grade of bolts with this id.
    #[must_use]
    pub fn grade_by_id(&self, id: &str) -> Option<&Grade> {
        self.grades.iter().find(|g| g.id() == id)
    }

    /// The grade of nuts with this id.
    #[must_use]
    pub fn nut_by_id(&self, id: &str) -> Option<&Nut> {
        self.nuts.iter().find(|n| n.id() == id)
    }

    /// The condition with this id.
    #[must_use]
    pub fn condition_by_id(&self, id: &str) -> Option<&Condition> {
        self.conditions.iter().rfind(|c| c.id() == id)
    }

    /// The thread meant by a designation.
    ///
    /// # Errors
    /// Missing, too long, unknown or ambiguous.
    pub fn thread(&self, said: &str) -> Result<&Thread, FaultReason> {
        self.designate(said).map(|(thread, _)| thread)
    }

    /// The thread meant, and its full designation with class and hand as said.
    ///
    /// # Errors
    /// Missing, too long, unknown or ambiguous.
    pub fn designate(&self, said: &str) -> Result<(&Thread, Designation), FaultReason> {
        sensible(said)?;
        let unknown = |known| FaultReason::UnknownThread {
            given: said.to_owned(),
            known,
        };
        let Ok(designation) = Designation::parse(said) else {
            return Err(unknown(Vec::new()));
        };
        let of_size = || self.sizes.threads(designation.size, &self.threads);
        let all = || of_size().filter(|t| designation.fits(t));
        let coarse = |t: &&Thread| t.series() == clampbook_data::Series::MetricCoarse;
        // `M10` alone means the coarse thread (ISO 965-1); with its pitch said no other one fits.
        let found = match only(all().filter(coarse)) {
            Found::None => only(all()),
            found => found,
        };
        match found {
            Found::One(thread) => Ok((thread, designation.completed(thread))),
            Found::None => {
                let same_size = of_size().filter(|t| designation.size.fits(t));
                Err(unknown(same_size.map(ToString::to_string).collect()))
            }
            Found::Several => Err(FaultReason::AmbiguousThread {
                given: said.to_owned(),
                choices: all().map(ToString::to_string).collect(),
            }),
        }
    }

    /// The grade of bolts meant, by what people say or by id.
    ///
    /// # Errors
    /// Missing, too long, unknown or ambiguous.
    pub fn grade(&self, said: &str) -> Result<&Grade, FaultReason> {
        sensible(said)?;
        let all = || {
            self.grade_names
                .called(said)
                .map(|index| &self.grades[index])
        };
        let by_name = only(all());
        if let Found::One(grade) = by_name {
            return Ok(grade);
        }
        match (self.grade_by_id(said), by_name) {
            (Some(grade), _) => Ok(grade),
            (None, Found::Several) => Err(FaultReason::AmbiguousGrade {
                given: said.to_owned(),
                choices: all().map(ToString::to_string).collect(),
            }),
            (None, _) => Err(FaultReason::UnknownGrade {
                given: said.to_owned(),
            }),
        }
    }

    /// Whether a text names exactly one grade of bolts.
    #[must_use]
    pub fn grade_known(&self, said: &str) -> bool {
        self.grade(said).is_ok()
    }

    /// The condition meant.
    ///
    /// # Errors
    /// Missing, too long, unknown, withdrawn, or one nobody should tighten in (rusty, dirty).
    pub fn condition(&self, said: &str) -> Result<&Condition, FaultReason> {
        sensible(said)?;
        let unfit = |w: &str| UNFIT_WORDS.iter().any(|u| u.eq_ignore_ascii_case(w));
        if said::words(said).any(unfit) {
            return Err(FaultReason::ConditionRefused {
                given: said.to_owned(),
            });
        }
        // The last one is the shop's own: what its records mean does not change when a release brings a row of that name.
        let by_name = self.condition_names.called(said).last();
        by_name
            .map(|index| &self.conditions[index])
            .or_else(|| self.condition_by_id(said))
            .ok_or_else(|| self.no_condition(said))
    }

    /// Why there is no such condition.
    fn no_condition(&self, said: &str) -> FaultReason {
        let by_name = self.withdrawn_names.called(said).last();
        let by_id = || self.withdrawn.iter().find(|w| &*w.id == said);
        let withdrawn = by_name.map(|index| &self.withdrawn[index]).or_else(by_id);
        let given = said.to_owned();
        match withdrawn {
            Some(withdrawn) => FaultReason::WithdrawnCondition {
                given,
                how: withdrawn.how.clone().into(),
            },
            None => FaultReason::UnknownCondition { given },
        }
    }

    /// Whether a new lubrication of the shop may be called this.
    ///
    /// # Errors
    /// Missing, too long, without a telling word, taken, or a word for threads nobody should tighten as they are.
    pub fn is_free_for_condition(&self, said: &str) -> Result<(), FaultReason> {
        match self.condition(said) {
            Ok(taken) => Err(FaultReason::NameTaken {
                given: said.to_owned(),
                by: taken.to_string(),
            }),
            Err(FaultReason::UnknownCondition { .. } | FaultReason::WithdrawnCondition { .. })
                if Names::can_hold(said) =>
            {
                Ok(())
            }
            Err(FaultReason::UnknownCondition { .. }) => Err(FaultReason::Contradicts {
                why: "has no word or number of its own to be known by",
            }),
            Err(other) => Err(other),
        }
    }

    /// Grades of nuts that are called this, by id or by what people say, each once.
    fn nuts_called(&self, said: &str) -> impl Iterator<Item = &Nut> {
        let by_id = self.nut_by_id(said);
        let by_name = self.nut_names.called(said).map(|index| &self.nuts[index]);
        by_id
            .into_iter()
            .chain(by_name.filter(move |n| Some(n.id()) != by_id.map(Nut::id)))
    }

    /// A nut of this name for any thread.
    fn some_nut(&self, said: &str) -> Result<&Nut, FaultReason> {
        sensible(said)?;
        let mut all = self.nuts_called(said);
        all.next().ok_or_else(|| FaultReason::UnknownNutGrade {
            given: said.to_owned(),
        })
    }

    /// The grade of nuts meant, for this thread.
    ///
    /// A class such as `8` exists in several standards; the thread tells them apart.
    ///
    /// # Errors
    /// Missing, too long, unknown, ambiguous, or none for this thread.
    pub fn nut(&self, said: &str, thread: &Thread) -> Result<&Nut, FaultReason> {
        let some = self.some_nut(said)?;
        let fitting = || {
            let fits = |n: &&Nut| n.proof_at(thread).is_some();
            self.nuts_called(said).filter(fits)
        };
        match only(fitting()) {
            Found::One(nut) => Ok(nut),
            Found::Several => Err(FaultReason::AmbiguousNutGrade {
                given: said.to_owned(),
                choices: fitting().map(ToString::to_string).collect(),
            }),
            Found::None => Err(FaultReason::NutDoesNotFitSize {
                nut: some.to_string(),
                thread: thread.to_string(),
            }),
        }
    }
}

/// How many there are of something, without the heap.
enum Found<T> {
    None,
    One(T),
    Several,
}

fn only<T>(mut all: impl Iterator<Item = T>) -> Found<T> {
    match (all.next(), all.next()) {
        (None, _) => Found::None,
        (Some(one), None) => Found::One(one),
        (Some(_), Some(_)) => Found::Several,
    }
}

pub(crate) fn sensible(said: &str) -> Result<(), FaultReason> {
    if said.len() > said::LONGEST {
        Err(FaultReason::TooLong {
            most: said::LONGEST,
        })
    } else if said.trim().is_empty() {
        Err(FaultReason::Missing)
    } else {
        Ok(())
    }
}

fn condition_names(conditions: &[Condition]) -> Names {
    Names::new(conditions.iter().map(|c| all_names(c.name(), c.aliases())))
}

fn all_names<'a>(name: &'a str, aliases: &'a [&'static str]) -> impl Iterator<Item = &'a str> {
    std::iter::once(name).chain(aliases.iter().copied())
}
