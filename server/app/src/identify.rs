//! Naming threads, grades and spanners from what is seen and measured.

use super::error::from_faults;
use super::{Call, Error};
use clampbook_book::refusal::Violation;
use clampbook_engine::identify::{HeadMatch, Identified, Measured, MeasuredAsk, SpannerMatch};
use clampbook_engine::units::Millimetres;

impl Call<'_> {
    /// What a measured thread may be, for `show`.
    ///
    /// # Errors
    /// All measurements outside their bounds.
    pub fn identify_thread<T>(
        &self,
        ask: &MeasuredAsk,
        show: impl FnOnce(&Measured, &Identified<'_>) -> T,
    ) -> Result<T, Error> {
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
        marking: &str,
        show: impl FnOnce(&[HeadMatch<'_>]) -> T,
    ) -> Result<T, Error> {
        let catalogue = self.catalogue();
        let found = catalogue.identify_head(marking);
        found.map(|matches| show(&matches)).map_err(|reason| {
            Error::invalid(vec![Violation::new("head_marking", reason.to_string())])
        })
    }

    /// Which threads a spanner of this width turns.
    #[must_use]
    pub fn spanner_of_width(&self, width: Millimetres) -> Vec<SpannerMatch> {
        self.catalogue().identify_spanner(width)
    }

    /// Which spanner a thread takes.
    ///
    /// # Errors
    /// A thread that is none or several.
    pub fn spanner_of_thread(&self, said: &str) -> Result<Vec<SpannerMatch>, Error> {
        let catalogue = self.catalogue();
        let thread = catalogue
            .thread(said)
            .map_err(|reason| Error::invalid(vec![Violation::new("thread", reason.to_string())]))?;
        Ok(catalogue.spanners_for(thread))
    }
}

const BY_THE_WEAKEST: &str = "Several grades may share a mark: assume the weakest until a citation or hardness readings say which.";
const NO_SUCH_MARK: &str =
    "No grade in the tables carries this mark: treat the part as of unknown grade.";
const MARKS_LIE: &str =
    "A head mark says what its maker claimed, not what heat has done to it since.";

/// What to beware of in a head mark.
#[must_use]
pub fn cautions(found: &[HeadMatch<'_>]) -> Vec<String> {
    let caution = match found.len() {
        0 => Some(NO_SUCH_MARK),
        1 => None,
        _ => Some(BY_THE_WEAKEST),
    };
    let cautions = caution.into_iter().chain([MARKS_LIE]);
    cautions.map(str::to_owned).collect()
}

/// What naming a thread rests on.
#[must_use]
pub fn assumptions(measured: &Measured) -> Vec<String> {
    vec![
        format!(
            "Diameter within {} mm, pitch within {} mm, crests worn by at most {} mm.",
            measured.diameter_error_mm(),
            measured.pitch_error_mm(),
            measured.wear_mm()
        ),
        "Made to 2A/2B, 6g/6H or, for British threads, to the usual medium fit.".into(),
    ]
}

#[cfg(test)]
mod tests {
    use super::{BY_THE_WEAKEST, MARKS_LIE, NO_SUCH_MARK, cautions};
    use clampbook_engine::Catalogue;

    #[test]
    fn a_mark_of_no_grade_and_one_of_several_are_cautioned_of() {
        let catalogue = Catalogue::built_in();
        let told = |mark: &str| cautions(&catalogue.identify_head(mark).expect("a mark"));
        assert_eq!(told("a crowned trident"), [NO_SUCH_MARK, MARKS_LIE]);
        assert_eq!(told("8.8"), [MARKS_LIE]);
        assert_eq!(told("three radial lines"), [BY_THE_WEAKEST, MARKS_LIE]);
    }
}
