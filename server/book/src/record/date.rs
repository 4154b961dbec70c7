//! Days of the calendar, as people write them on a test report: `2026-03-02`.

use crate::record::entry::Moment;
use std::fmt;
use time::macros::format_description;
use time::{Duration, OffsetDateTime};

/// A day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date(time::Date);

impl Date {
    /// The day meant by `2026-03-02`; nothing for any other form and for days that do not exist.
    ///
    /// ```
    /// use clampbook_book::date::Date;
    /// assert!(Date::parse("2024-02-29").is_some());
    /// assert!(Date::parse("2026-02-29").is_none());
    /// assert!(Date::parse("2.3.2026").is_none());
    /// ```
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        // A sign before the year would be read as well, and makes it longer.
        if text.len() != 10 {
            return None;
        }
        let day = time::Date::parse(text, format_description!("[year]-[month]-[day]"));
        day.ok().map(Self)
    }

    /// The day of a moment, in UTC.
    ///
    /// ```
    /// use clampbook_book::{date::Date, entry::Moment};
    /// assert_eq!(Date::of(Moment(1_709_164_800_000_000)).to_string(), "2024-02-29");
    /// ```
    #[must_use]
    pub const fn of(moment: Moment) -> Self {
        let since_1970 = Duration::microseconds(moment.0);
        Self(OffsetDateTime::UNIX_EPOCH.saturating_add(since_1970).date())
    }

    /// Whether it lies after a moment everywhere on earth.
    #[must_use]
    pub fn is_after(self, moment: Moment) -> bool {
        let next = Self::of(moment).0.next_day();
        next.is_some_and(|next| self.0 > next)
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

#[cfg(test)]
mod tests {
    use super::Date;
    use crate::record::entry::Moment;

    /// Microseconds of a day.
    const DAY: i64 = 86_400_000_000;

    #[test]
    fn days_are_counted_from_1970() {
        // 2000-03-01 is day 11017, 2026-11-25 day 20782: `date -u -d DATE +%s` divided by 86400.
        for (text, days) in [
            ("1970-01-01", 0),
            ("1969-12-31", -1),
            ("2000-03-01", 11_017),
            ("2026-11-25", 20_782),
        ] {
            let day = Date::of(Moment(days * DAY));
            assert_eq!(Date::parse(text), Some(day), "{text}");
        }
    }

    #[test]
    fn every_day_is_written_as_it_is_read() {
        // The 400 years after which the calendar repeats, from 1899-12-31.
        for days in -25_568..-25_568 + 146_098 {
            let day = Date::of(Moment(days * DAY));
            assert_eq!(Date::parse(&day.to_string()), Some(day), "{days}");
        }
        assert_eq!(Date::of(Moment(-25_568 * DAY)).to_string(), "1899-12-31");
        assert_eq!(Date::of(Moment(-1)).to_string(), "1969-12-31");
    }

    #[test]
    fn what_is_no_day_is_none() {
        for wrong in [
            "",
            "2026",
            "2026-13-01",
            "2026-00-10",
            "2026-04-31",
            "2026-04-00",
            "1900-02-29",
            "2026/04/01",
            "2026-4-01",
            "+026-04-01",
            "-026-04-01",
            "+2026-04-01",
            "-2026-04-01",
            "2026-04-01 ",
            "２０26-04",
        ] {
            assert_eq!(Date::parse(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn the_day_that_has_begun_somewhere_is_not_in_the_future() {
        let now = Moment(20_782 * DAY + DAY / 2);
        let after = |text| Date::parse(text).is_some_and(|d| d.is_after(now));
        assert!(!after("2026-11-25"));
        assert!(!after("2026-11-26"));
        assert!(after("2026-11-27"));
    }
}
