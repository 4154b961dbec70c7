//! Reads a designation from left to right, without the heap.

use super::text::{Read, Text};
use super::{Designation, NotADesignation, SeriesSaid, Size, ToleranceClass};
use crate::thread::Series;

pub(super) fn designation(text: &str) -> Read<Designation> {
    let mut rest = Text::new(text);
    let ba = rest.ba();
    let (size, pitch) = match ba {
        Some(number) => (Size::Ba(number), None),
        None if rest.metric_mark() => rest.metric()?,
        None => rest.inch()?,
    };
    let mut said = Designation {
        size,
        pitch,
        series: ba.map(|_| SeriesSaid::Exactly(Series::Ba)),
        class: None,
        left_hand: false,
    };
    let mut hand = None;
    while let Some(word) = rest.word() {
        if let Some(series) = series(word) {
            set(&mut said.series, series)?;
        } else if let Some(class) = ToleranceClass::parse(word) {
            set(&mut said.class, class)?;
        } else if word.eq_ignore_ascii_case("LH") {
            set(&mut hand, true)?;
        } else if word.eq_ignore_ascii_case("RH") {
            set(&mut hand, false)?;
        } else if word.eq_ignore_ascii_case("extra") && rest.take_word("fine") {
            set(&mut said.series, SeriesSaid::ExtraFine)?;
        } else if !["in", "inch", "thread", "tpi"]
            .iter()
            .any(|w| w.eq_ignore_ascii_case(word))
        {
            return Err(NotADesignation);
        }
    }
    let metric = matches!(said.size, Size::Metric(_));
    if metric
        && matches!(
            said.series,
            Some(SeriesSaid::Exactly(_) | SeriesSaid::ExtraFine)
        )
    {
        return Err(NotADesignation);
    }
    // British inch families have no number sizes: `1-26 BSC` is one inch.
    if let (
        Size::Number(n) | Size::NumberOrInch(n),
        Some(SeriesSaid::Exactly(Series::Bsw | Series::Bsf | Series::Bsc)),
    ) = (said.size, said.series)
    {
        said.size = Size::Inch {
            sixty_fourths: u16::from(n) * 64,
        };
    }
    said.left_hand = hand.unwrap_or(false);
    Ok(said)
}

/// Sets what may be said once.
fn set<T: PartialEq>(slot: &mut Option<T>, value: T) -> Read<()> {
    match slot.replace(value) {
        None => Ok(()),
        Some(_) => Err(NotADesignation),
    }
}

fn series(word: &str) -> Option<SeriesSaid> {
    const NAMES: [(&str, SeriesSaid); 16] = [
        ("BSW", SeriesSaid::Exactly(Series::Bsw)),
        ("BSF", SeriesSaid::Exactly(Series::Bsf)),
        ("BSC", SeriesSaid::Exactly(Series::Bsc)),
        ("CEI", SeriesSaid::Exactly(Series::Bsc)),
        ("UNC", SeriesSaid::Exactly(Series::Unc)),
        ("UNRC", SeriesSaid::Exactly(Series::Unc)),
        ("NC", SeriesSaid::Exactly(Series::Unc)),
        ("UNF", SeriesSaid::Exactly(Series::Unf)),
        ("UNRF", SeriesSaid::Exactly(Series::Unf)),
        ("NF", SeriesSaid::Exactly(Series::Unf)),
        ("UNEF", SeriesSaid::Exactly(Series::Unef)),
        ("NEF", SeriesSaid::Exactly(Series::Unef)),
        ("UN", SeriesSaid::Exactly(Series::Un)),
        ("UNS", SeriesSaid::Exactly(Series::Uns)),
        ("coarse", SeriesSaid::Coarse),
        ("fine", SeriesSaid::Fine),
    ];
    let named = |(name, _): &&(&str, SeriesSaid)| name.eq_ignore_ascii_case(word);
    NAMES.iter().find(named).map(|(_, series)| *series)
}

