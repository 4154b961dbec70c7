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
    designation::Designation,
    grade::Grade,
    lubrication::{Lubrication, OwnLubrication, WithdrawnLubrication},
    nut::Nut,
    said::Names,
    thread::Thread,
};
pub(crate) use find::sensible;
use sizes::Sizes;
use std::sync::Arc;
use written::Written;

/// Threads, grades, nuts and lubrications that can be asked about. What one catalogue has in common with another, made from
/// it by [`Catalogue::with_own_lubrications`], they share.
#[derive(Clone, Debug, PartialEq)]
pub struct Catalogue {
    threads: Arc<[Thread]>,
    sizes: Arc<Sizes>,
    grades: Arc<[Grade]>,
    nuts: Arc<[Nut]>,
    lubrications: Vec<Lubrication>,
    written_threads: Arc<Written<(usize, Designation)>>,
    written_grades: Arc<Written<usize>>,
    written_lubrications: Written<usize>,
    grade_names: Arc<Names>,
    nut_names: Arc<Names>,
    lubrication_names: Names,
    withdrawn: Vec<WithdrawnLubrication>,
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
        let lubrications: Vec<_> = clampbook_data::LUBRICATIONS
            .iter()
            .map(Lubrication::of)
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
            written_lubrications: Written::default(),
            grade_names: Arc::new(Names::with_standards(grade_names)),
            nut_names: Arc::new(Names::with_standards(nut_names)),
            lubrication_names: lubrication_names(&lubrications),
            withdrawn: Vec::new(),
            withdrawn_names: Names::default(),
            sizes: Arc::new(Sizes::of(&threads)),
            threads,
            grades,
            nuts,
            lubrications,
        };
        Self {
            written_threads: Arc::new(Written::threads(&read)),
            written_grades: Arc::new(Written::grades(&read)),
            written_lubrications: Written::lubrications(&read),
            ..read
        }
    }

    /// The published tables of this catalogue, and these lubrications of the shop.
    #[must_use]
    pub fn with_own_lubrications(
        &self,
        own: impl IntoIterator<Item = Arc<OwnLubrication>>,
    ) -> Self {
        let published = self.lubrications.iter().filter(|c| !c.is_own()).cloned();
        let lubrications: Vec<_> = published
            .chain(own.into_iter().map(Lubrication::own))
            .collect();
        let read = Self {
            lubrication_names: lubrication_names(&lubrications),
            lubrications,
            ..self.clone()
        };
        Self {
            written_lubrications: Written::lubrications(&read),
            ..read
        }
    }

    /// This catalogue, which tells who asks for one of these that it was withdrawn.
    #[must_use]
    pub fn with_withdrawn_lubrications(
        self,
        withdrawn: impl IntoIterator<Item = WithdrawnLubrication>,
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

    /// All lubrications.
    #[must_use]
    pub fn lubrications(&self) -> &[Lubrication] {
        &self.lubrications
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

    /// The lubrication with this id.
    #[must_use]
    pub fn lubrication_by_id(&self, id: &str) -> Option<&Lubrication> {
        self.lubrications.iter().rfind(|c| c.id() == id)
    }
}

fn lubrication_names(lubrications: &[Lubrication]) -> Names {
    Names::new(
        lubrications
            .iter()
            .map(|c| all_names(c.name(), c.aliases())),
    )
}

fn all_names<'a>(name: &'a str, aliases: &'a [&'static str]) -> impl Iterator<Item = &'a str> {
    std::iter::once(name).chain(aliases.iter().copied())
}
