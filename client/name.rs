//! Resource names from what is typed: an id alone, or a whole name as an answer printed it.

/// `jobs/{job}`.
pub(crate) fn job(id: &str) -> String {
    child("", "jobs", id)
}

/// `jobs/{job}`, `shop`, or nothing for everything.
pub(crate) fn stream(job_id: Option<&str>, shop: bool) -> String {
    match job_id {
        Some(id) => job(id),
        None if shop => "shop".to_owned(),
        None => String::new(),
    }
}

/// `jobs/{job}/assemblies/{assembly}`.
pub(crate) fn assembly(job_id: &str, id: &str) -> String {
    child(&job(job_id), "assemblies", id)
}

/// `jobs/{job}/joints/{joint}`.
pub(crate) fn joint(job_id: &str, id: &str) -> String {
    child(&job(job_id), "joints", id)
}

/// `jobs/{job}/entries/{entry}`.
pub(crate) fn entry(job_id: &str, id: &str) -> String {
    child(&job(job_id), "entries", id)
}

/// `lubrications/{lubrication}`.
pub(crate) fn lubrication(id: &str) -> String {
    child("", "lubrications", id)
}

/// `people/{person}`.
pub(crate) fn person(id: &str) -> String {
    child("", "people", id)
}

/// `specifications/{specification}`.
pub(crate) fn specification(id: &str) -> String {
    child("", "specifications", id)
}

/// `rules/{rule}`.
pub(crate) fn rule(id: &str) -> String {
    child("", "rules", id)
}

fn child(parent: &str, collection: &str, id: &str) -> String {
    let whole = id.contains(&format!("{collection}/"));
    match (whole, parent) {
        (true, _) => id.to_owned(),
        (false, "") => format!("{collection}/{id}"),
        (false, _) => format!("{parent}/{collection}/{id}"),
    }
}

/// The id at the end of a resource name, which is how people refer to it.
pub(crate) fn id(name: &str) -> &str {
    name.rsplit('/').next().unwrap_or(name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_id_and_a_whole_name_mean_the_same() {
        assert_eq!(job("oak"), "jobs/oak");
        assert_eq!(job("jobs/oak"), "jobs/oak");
        assert_eq!(joint("oak", "hub"), "jobs/oak/joints/hub");
        assert_eq!(joint("jobs/oak", "hub"), "jobs/oak/joints/hub");
        assert_eq!(joint("oak", "jobs/oak/joints/hub"), "jobs/oak/joints/hub");
        assert_eq!(entry("oak", "7"), "jobs/oak/entries/7");
        assert_eq!(assembly("oak", "left"), "jobs/oak/assemblies/left");
        assert_eq!(rule("odd-length"), "rules/odd-length");
        assert_eq!(id("jobs/oak/joints/hub"), "hub");
    }

    #[test]
    fn an_odd_id_is_left_for_the_server_to_refuse() {
        assert_eq!(job(""), "jobs/");
        assert_eq!(job("Oak tree"), "jobs/Oak tree");
        assert_eq!(entry("oak", "-1"), "jobs/oak/entries/-1");
    }
}
