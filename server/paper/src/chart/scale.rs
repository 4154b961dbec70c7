//! One axis: from values to places on paper, and where its marks stand.

/// An axis from 0 upwards.
pub(super) struct Scale {
    /// Value at its end.
    pub(super) top: f64,
    step: f64,
    from: f64,
    to: f64,
}

/// Marks wanted on an axis, about.
const MARKS: f64 = 6.0;

impl Scale {
    /// An axis that reaches a positive value, between two places on paper; it ends at a mark.
    pub(super) fn to(minimum_top: f64, (from, to): (f64, f64)) -> Self {
        let step = round_step(minimum_top / MARKS);
        Self {
            top: (minimum_top / step).ceil() * step,
            step,
            from,
            to,
        }
    }

    /// Where a value stands.
    pub(super) fn at(&self, value: f64) -> f64 {
        self.from + (self.to - self.from) * value / self.top
    }

    /// Marks with their labels.
    pub(super) fn ticks(&self) -> impl Iterator<Item = (f64, String)> + '_ {
        let count = (self.top / self.step).round() as u32;
        let decimals = usize::try_from(-self.step.log10().floor() as i32).unwrap_or(0);
        (0..=count).map(move |i| {
            let value = f64::from(i) * self.step;
            (value, format!("{value:.decimals$}"))
        })
    }
}

/// The next 1, 2 or 5 times a power of ten that is not below.
fn round_step(minimum: f64) -> f64 {
    let power = 10_f64.powf(minimum.log10().floor());
    let steps = [1.0, 2.0, 5.0, 10.0].map(|m| m * power);
    // The last is above whatever the power is of.
    steps
        .into_iter()
        .find(|s| *s >= minimum)
        .unwrap_or(steps[3])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_are_round_and_hold_the_value() {
        for (minimum, step, top) in [
            (55.0, 10.0, 60.0),
            (0.011, 0.002, 0.012),
            (12_345.0, 5000.0, 15_000.0),
            (6.0, 1.0, 6.0),
        ] {
            let scale = Scale::to(minimum, (0.0, 100.0));
            assert!((scale.step - step).abs() < 1e-9 * step, "{minimum}");
            assert!((scale.top - top).abs() < 1e-9 * top, "{minimum}");
            assert!(scale.ticks().count() <= 8);
        }
    }

    #[test]
    fn labels_have_the_digits_of_the_step() {
        let labels = |minimum| -> Vec<String> {
            let scale = Scale::to(minimum, (0.0, 1.0));
            scale.ticks().map(|(_, label)| label).collect()
        };
        assert_eq!(
            labels(0.55),
            ["0.0", "0.1", "0.2", "0.3", "0.4", "0.5", "0.6"]
        );
        assert_eq!(labels(11.0), ["0", "2", "4", "6", "8", "10", "12"]);
    }
}
