//! `tighten`: how far what is in was tightened.

use clampbook_api::v1::TighteningStep;
use clap::Args;

use super::{Change, Word};

/// Record how far fasteners of one joint were tightened; all of these holes,
/// or none if one of these cannot be.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct TighteningArgs {
    /// Id of the job.
    pub(crate) job: String,
    /// Id of the joint.
    pub(crate) joint: String,
    /// Numbers of the positions, separated by commas; or all, for all that are
    /// not left out by decision.
    #[arg(value_parser = holes, allow_negative_numbers = true)]
    pub(crate) holes: Holes,
    #[command(flatten)]
    pub(crate) tightened: TightenedArgs,
    #[command(flatten)]
    pub(crate) change: Change,
}

/// How far, and what was read.
#[derive(Debug, Args)]
pub(crate) struct TightenedArgs {
    /// How far they were tightened.
    #[arg(value_parser = TighteningStep::parser())]
    pub(crate) step: TighteningStep,
    /// Reading of the wrench with its unit, for instance "60 N·m"; of one hole
    /// only.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) reading: String,
    /// Which wrench, in words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) tool: String,
    /// Anything else, in your own words.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) note: String,
}

/// Numbers of positions; none for all.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Holes(pub(crate) Vec<i32>);

fn holes(typed: &str) -> Result<Holes, String> {
    if typed == "all" {
        return Ok(Holes(Vec::new()));
    }
    let number = |one: &str| {
        one.trim().parse().map_err(|_| {
            format!(
                "{one:?} is not a position; type numbers separated by commas, such as 1,2,4, or all"
            )
        })
    };
    typed
        .split(',')
        .map(number)
        .collect::<Result<_, _>>()
        .map(Holes)
}

const EXAMPLES: &str = "\
Examples:
  clampbook tighten orchard-tractor left-hub-bolts all snug
  clampbook tighten orchard-tractor left-hub-bolts 3 final \\
      --reading \"60 N·m\" --tool TW1";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn holes_are_named_one_by_one_or_all_at_once() {
        assert_eq!(holes("3"), Ok(Holes(vec![3])));
        assert_eq!(holes("1,2, 4"), Ok(Holes(vec![1, 2, 4])));
        assert_eq!(holes("all"), Ok(Holes(Vec::new())));
        for wrong in ["", "1,", "one", "ALL", "1-4"] {
            let told = holes(wrong).expect_err("it is no hole");
            assert!(told.contains("such as 1,2,4, or all"), "{told}");
        }
    }
}
