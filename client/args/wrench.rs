//! `wrench`.

use clampbook_api::v1::{Calibration, LockNutKind, TorqueUnit, Wrench};

use super::{Word, shared::torque};

/// Say what to set a torque wrench to, and which wrench to use.
///
/// Adds the prevailing torque first, then applies the adapter, then the wrench's range and graduation.
#[derive(Debug, clap::Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct WrenchArgs {
    /// Torque wanted at the fastener, with its unit: "60 lbf-ft".
    #[arg(allow_hyphen_values = true, value_parser = torque)]
    pub(crate) torque: String,
    /// Measured prevailing torque of the lock nut, with its unit.
    #[arg(long, value_name = "TORQUE")]
    pub(crate) prevailing_torque: Option<String>,
    /// The source says that its torque does not include the prevailing torque; it is then added.
    #[arg(long)]
    pub(crate) prevailing_torque_excluded: bool,
    /// Length of the wrench from the middle of the grip to the middle of its square drive, with its unit.
    #[arg(long, value_name = "LENGTH", requires = "adapter_length")]
    pub(crate) wrench_length: Option<String>,
    /// Length of the adapter from the middle of its square drive to the middle of the nut, with its unit.
    #[arg(long, value_name = "LENGTH", requires = "wrench_length")]
    pub(crate) adapter_length: Option<String>,
    /// Angle between wrench and adapter in degrees; at 0 it lengthens the wrench in line.
    #[arg(
        long,
        value_name = "DEGREES",
        requires = "adapter_length",
        allow_negative_numbers = true
    )]
    pub(crate) angle: Option<f64>,
    /// Thread of a used lock nut, to check its prevailing torque.
    #[arg(long, value_name = "TEXT")]
    pub(crate) used_lock_nut: Option<String>,
    /// How that lock nut grips.
    #[arg(long, value_parser = LockNutKind::parser(), requires = "used_lock_nut")]
    pub(crate) lock_nut_kind: Option<LockNutKind>,
    /// A wrench at hand, again for each: label, full scale, graduation, and what else is known of it.
    ///
    /// After these three, in any order: in-date, overdue or known-bad for its calibration; from=TORQUE for its lowest
    /// mark; within=PERCENT% for the deviation its certificate states.
    #[arg(long = "wrench", value_name = "LABEL,SCALE,STEP[,MORE]", value_parser = wrench)]
    pub(crate) wrenches: Vec<Wrench>,
    /// Unit of the other numbers; the wrench's unit when not given.
    #[arg(long, value_parser = TorqueUnit::parser())]
    pub(crate) unit: Option<TorqueUnit>,
}

const EXAMPLES: &str = "\
Examples:
  clampbook wrench \"60 lbf-ft\" --wrench \"A,150 lbf-ft,1 lbf-ft,in-date\"
  clampbook wrench \"60 lbf-ft\" --wrench \"A,150 lbf-ft,1 lbf-ft,overdue\" \\
    --wrench \"B,110 N-m,0.5 N-m,in-date,from=20 N-m,within=3%\"
  clampbook wrench \"30 lbf-ft\" --wrench-length \"12 in\" \\
    --adapter-length \"3 in\" --angle 45
  clampbook wrench \"40 N-m\" --prevailing-torque \"3 N-m\" \\
    --prevailing-torque-excluded \\
    --used-lock-nut 1/2-20 --lock-nut-kind insert";

/// `label,full scale,graduation` and then, in any order, what else is known. What the torques mean the server knows.
fn wrench(said: &str) -> Result<Wrench, String> {
    let mut parts = said.split(',').map(str::trim);
    let (Some(label), Some(scale), Some(step)) = (parts.next(), parts.next(), parts.next()) else {
        return Err("write it like \"long,150 lbf-ft,1 lbf-ft,in-date\"".to_owned());
    };
    let mut wrench = Wrench {
        label: label.to_owned(),
        maximum_torque: scale.to_owned(),
        graduation: step.to_owned(),
        ..Default::default()
    };
    for part in parts {
        let is_new = if let Some(minimum) = part.strip_prefix("from=") {
            let before = std::mem::replace(&mut wrench.minimum_torque, minimum.to_owned());
            before.is_empty()
        } else if let Some(percent) = part.strip_prefix("within=") {
            let share =
                share(percent).ok_or_else(|| format!("\"{part}\" must be like within=3%"))?;
            wrench.stated_deviation_share.replace(share).is_none()
        } else if let Some(state) = Calibration::from_word(part) {
            let before = wrench.calibration();
            wrench.set_calibration(state);
            before == Calibration::Unspecified
        } else {
            return Err(format!(
                "\"{part}\" is none of in-date, overdue, known-bad, from=TORQUE, within=PERCENT%"
            ));
        };
        if !is_new {
            return Err(format!("\"{part}\" says again what was said"));
        }
    }
    Ok(wrench)
}

/// `3%` as a share.
fn share(percent: &str) -> Option<f64> {
    let number: f64 = percent.strip_suffix('%')?.trim().parse().ok()?;
    Some(number / 100.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wrench_is_said_in_one_breath() {
        let said = wrench("long, 150 lbf-ft, 1 lbf-ft, overdue").expect("a wrench");
        assert_eq!(said.label, "long");
        assert_eq!(said.maximum_torque, "150 lbf-ft");
        assert_eq!(said.graduation, "1 lbf-ft");
        assert_eq!(said.calibration(), Calibration::Overdue);
        let unsaid = wrench("long,150 lbf-ft,1 lbf-ft").expect("a wrench");
        assert_eq!(unsaid.calibration(), Calibration::Unspecified);
        assert_eq!(unsaid.minimum_torque, "");
        assert_eq!(unsaid.stated_deviation_share, None);
    }

    #[test]
    fn its_lowest_mark_and_its_deviation_follow_in_any_order() {
        for said in [
            "a,150 lbf-ft,1 lbf-ft,from=30 lbf-ft,within=3%,in-date",
            "a, 150 lbf-ft, 1 lbf-ft, in-date, within=3 %, from=30 lbf-ft",
        ] {
            let wrench = wrench(said).expect("a wrench");
            assert_eq!(wrench.minimum_torque, "30 lbf-ft");
            assert_eq!(wrench.stated_deviation_share, Some(0.03));
            assert_eq!(wrench.calibration(), Calibration::InDate);
        }
    }

    #[test]
    fn what_is_not_understood_is_named() {
        for (wrong, named) in [
            ("", "write it like"),
            ("long", "write it like"),
            ("long,1 N-m", "write it like"),
            ("a,b,c,fine", "\"fine\" is none of in-date"),
            ("a,b,c,", "\"\" is none of in-date"),
            ("a,b,c,in-date,overdue", "\"overdue\" says again"),
            ("a,b,c,from=1 N-m,from=2 N-m", "says again"),
            ("a,b,c,within=3%,within=3%", "says again"),
            ("a,b,c,within=3", "within=3%"),
            ("a,b,c,within=few%", "within=3%"),
        ] {
            let said = wrench(wrong).expect_err(wrong);
            assert!(said.contains(named), "{wrong}: {said}");
        }
    }
}
