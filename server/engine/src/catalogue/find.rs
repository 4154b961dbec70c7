//! Check in a catalogue what people say.

use super::Catalogue;
use crate::{
    designation::Designation,
    fault::FaultReason,
    grade::Grade,
    lubrication::{Lubrication, UNFIT_WORDS},
    nut::Nut,
    said::{self, Names},
    thread::{Series, Thread},
};

impl Catalogue {
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
        match self.written_threads.get(said) {
            Some((place, designation)) => Ok((&self.threads[place], designation)),
            None => self.read_thread(said),
        }
    }

    pub(super) fn read_thread(&self, said: &str) -> Result<(&Thread, Designation), FaultReason> {
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
        let (coarse, any) =
            all().fold(
                (Found::None, Found::None),
                |(coarse, any), thread| match thread.series() {
                    Series::MetricCoarse => (coarse.and(thread), any.and(thread)),
                    _ => (coarse, any.and(thread)),
                },
            );
        // `M10` alone means the coarse thread (ISO 965-1); with its pitch said no other one fits.
        let found = match coarse {
            Found::None => any,
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
        match self.written_grades.get(said) {
            Some(place) => Ok(&self.grades[place]),
            None => self.read_grade(said),
        }
    }

    pub(super) fn read_grade(&self, said: &str) -> Result<&Grade, FaultReason> {
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

    /// The lubrication meant.
    ///
    /// # Errors
    /// Missing, too long, unknown, withdrawn, or one nobody should tighten in (rusty, dirty).
    pub fn lubrication(&self, said: &str) -> Result<&Lubrication, FaultReason> {
        match self.written_lubrications.get(said) {
            Some(place) => Ok(&self.lubrications[place]),
            None => self.read_lubrication(said),
        }
    }

    pub(super) fn read_lubrication(&self, said: &str) -> Result<&Lubrication, FaultReason> {
        sensible(said)?;
        let unfit = |w: &str| UNFIT_WORDS.iter().any(|u| u.eq_ignore_ascii_case(w));
        if said::words(said).any(unfit) {
            return Err(FaultReason::LubricationRefused {
                given: said.to_owned(),
            });
        }
        // The last one is the shop's own: what its records mean does not change when a release brings a row of that name.
        let by_name = self.lubrication_names.called(said).last();
        by_name
            .map(|index| &self.lubrications[index])
            .or_else(|| self.lubrication_by_id(said))
            .ok_or_else(|| self.no_lubrication(said))
    }

    /// Why there is no such lubrication.
    fn no_lubrication(&self, said: &str) -> FaultReason {
        let by_name = self.withdrawn_names.called(said).last();
        let by_id = || self.withdrawn.iter().find(|w| &*w.id == said);
        let withdrawn = by_name.map(|index| &self.withdrawn[index]).or_else(by_id);
        let given = said.to_owned();
        match withdrawn {
            Some(withdrawn) => FaultReason::WithdrawnLubrication {
                given,
                how: withdrawn.how.clone().into(),
            },
            None => FaultReason::UnknownLubrication { given },
        }
    }

    /// Whether a new lubrication of the shop may be called this.
    ///
    /// # Errors
    /// Missing, too long, without a telling word, taken, or a word for threads nobody should tighten as they are.
    pub fn is_free_for_lubrication(&self, said: &str) -> Result<(), FaultReason> {
        match self.lubrication(said) {
            Ok(taken) => Err(FaultReason::NameTaken {
                given: said.to_owned(),
                by: taken.to_string(),
            }),
            Err(
                FaultReason::UnknownLubrication { .. } | FaultReason::WithdrawnLubrication { .. },
            ) if Names::can_hold(said) => Ok(()),
            Err(FaultReason::UnknownLubrication { .. }) => Err(FaultReason::Contradicts {
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
    pub(super) fn some_nut(&self, said: &str) -> Result<&Nut, FaultReason> {
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

impl<T> Found<T> {
    fn and(self, one: T) -> Self {
        match self {
            Self::None => Self::One(one),
            Self::One(_) | Self::Several => Self::Several,
        }
    }
}

fn only<T>(all: impl Iterator<Item = T>) -> Found<T> {
    all.fold(Found::None, Found::and)
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
