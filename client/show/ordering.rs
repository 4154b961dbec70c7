//! Whether a fastener fits, what is to be ordered, what waits.

use clampbook_api::v1::{
    CheckReplacementResponse, FitCheck, ListPartsToOrderResponse, ListWaitsResponse, PartToOrder,
    Severity, Wait,
};

use super::{
    severity,
    text::{caution, stop, strong, table, wrap},
};
use crate::{error::Failure, name};

/// What there is to say about a fastener, the verdict first. Nothing found is no approval.
pub(crate) fn fits(answer: &CheckReplacementResponse) -> String {
    let verdict = match answer.severity() {
        Severity::Stop => stop("DOES NOT FIT"),
        Severity::Caution => caution("fits, with cautions"),
        Severity::Note => "nothing found that stops it; read the notes".to_owned(),
        Severity::Unspecified => "nothing found against it".to_owned(),
    };
    let head = format!("{}: {verdict}", strong(&answer.designation));
    let mut shown = wrap("", 2, &head);
    for check in &answer.checks {
        shown.push_str(&wrap("  ", 4, &line(check)));
    }
    shown
}

fn line(check: &FitCheck) -> String {
    let found = match check.severity() {
        Severity::Unspecified => String::new(),
        _ => format!("{} ", severity(check.severity)),
    };
    format!(
        "{}: {found}{} [{}]",
        check.subject, check.text, check.source
    )
}

/// The parts to order.
pub(crate) fn parts(list: &ListPartsToOrderResponse) -> String {
    if list.parts.is_empty() {
        return "Nothing on record asks for a part.\n".to_owned();
    }
    let rows: Vec<_> = list.parts.iter().map(row).collect();
    table(["assembly", "wanted", "there", "waits", "what"], &rows)
}

fn row(part: &PartToOrder) -> [String; 5] {
    let number = match part.part_number.as_str() {
        "" => String::new(),
        number => format!(", no. {number}"),
    };
    let for_what = match places(part).as_str() {
        "" => String::new(),
        places => format!("; for {places}"),
    };
    let waiting = match part.waiting_count {
        0 => "-".to_owned(),
        count => stop(&count.to_string()),
    };
    [
        name::id(&part.assembly).to_owned(),
        part.wanted_count.to_string(),
        part.arrived_count.to_string(),
        waiting,
        format!("{}{number}{for_what}", strong(&part.what)),
    ]
}

/// Joints with their holes, each once, and why: `brake-plate 1, 3: broke now`.
fn places(part: &PartToOrder) -> String {
    let mut places: Vec<(&str, &str, Vec<String>)> = Vec::new();
    for demand in &part.demands {
        let (joint, why) = (name::id(&demand.joint), demand.why.as_str());
        let known = places.iter().position(|p| (p.0, p.1) == (joint, why));
        let at = known.unwrap_or_else(|| {
            places.push((joint, why, Vec::new()));
            places.len() - 1
        });
        if demand.position > 0 {
            places[at].2.push(demand.position.to_string());
        }
    }
    let spoken: Vec<String> = (places.iter())
        .map(|(joint, why, holes)| match (*joint, holes.as_slice()) {
            ("", _) => (*why).to_owned(),
            (joint, []) => format!("{joint}: {why}"),
            (joint, holes) => format!("{joint} {}: {why}", holes.join(", ")),
        })
        .collect();
    spoken.join("; ")
}

const COLUMNS: [&str; 8] = [
    "assembly",
    "what",
    "part_number",
    "wanted",
    "there",
    "waits",
    "for",
    "entries",
];

/// The parts to order as comma separated values.
pub(crate) fn table_of_parts(list: &ListPartsToOrderResponse) -> Result<Vec<u8>, Failure> {
    let wrong = |error: &dyn std::fmt::Display| Failure::system("cannot write the table", error);
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(COLUMNS).map_err(|e| wrong(&e))?;
    for part in &list.parts {
        let entries: Vec<&str> = (part.demands.iter())
            .map(|demand| name::id(&demand.entry))
            .collect();
        let cells = [
            name::id(&part.assembly).to_owned(),
            part.what.clone(),
            part.part_number.clone(),
            part.wanted_count.to_string(),
            part.arrived_count.to_string(),
            part.waiting_count.to_string(),
            places(part),
            entries.join(" "),
        ];
        writer
            .write_record(cells.map(harmless))
            .map_err(|e| wrong(&e))?;
    }
    writer.into_inner().map_err(|e| wrong(&e))
}

