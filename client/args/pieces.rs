//! `not-refitted`: what became of pieces that did not go back; and what went in with a fastener.

use clampbook_api::v1::{FittedPiece, PieceFate, PieceKind, SmallPartKind, fitted_piece::What};
use clap::Args;

use super::assembled::fields;
use super::{Change, Place, Word};

/// Record what happened to pieces that came out and did not go back.
#[derive(Debug, Args)]
#[command(before_help = EXAMPLES)]
pub(crate) struct NotRefittedArgs {
    #[command(flatten)]
    pub(crate) place: Place,
    #[command(flatten)]
    pub(crate) pieces: PiecesArgs,
    /// How you know, in words.
    #[arg(long, value_name = "TEXT")]
    pub(crate) reason: String,
    #[command(flatten)]
    pub(crate) change: Change,
}

/// Pieces, and what happened to each.
#[derive(Debug, Args)]
pub(crate) struct PiecesArgs {
    /// What they are: fastener, or a kind of piece or small part as --stack
    /// and --part of `removal log` take it.
    #[arg(value_parser = counted)]
    pub(crate) what: Counted,
    /// What happened to the pieces.
    #[arg(value_parser = PieceFate::parser())]
    pub(crate) fate: PieceFate,
    /// How many.
    #[arg(
        long,
        value_name = "N",
        default_value_t = 1,
        allow_negative_numbers = true
    )]
    pub(crate) count: i32,
}

/// What went in with a fastener.
#[derive(Debug, Args)]
pub(crate) struct WithArgs {
    /// A piece or small part that went in with it, for instance lock:new,
    /// shim:original:2 or "washer:new:2:copper"; may be repeated.
    #[arg(long, value_name = "KIND:PART:COUNT:TEXT", value_parser = piece)]
    pub(crate) with: Vec<FittedPiece>,
    /// Everything that came out with it went back unchanged, except what --with
    /// says.
    #[arg(long)]
    pub(crate) as_it_came_out: bool,
    /// Torque needed to turn a used lock nut before it seats, with its unit.
    #[arg(long, value_name = "TEXT", default_value = "")]
    pub(crate) prevailing_torque: String,
}

/// What is counted, as typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Counted {
    Fastener,
    Piece(What),
}

fn counted(typed: &str) -> Result<Counted, String> {
    match typed {
        "fastener" => Ok(Counted::Fastener),
        kind => what(kind).map(Counted::Piece),
    }
}

fn piece(said: &str) -> Result<FittedPiece, String> {
    let [kind, part, count, text] = fields(said);
    let new = match part {
        "new" => true,
        "original" => false,
        other => {
            return Err(format!(
                "\"{other}\" is not known; allowed are new, original"
            ));
        }
    };
    Ok(FittedPiece {
        what: Some(what(kind)?),
        count: match count {
            "" => 1,
            count => count
                .parse()
                .map_err(|_| format!("{count} is not a whole number of pieces"))?,
        },
        new,
        text: text.to_owned(),
    })
}

/// A small part, or a piece of the stack.
fn what(kind: &str) -> Result<What, String> {
    let part = SmallPartKind::from_word(kind).map(|part| What::SmallPart(part.into()));
    let piece = || PieceKind::from_word(kind).map(|piece| What::Piece(piece.into()));
    part.or_else(piece).ok_or_else(|| {
        let mut known: Vec<String> = SmallPartKind::every().map(Word::word).collect();
        known.extend(
            PieceKind::every()
                .map(Word::word)
                .filter(|word| word != "washer"),
        );
        format!("\"{kind}\" is not known; allowed are {}", known.join(", "))
    })
}

const EXAMPLES: &str = "\
Examples:
  clampbook not-refitted orchard-tractor plate 3 shim found --count 2 \\
      --reason \"under the bench; fitted\"
  clampbook not-refitted orchard-tractor plate 4 fastener written-off \\
      --reason \"cut up\"";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_went_in_is_said_with_colons() {
        let lock = piece("lock:new").expect("a lock");
        assert_eq!(lock.what, Some(What::SmallPart(SmallPartKind::Lock.into())));
        assert_eq!((lock.count, lock.new), (1, true));
        let shims = piece("shim:original:2:brass").expect("shims");
        assert_eq!(shims.what, Some(What::Piece(PieceKind::Shim.into())));
        assert_eq!(
            (shims.count, shims.new, shims.text.as_str()),
            (2, false, "brass")
        );
        for wrong in ["lock", "lock:old", "shim:new:two", "ghost:new"] {
            assert!(piece(wrong).is_err(), "{wrong}");
        }
        assert_eq!(counted("fastener"), Ok(Counted::Fastener));
        assert!(
            counted("ghost")
                .unwrap_err()
                .contains("allowed are nut, lock")
        );
    }
}
