//! What was marked, stacked and found with a fastener, each in one word with colons.

use clampbook_api::v1::{
    Mark, MarkKind, PieceKind, SmallPart, SmallPartCondition, SmallPartKind, StackedPiece,
};

use super::Word;

/// How a fastener was assembled.
#[derive(Debug, clap::Args)]
pub(crate) struct AssembledArgs {
    #[command(flatten)]
    pub(crate) marks: MarkArgs,
    /// A piece stacked under it, in order from the head, for instance washer,
    /// "shim:2:0.5 mm" or "bracket:1:12 mm:hose bracket"; may be repeated.
    #[arg(long, value_name = "KIND:COUNT:THICKNESS:TEXT", value_parser = piece)]
    pub(crate) stack: Vec<StackedPiece>,
    /// Nut, lock, washer or pin as found, for instance nut:present,
    /// lock:missing or "pin:unfit:half sheared"; may be repeated.
    #[arg(long, value_name = "KIND:STATE:TEXT", value_parser = part)]
    pub(crate) part: Vec<SmallPart>,
}

/// Marks made before the parts are separated.
#[derive(Debug, clap::Args)]
pub(crate) struct MarkArgs {
    /// Something marked before the parts are separated, for instance "match-marks:two dots at
    /// the rim", "tie-rod-turns:14.5", "exposed-thread:22 mm" or left-hand;
    /// may be repeated.
    #[arg(long, value_name = "KIND:TEXT", value_parser = mark)]
    pub(crate) mark: Vec<Mark>,
}

fn mark(said: &str) -> Result<Mark, String> {
    let [kind, text] = fields(said);
    Ok(Mark {
        kind: word::<MarkKind>(kind)?.into(),
        text: text.to_owned(),
    })
}

fn piece(said: &str) -> Result<StackedPiece, String> {
    let [kind, count, thickness, text] = fields(said);
    Ok(StackedPiece {
        kind: word::<PieceKind>(kind)?.into(),
        count: match count {
            "" => 1,
            count => count
                .parse()
                .map_err(|_| format!("{count} is not a whole number of pieces"))?,
        },
        thickness: thickness.to_owned(),
        thickness_mm: None,
        text: text.to_owned(),
    })
}

fn part(said: &str) -> Result<SmallPart, String> {
    let [kind, state, text] = fields(said);
    Ok(SmallPart {
        kind: word::<SmallPartKind>(kind)?.into(),
        state: word::<SmallPartCondition>(state)?.into(),
        text: text.to_owned(),
    })
}

fn word<W: Word>(typed: &str) -> Result<W, String> {
    W::from_word(typed).ok_or_else(|| {
        let known: Vec<String> = W::every().map(Word::word).collect();
        format!("\"{typed}\" is not known; allowed are {}", known.join(", "))
    })
}

/// The parts of a word; those left out are empty, and the last may hold colons of its own.
pub(super) fn fields<const N: usize>(said: &str) -> [&str; N] {
    let mut parts = said.splitn(N, ':').map(str::trim);
    std::array::from_fn(|_| parts.next().unwrap_or_default())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_piece_says_as_much_as_is_known() {
        let washer = piece("washer").expect("a washer");
        assert_eq!((washer.kind(), washer.count), (PieceKind::Washer, 1));
        let bracket = piece("bracket::12 mm:hose: left").expect("a bracket");
        assert_eq!((bracket.count, bracket.thickness.as_str()), (1, "12 mm"));
        assert_eq!(bracket.text, "hose: left");
        assert_eq!(
            piece("shim:two").unwrap_err(),
            "two is not a whole number of pieces"
        );
        let unknown = part("nut:gone").unwrap_err();
        assert_eq!(
            unknown,
            "\"gone\" is not known; allowed are present, missing, unfit"
        );
    }
}