/// Table programs take a cell that begins with one of these signs for a formula; a quote keeps it text.
fn harmless(cell: String) -> String {
    match cell.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        true => format!("'{cell}"),
        false => cell,
    }
}

/// What waits for what.
pub(crate) fn waits(list: &ListWaitsResponse) -> String {
    if list.waits.is_empty() {
        return "Nothing on record waits.\n".to_owned();
    }
    let rows: Vec<_> = list.waits.iter().map(waiting).collect();
    table(["place", "entry", "waits for"], &rows)
}

fn waiting(wait: &Wait) -> [String; 3] {
    let place = match (name::id(&wait.joint), wait.position) {
        ("", _) => name::id(&wait.assembly).to_owned(),
        (joint, 0) => joint.to_owned(),
        (joint, position) => format!("{joint} position {position}"),
    };
    [
        place,
        name::id(&wait.entry).to_owned(),
        format!("{}: {}", strong(&wait.hold_reason), wait.why),
    ]
}

#[cfg(test)]
mod tests {
    use clampbook_api::v1::PartDemand;
    use insta::assert_snapshot;

    use super::*;
    use crate::show::text::{Look, finish};

    fn printed(text: &str) -> String {
        finish(text, Look::default())
    }

    fn list() -> ListPartsToOrderResponse {
        let demand = |position, why: &str| PartDemand {
            joint: "jobs/oak/joints/plate".into(),
            position,
            quantity: 1,
            why: why.into(),
            entry: format!("jobs/oak/entries/{}", position + 10),
            ..PartDemand::default()
        };
        let parts = vec![
            PartToOrder {
                assembly: "jobs/oak/assemblies/hub".into(),
                what: "7/16-20 UNF x 1-1/4 in, SAE J429 5".into(),
                wanted_count: 2,
                waiting_count: 2,
                demands: vec![demand(1, "broke"), demand(3, "broke")],
                ..PartToOrder::default()
            },
            PartToOrder {
                assembly: "jobs/oak/assemblies/hub".into(),
                what: "=gasket".into(),
                part_number: "K 112".into(),
                wanted_count: 1,
                arrived_count: 1,
                demands: vec![demand(0, "torn")],
                ..PartToOrder::default()
            },
        ];
        ListPartsToOrderResponse {
            parts,
            next_page_token: String::new(),
        }
    }

    #[test]
    fn a_list_of_parts_tells_how_many_what_and_for_which_holes() {
        assert_snapshot!(printed(&parts(&list())), @r"
        assembly  wanted  there  waits  what
        hub       2       0      2      7/16-20 UNF x 1-1/4 in, SAE J429 5; for plate 1,
                                        3: broke
        hub       1       1      -      =gasket, no. K 112; for plate: torn
        ");
        assert_eq!(
            parts(&ListPartsToOrderResponse::default()),
            "Nothing on record asks for a part.\n"
        );
    }

    #[test]
    fn a_table_of_parts_is_harmless_to_table_programs() {
        let table = table_of_parts(&list()).expect("memory takes everything");
        assert_snapshot!(String::from_utf8(table).expect("UTF-8"), @r#"
        assembly,what,part_number,wanted,there,waits,for,entries
        hub,"7/16-20 UNF x 1-1/4 in, SAE J429 5",,2,0,2,"plate 1, 3: broke",11 13
        hub,'=gasket,K 112,1,1,0,plate: torn,10
        "#);
    }

    #[test]
    fn a_fit_tells_its_verdict_first_and_never_approves() {
        let mut answer = CheckReplacementResponse {
            designation: "M10 x 32 mm, ISO 898-1 8.8".into(),
            checks: vec![FitCheck {
                subject: "thread".into(),
                text: "M10, as specified".into(),
                source: "ISO 261".into(),
                ..FitCheck::default()
            }],
            ..CheckReplacementResponse::default()
        };
        assert_snapshot!(printed(&fits(&answer)), @r"
        M10 x 32 mm, ISO 898-1 8.8: nothing found against it
          thread: M10, as specified [ISO 261]
        ");
        answer.severity = Severity::Stop.into();
        answer.checks.push(FitCheck {
            subject: "length".into(),
            severity: Severity::Stop.into(),
            text: "it bottoms".into(),
            source: "common practice".into(),
            rule: "bottoms".into(),
        });
        assert_snapshot!(printed(&fits(&answer)), @r"
        M10 x 32 mm, ISO 898-1 8.8: DOES NOT FIT
          thread: M10, as specified [ISO 261]
          length: STOP it bottoms [common practice]
        ");
    }
}
