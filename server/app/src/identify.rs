//! Naming threads, grades and spanners from what is seen and measured.

use super::error::from_faults;
use super::{App, Caller, Error, Operation};
use clampbook_book::refusal::Violation;
use clampbook_engine::identify::{HeadMatch, Identified, Measured, MeasuredAsk, SpannerMatch};
use clampbook_engine::units::Millimetres;

impl App {
    /// What a measured thread may be, for `show`.
    ///
    /// # Errors
    /// All measurements outside their bounds.
    pub fn identify_thread<T>(
        &self,
        caller: &Caller,
        ask: &MeasuredAsk,
        show: impl FnOnce(&Measured, &Identified<'_>) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::IdentifyThread)?;
        let measured = Measured::new(ask).map_err(|faults| from_faults(&faults, ""))?;
        Ok(show(
            &measured,
            &self.catalogue().identify_thread(&measured),
        ))
    }

    /// Which grades carry a head mark, for `show`.
    ///
    /// # Errors
    /// A mark without a telling word.
    pub fn identify_grade<T>(
        &self,
        caller: &Caller,
        marking: &str,
        show: impl FnOnce(&[HeadMatch<'_>]) -> T,
    ) -> Result<T, Error> {
        caller.may(Operation::IdentifyGrade)?;
        let catalogue = self.catalogue();
        let found = catalogue.identify_head(marking);
        found
            .map(|matches| show(&matches))
            .map_err(|reason| Error::invalid(vec![Violation::new("marking", reason.to_string())]))
    }

    /// Which threads a spanner of this width turns.
    ///
    /// # Errors
    /// When the caller may not ask.
    pub fn spanner_of_width(
        &self,
        caller: &Caller,
        width: Millimetres,
    ) -> Result<Vec<SpannerMatch>, Error> {
        caller.may(Operation::IdentifySpanner)?;
        Ok(self.catalogue().identify_spanner(width))
    }

    /// Which spanner a thread takes.
    ///
    /// # Errors
    /// A thread that is none or several.
    pub fn spanner_of_thread(
        &self,
        caller: &Caller,
        said: &str,
    ) -> Result<Vec<SpannerMatch>, Error> {
        caller.may(Operation::IdentifySpanner)?;
        let catalogue = self.catalogue();
        let thread = catalogue
            .thread(said)
            .map_err(|reason| Error::invalid(vec![Violation::new("thread", reason.to_string())]))?;
        Ok(catalogue.spanners_for(thread))
    }
}
