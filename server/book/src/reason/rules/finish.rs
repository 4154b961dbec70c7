//! Metals that do not go together: one eats the other in the wet, or they gall.

use super::built::loud;
use super::scene::Scene;
use super::{Flag, Looks, Rule};
use crate::record::fact::FastenerSpec;
use clampbook_engine::metal::Metal;
use clampbook_engine::{Catalogue, Severity as Found};

pub(super) const FINISH_PAIR: Rule = Rule {
    id: "finish-pair",
    title: "Metals of fastener and parts do not go together",
    raised_when: "Finish or metal of a new part and a metal it clamps or is screwed into are two or more electromotive groups apart: caution in class A and B, note in C. A stainless part into a joint that is tightened dry: the same, because stainless threads gall.",
    cleared_by: "Decide on a part of another finish, or correct the joint's description: another metal, or a lubricant against galling.",
    source: "Electromotive groups: Niu, Airframe Structural Design (1988), as read in a university's table; MIL-HDBK-419A volume II, table 1-24, groups alike. Two groups apart, and galling: common practice",
    looks: Looks::Joint(finish_pair),
};

/// Groups that this many steps apart or more do not go together. Common practice: steel in aluminium is everyday, stainless is not.
const TOO_FAR: u8 = 2;

/// A metal as people call it, with its electromotive group: 1 corrodes first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Surface {
    pub(crate) name: &'static str,
    pub(crate) group: u8,
    is_stainless: bool,
}

const fn surface(name: &'static str, group: u8) -> Surface {
    Surface {
        name,
        group,
        is_stainless: false,
    }
}

const STAINLESS: Surface = Surface {
    name: "stainless steel",
    group: 4,
    is_stainless: true,
};

/// Words in the name of a finish or grade and the surface they tell, the more telling first.
const WORDS: [(&[&str], Surface); 10] = [
    (&["stainless", "a2", "a4", "inox"], STAINLESS),
    (&["zinc", "galvani"], surface("zinc", 2)),
    (&["cadmium", "cad plate"], surface("cadmium", 2)),
    (&["titanium"], surface("titanium", 4)),
    (&["chrom"], surface("chromium", 4)),
    (&["nickel"], surface("nickel", 4)),
    (&["brass", "bronze", "copper"], surface("copper alloy", 4)),
    (&["alumin"], surface("aluminium", 2)),
    (&["tin plate", "tinned"], surface("tin", 3)),
    (
        &[
            "plain",
            "bare",
            "black",
            "phosph",
            "oiled",
            "dry",
            "self colour",
            "steel",
        ],
        surface("steel", 3),
    ),
];

/// The surface of a fastener by its finish, or by its grade where that is all metal; nothing when nobody said.
pub(crate) fn surface_of(part: &FastenerSpec, catalogue: &Catalogue) -> Option<Surface> {
    told_by(part.finish()).or_else(|| {
        let material = catalogue.grade(&part.grade).ok()?.material();
        told_by(material).filter(|surface| surface.name != "steel")
    })
}

fn told_by(words: &str) -> Option<Surface> {
    let said = words.to_lowercase();
    let told = |word: &&str| {
        // Short words such as A2 only as words of their own.
        said.split(|c: char| !c.is_alphanumeric())
            .any(|own| own == *word)
            || (word.len() > 2 && said.contains(*word))
    };
    WORDS
        .iter()
        .find(|(words, _)| words.iter().any(told))
        .map(|(_, surface)| *surface)
}

/// The electromotive group of a metal that is clamped or tapped.
pub(crate) fn group_of(metal: &str) -> Option<(Metal, u8)> {
    let metal = Metal::called(metal).ok()?;
    let group = match metal.id() {
        "cast-magnesium" => 1,
        "wrought-aluminium" | "cast-aluminium" => 2,
        "brass" => 4,
        _ => 3,
    };
    Some((metal, group))
}

fn finish_pair(scene: &Scene<'_>, rule: &Rule, flags: &mut Vec<Flag>) {
    for case in scene.cases() {
        let Some(surface) = case
            .new_part()
            .and_then(|part| surface_of(part, scene.catalogue))
        else {
            continue;
        };
        let mut told: Vec<&'static str> = Vec::new();
        for (metal, group) in scene.metals() {
            if surface.group.abs_diff(group) < TOO_FAR || told.contains(&metal.id()) {
                continue;
            }
            told.push(metal.id());
            let eaten = match surface.group < group {
                true => surface.name.to_owned(),
                false => metal.to_string(),
            };
            let cause = format!(
                "{} (group {}) on {metal} (group {group}): in the wet the {eaten} corrodes",
                surface.name, surface.group
            );
            flags.push(scene.flag(rule, loud(scene, Found::Caution), &case, cause));
        }
        if surface.is_stainless && scene.is_tightened_dry() {
            let cause = "stainless threads gall when they are tightened dry".into();
            flags.push(scene.flag(rule, loud(scene, Found::Caution), &case, cause));
        }
    }
}

impl Scene<'_> {
    /// Metals that the fasteners touch, with their groups, as far as somebody said.
    fn metals(&self) -> impl Iterator<Item = (Metal, u8)> {
        let build = self.joint.fact().build.as_deref();
        let layers = build.into_iter().flat_map(|build| &build.stack.layers);
        let tapped = build.and_then(|build| build.stack.tapped.as_ref());
        layers
            .map(|layer| layer.metal.as_str())
            .chain(tapped.map(|tapped| tapped.metal.as_str()))
            .filter_map(group_of)
    }

    /// Whether the joint says how it is lubricated, and that it is not.
    fn is_tightened_dry(&self) -> bool {
        let target = self.joint.target();
        target
            .and_then(|target| self.catalogue.lubrication(&target.lubrication).ok())
            .is_some_and(|lubrication| !lubrication.is_lubricated())
    }
}

#[cfg(test)]
mod tests {
    use super::told_by;

    #[test]
    fn a_finish_is_told_by_its_words_and_not_by_letters_inside_others() {
        let name = |said| told_by(said).map(|surface| surface.name);
        assert_eq!(name("A2"), Some("stainless steel"));
        assert_eq!(name("bright zinc plated"), Some("zinc"));
        assert_eq!(name("black, oiled"), Some("steel"));
        assert_eq!(name("silicon bronze"), Some("copper alloy"));
        assert_eq!(name("JA42 coat"), None);
        assert_eq!(name(""), None);
    }
}
