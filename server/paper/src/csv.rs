//! The sheet as comma separated values, one row a position, for table programs.

use clampbook_book::job::Standing;
use clampbook_book::sheet::{Published, Row, Sheet, SheetJoint};

/// The columns, in order.
pub const COLUMNS: [&str; 23] = [
    "step",
    "joint",
    "class",
    "position",
    "label",
    "fastener",
    "odd_length",
    "reuse",
    "preparation",
    "torque",
    "torque_nm",
    "lock",
    "state",
    "needed_length_mm",
    "engagement_mm",
    "weakest_partner",
    "marks",
    "stack",
    "small_parts",
    "specification",
    "revision",
    "citation",
    "joint_marks",
];

/// Renders the sheet.
///
/// # Errors
/// When the text cannot be put together, which only a failing allocation can cause.
pub fn render(sheet: &Sheet) -> Result<String, Box<dyn std::error::Error + Send + Sync>> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(COLUMNS)?;
    for (i, joint) in sheet.joints.iter().enumerate() {
        for row in &joint.rows {
            writer.write_record(cells(i + 1, joint, row).iter().map(|cell| harmless(cell)))?;
        }
    }
    let bytes = writer.into_inner().map_err(|e| e.into_error())?;
    Ok(String::from_utf8(bytes)?)
}

fn cells(step: usize, joint: &SheetJoint, row: &Row) -> [String; COLUMNS.len()] {
    let checked = (joint.built.as_ref()).and_then(|built| built.checked.as_ref().ok());
    let published =
        |cell: fn(&Published) -> String| joint.published.as_ref().map(cell).unwrap_or_default();
    [
        step.to_string(),
        joint.title.clone(),
        joint.fact.criticality.id().into(),
        row.position.to_string(),
        row.label.clone(),
        row.fastener.clone(),
        row.odd.map(|word| word.id().to_owned()).unwrap_or_default(),
        row.reuse.clone(),
        row.preparation.clone(),
        row.torque.to_string(),
        number(row.torque.nm()),
        row.lock.clone(),
        match row.standing {
            Standing::InPlace => "in-place",
            Standing::Empty => "empty",
            Standing::LeftOut => "left-out",
            Standing::Fitted(tightness) => tightness.id(),
        }
        .into(),
        number(checked.map(|n| n.lengths.needed_mm)),
        number(checked.and_then(|n| n.engagement.available_mm)),
        checked
            .and_then(|n| n.weakest)
            .map(|partner| partner.id.to_owned())
            .unwrap_or_default(),
        row.marks.clone(),
        row.stack.clone(),
        row.parts.clone(),
        published(|published| published.specification.to_string()),
        published(|published| published.revision.to_string()),
        published(|published| published.citation.clone()),
        joint.marks.clone(),
    ]
}

fn number(value: Option<f64>) -> String {
    value.map(|value| value.to_string()).unwrap_or_default()
}

/// Table programs take a cell that begins with one of these signs for a formula; a quote keeps it text.
fn harmless(cell: &str) -> String {
    if cell.starts_with(['=', '+', '-', '@', '\t', '\r']) {
        format!("'{cell}")
    } else {
        cell.to_owned()
    }
}
