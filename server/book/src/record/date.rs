//! Days of the calendar, as people write them on a test report: `2026-03-02`.

use crate::record::entry::Moment;
use std::fmt;

/// Microseconds of a day.
const DAY: i64 = 86_400_000_000;

/// A day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    days: i64,
}

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
        let form = text.bytes().enumerate().all(|(i, b)| match i {
            4 | 7 => b == b'-',
            _ => b.is_ascii_digit(),
        });
        if text.len() != 10 || !form {
            return None;
        }
        let number = |from, to| text.get(from..to)?.parse::<i64>().ok();
        let (year, month, day) = (number(0, 4)?, number(5, 7)?, number(8, 10)?);
        let exists = (1..=12).contains(&month) && (1..=days_of(year, month)).contains(&day);
        exists.then(|| Self {
            days: days_since_1970(year, month, day),
        })
    }

    /// The day of a moment, in UTC.
    ///
    /// ```
    /// use clampbook_book::{date::Date, entry::Moment};
    /// assert_eq!(Date::of(Moment(1_709_164_800_000_000)).to_string(), "2024-02-29");
    /// ```
    #[must_use]
    pub const fn of(moment: Moment) -> Self {
        Self {
            days: moment.0.div_euclid(DAY),
        }
    }

    /// Whether it lies after a moment everywhere on earth.
    #[must_use]
    pub const fn is_after(self, moment: Moment) -> bool {
        self.days > moment.0.div_euclid(DAY) + 1
    }
}

impl fmt::Display for Date {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day) = date_of(self.days);
        write!(f, "{year:04}-{month:02}-{day:02}")
    }
}

const fn days_of(year: i64, month: i64) -> i64 {
    match month {
        2 if year % 4 == 0 && (year % 100 != 0 || year % 400 == 0) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

/// The Gregorian calendar, counted in years that begin in March, so that a leap day is the last of its year.
const fn days_since_1970(year: i64, month: i64, day: i64) -> i64 {
    let year = if month <= 2 { year - 1 } else { year };
    let month_from_march = (month + 9) % 12;
    let day_of_year = (153 * month_from_march + 2) / 5 + day - 1;
    365 * year + year.div_euclid(4) - year.div_euclid(100) + year.div_euclid(400) + day_of_year
        - 719_468
}

/// Year, month and day; the same count backwards, from the 400 years of 146 097 days after which the calendar repeats.
const fn date_of(days: i64) -> (i64, i64, i64) {
    let since_march_of_0 = days + 719_468;
    let (era, day) = (
        since_march_of_0.div_euclid(146_097),
        since_march_of_0.rem_euclid(146_097),
    );
    let year = (day - day / 1_460 + day / 36_524 - day / 146_096) / 365;
    let day_of_year = day - (365 * year + year / 4 - year / 100);
    let month_from_march = (5 * day_of_year + 2) / 153;
    let month = (month_from_march + 2) % 12 + 1;
    let in_next_year = if month <= 2 { 1 } else { 0 };
    (
        era * 400 + year + in_next_year,
        month,
        day_of_year - (153 * month_from_march + 2) / 5 + 1,
    )
}

#[cfg(test)]
mod tests {
    use super::{DAY, Date};
    use crate::record::entry::Moment;

    #[test]
    fn days_are_counted_from_1970() {
        // 2000-03-01 is day 11017, 2026-11-25 day 20782: `date -u -d DATE +%s` divided by 86400.
        for (text, days) in [
            ("1970-01-01", 0),
            ("1969-12-31", -1),
            ("2000-03-01", 11_017),
            ("2026-11-25", 20_782),
        ] {
            assert_eq!(Date::parse(text).map(|d| d.days), Some(days), "{text}");
        }
    }

    #[test]
    fn every_day_is_written_as_it_is_read() {
        let from = Date::parse("1899-12-31").map_or(0, |d| d.days);
        for days in from..from + 146_098 {
            let day = Date { days };
            assert_eq!(Date::parse(&day.to_string()), Some(day), "{days}");
        }
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
