//! Words as people spell them in tables.

/// The word that is spelled so, capitals, blanks and underscores aside; or why there is none.
pub(crate) fn spelled<W: Copy>(
    said: &str,
    all: &[W],
    id: fn(W) -> &'static str,
) -> Result<W, String> {
    let spelled = said.to_lowercase().replace([' ', '_'], "-");
    let found = all.iter().copied().find(|word| id(*word) == spelled);
    found.ok_or_else(|| {
        let allowed: Vec<&str> = all.iter().map(|word| id(*word)).collect();
        format!(
            "\"{said}\" is not known; allowed are {}",
            allowed.join(", ")
        )
    })
}
