//! The tables as a value: what can be asked about.
//!
//! A catalogue is made once and passed along; there are no globals. Looking things up takes texts
//! as spoken and answers with the one thing meant, or with why it is none or several.

mod find;
mod published;
mod resolve;
mod sizes;
mod written;

use crate::{
    condition::{Condition, OwnCondition, WithdrawnCondition},
    designation::Designation,
    grade::Grade,
    nut::Nut,
    said::Names,
    thread::Thread,
};
pub(crate) use find::sensible;
use sizes::Sizes;
use std::sync::Arc;
use written::Written;

/// Threads, grades, nuts and conditions that can be asked about. What one catalogue has in common with another, made from
/// it by [`Catalogue::with_own_conditions`], they share.
#[derive(Clone, Debug, PartialEq)]
pub struct Catalogue {
    threads: Arc<[Thread]>,
    sizes: Arc<Sizes>,
    grades: Arc<[Grade]>,
    nuts: Arc<[Nut]>,
    conditions: Vec<Condition>,
    written_threads: Arc<Written<(usize, Designation)>>,
    written_grades: Arc<Written<usize>>,
    written_conditions: Written<usize>,
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
        let read = Self {
            written_threads: Arc::default(),
            written_grades: Arc::default(),
            written_conditions: Written::default(),
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
        };
        Self {
            written_threads: Arc::new(Written::threads(&read)),
            written_grades: Arc::new(Written::grades(&read)),
            written_conditions: Written::conditions(&read),
            ..read
        }
    }

    /// The published tables of this catalogue, and these lubrications of the shop.
    #[must_use]
    pub fn with_own_conditions(&self, own: impl IntoIterator<Item = Arc<OwnCondition>>) -> Self {
        let published = self.conditions.iter().filter(|c| !c.is_own()).cloned();
        let conditions: Vec<_> = published
            .chain(own.into_iter().map(Condition::own))
            .collect();
        let read = Self {
            condition_names: condition_names(&conditions),
            conditions,
            ..self.clone()
        };
        Self {
            written_conditions: Written::conditions(&read),
            ..read
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
}

fn condition_names(conditions: &[Condition]) -> Names {
    Names::new(conditions.iter().map(|c| all_names(c.name(), c.aliases())))
}

fn all_names<'a>(name: &'a str, aliases: &'a [&'static str]) -> impl Iterator<Item = &'a str> {
    std::iter::once(name).chain(aliases.iter().copied())
}
