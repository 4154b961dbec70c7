//! What became of pieces that did not go back.

use clampbook_api::v1::{
    LogNotRefittedResponse, NotRefitted, PieceFate, PieceKind, SmallPartKind, not_refitted::What,
};

use super::{
    recorded::follows,
    text::{strong, wrap},
};
use crate::{args::Word, name};

/// An account that was recorded.
pub(crate) fn accounted(answer: &LogNotRefittedResponse) -> String {
    let said = answer.not_refitted.as_ref().map(line).unwrap_or_default();
    said + &follows(&answer.flags)
}

fn line(account: &NotRefitted) -> String {
    let what = match account.what {
        Some(What::Piece(kind)) => PieceKind::said_of(kind),
        Some(What::SmallPart(kind)) => SmallPartKind::said_of(kind),
        Some(What::Fastener(_)) | None => "fastener".to_owned(),
    };
    let place = format!("{} position {}", name::id(&account.joint), account.position);
    let told = format!(
        "{}: {} x {what} {}, {} (entry {})",
        strong(&place),
        account.count,
        PieceFate::said_of(account.fate),
        account.reason,
        name::id(&account.entry)
    );
    wrap("", 2, &told)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::show::text::{Look, finish};

    #[test]
    fn an_account_tells_what_became_of_how_many() {
        let answer = LogNotRefittedResponse {
            not_refitted: Some(NotRefitted {
                entry: "jobs/oak/entries/9".to_owned(),
                joint: "jobs/oak/joints/plate".to_owned(),
                position: 3,
                what: Some(What::Piece(PieceKind::Shim.into())),
                count: 2,
                fate: PieceFate::WrittenOff.into(),
                reason: "torn".to_owned(),
                ..NotRefitted::default()
            }),
            ..LogNotRefittedResponse::default()
        };
        assert_eq!(
            finish(&accounted(&answer), Look::default()),
            "plate position 3: 2 x shim written off, torn (entry 9)\n"
        );
    }
}
