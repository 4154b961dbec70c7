//! Naming threads, grades and spanners from what is seen and measured.

use super::error::from_faults;
use super::{App, Caller, Error, Operation};
use clampbook_book::refusal::Violation;
use clampbook_engine::identify::{HeadMatch, Identified, Measured, MeasuredAsk, SpannerMatch};
use clampbook_engine::units::Millimetres;

impl App {
    /// What a measured thread may be.
    ///
    /// # Errors
    /// All measurements outside their bounds.
    pub(crate) fn identify_thread(
        &self,
        caller: &Caller,
        ask: &MeasuredAsk,
    ) -> Result<(Measured, Identified<'_>), Error> {
        caller.may(Operation::IdentifyThread)?;
        let measured = Measured::new(ask).map_err(|faults| from_faults(&faults, ""))?;
        let found = self.catalogue.identify_thread(&measured);
        Ok((measured, found))
    }

    /// Which grades carry a head mark.
    ///
    /// # Errors
    /// A mark without a telling word.
    pub(crate) fn identify_grade(
        &self,
        caller: &Caller,
        marking: &str,
    ) -> Result<Vec<HeadMatch<'_>>, Error> {
        caller.may(Operation::IdentifyGrade)?;
        self.catalogue
            .identify_head(marking)
            .map_err(|reason| Error::invalid(vec![Violation::new("marking", reason.to_string())]))
    }

    /// Which threads a spanner of this width turns.
    ///
    /// # Errors
    /// When the caller may not ask.
    pub(crate) fn spanner_of_width(
        &self,
        caller: &Caller,
        width: Millimetres,
    ) -> Result<Vec<SpannerMatch>, Error> {
        caller.may(Operation::IdentifySpanner)?;
        Ok(self.catalogue.identify_spanner(width))
    }

    /// Which spanner a thread takes.
    ///
    /// # Errors
    /// A thread that is none or several.
    pub(crate) fn spanner_of_thread(
        &self,
        caller: &Caller,
        said: &str,
    ) -> Result<Vec<SpannerMatch>, Error> {
        caller.may(Operation::IdentifySpanner)?;
        let thread = self
            .catalogue
            .thread(said)
            .map_err(|reason| Error::invalid(vec![Violation::new("thread", reason.to_string())]))?;
        Ok(self.catalogue.spanners_for(thread))
    }
}