impl Text<'_> {
    /// `2 BA`, `2BA`, `No. 2 BA`; sizes 0 to 16.
    fn ba(&mut self) -> Option<u8> {
        let mut ahead = *self;
        ahead.number_mark();
        let number = ahead.whole().ok().filter(|n| *n <= 16)?;
        ahead.gap();
        ahead.take_word("BA").then(|| {
            *self = ahead;
            number as u8
        })
    }

    /// `10x1.25`, `10 x 1.5`, `10-1.5`, `10`.
    fn metric(&mut self) -> Read<(Size, Option<f64>)> {
        let diameter = self.decimal()?;
        let mut ahead = *self;
        ahead.spaces();
        let pitch = if ahead.take(['x', 'X', '×', '*']) {
            ahead.spaces();
            Some(ahead.decimal()?)
        } else if ahead.take(['-']) && ahead.is_number_only() {
            Some(ahead.decimal()?)
        } else {
            None
        };
        if pitch.is_some() {
            *self = ahead;
        }
        Ok((Size::Metric(diameter), pitch))
    }

    /// `7/16-20`, `1-1/4-7`, `#10-32`, `No. 10-32`, `.4375-20`, `1 in-8`, `1/2`.
    fn inch(&mut self) -> Read<(Size, Option<f64>)> {
        let size = if self.number_mark() {
            Size::Number(small(self.whole()?).ok_or(NotADesignation)?)
        } else {
            self.inch_size()?
        };
        let mut size = size;
        let mut ahead = *self;
        ahead.spaces();
        if ahead.take(['"', '”', '″']) || ahead.take_word("inch") || ahead.take_word("in") {
            if let Size::NumberOrInch(n) = size {
                size = Size::Inch {
                    sixty_fourths: u16::from(n) * 64,
                };
            }
            *self = ahead;
        }
        self.gap();
        let pitch = match self.starts_with_digit() && !self.word_is_class() {
            true => Some(self.threads_per_inch()?),
            false => None,
        };
        Ok((size.told_apart_by(pitch), pitch))
    }

    fn number_mark(&mut self) -> bool {
        let marked = self.take(['#']) || self.take_word("no.") || self.take_word("no");
        if marked {
            self.spaces();
        }
        marked
    }

    fn inch_size(&mut self) -> Read<Size> {
        if self.starts_with(".") || self.starts_with("0.") {
            return decimal_inches(self.decimal()?);
        }
        let whole = self.whole()?;
        if self.take(['/']) {
            return inches(0, whole, self.whole()?);
        }
        let mut ahead = *self;
        if ahead.take(['-', ' '])
            && let Ok(top) = ahead.whole()
            && ahead.take(['/'])
        {
            *self = ahead;
            return inches(whole, top, self.whole()?);
        }
        if self.starts_with(".") {
            let fraction = self.decimal()?;
            return decimal_inches(f64::from(whole) + fraction);
        }
        Ok(Size::NumberOrInch(small(whole).ok_or(NotADesignation)?))
    }

    /// `20`, `4.5`, `4 1/2`, and the `8` of `8-UN`.
    fn threads_per_inch(&mut self) -> Read<f64> {
        let threads = self.decimal()?;
        let mut ahead = *self;
        if ahead.take([' ', '-'])
            && ahead.whole() == Ok(1)
            && ahead.take(['/'])
            && ahead.whole() == Ok(2)
        {
            *self = ahead;
            return Ok(threads + 0.5);
        }
        Ok(threads)
    }

    fn word_is_class(mut self) -> bool {
        self.word()
            .is_some_and(|w| ToleranceClass::parse(w).is_some())
    }
}

fn small(number: u16) -> Option<u8> {
    u8::try_from(number).ok().filter(|n| *n <= 12)
}

/// Inches from a mixed fraction that is a whole number of sixty-fourths.
fn inches(whole: u16, top: u16, bottom: u16) -> Read<Size> {
    let sensible =
        whole <= 12 && top > 0 && top < bottom && bottom <= 64 && bottom.is_power_of_two();
    match sensible {
        true => Ok(Size::Inch {
            sixty_fourths: whole * 64 + top * (64 / bottom),
        }),
        false => Err(NotADesignation),
    }
}

/// Inches from a decimal above zero that is a whole number of sixty-fourths.
fn decimal_inches(value: f64) -> Read<Size> {
    let sixty_fourths = value * 64.0;
    match sixty_fourths.fract() == 0.0 && sixty_fourths <= 768.0 {
        true => Ok(Size::Inch {
            sixty_fourths: sixty_fourths as u16,
        }),
        false => Err(NotADesignation),
    }
}
