//! Whole joints from standard input, for comparison with a second implementation: what a stack says of lengths, threads,
//! faces and head, how it gives, and what the slots of its castellated nut mean.
//!
//! Lines are `stack|springs|castle,key=value,...` with the keys of [`Said`]; what is left out is left to the engine. Each
//! gets one line: numbers with 17 significant digits, then words and findings, parted by bars; or `error`.

mod lines;

use clampbook_engine::{
    Ask, Catalogue,
    joint::{
        CastleAsk, GripLayer, GripStack, JointAsk, Lengths, StretchAsk, TappedHole, Verdict, align,
        check_joint, stretch,
    },
    remarks::Remark,
    strength::limits::Fit,
    stretch::settling::Roughness,
    units::{Degrees, Newtons},
};
use lines::{Wrong, answer_each, exact, optional};
use std::collections::HashMap;

fn main() -> std::io::Result<()> {
    let catalogue = Catalogue::built_in();
    answer_each(|fields| {
        let (kind, rest) = fields.split_first().ok_or("nothing")?;
        let pairs = rest.iter().filter_map(|pair| pair.split_once('='));
        let said = Said(pairs.collect());
        let stack = said.stack()?;
        match *kind {
            "stack" => said.stacked(&catalogue, &stack),
            "springs" => said.springs(&catalogue, &stack),
            "castle" => said.castle(&catalogue, &stack),
            _ => Err("no such question".into()),
        }
    })
}

/// What a line says.
struct Said<'a>(HashMap<&'a str, &'a str>);

impl<'a> Said<'a> {
    fn text(&self, key: &str) -> &'a str {
        self.0.get(key).copied().unwrap_or_default()
    }

    fn number(&self, key: &str) -> Result<Option<f64>, Wrong> {
        optional(self.text(key))
    }

    fn layers(&self) -> Result<Vec<GripLayer>, Wrong> {
        let each = self.text("layers").split(';');
        each.map(|layer| {
            let mut parts = layer.split(':');
            Ok(GripLayer {
                metal: parts.next().unwrap_or_default().into(),
                thickness_mm: parts.next().unwrap_or_default().parse()?,
                outer_diameter_mm: optional(parts.next().unwrap_or_default())?,
            })
        })
        .collect()
    }

    fn torque(&self) -> Ask<'a> {
        Ask {
            thread: self.text("thread"),
            grade: self.text("grade"),
            lubrication: self.text("lubrication"),
            ..Ask::default()
        }
    }

    fn stack(&self) -> Result<GripStack, Wrong> {
        let tapped = TappedHole {
            metal: self.text("tapped").into(),
            shear_mpa: self.number("shear")?,
            full_thread_mm: self.number("depth")?.unwrap_or(0.0),
            blind: self.text("blind") == "yes",
            insert: self.text("insert") == "yes",
        };
        Ok(GripStack {
            layers: self.layers()?,
            tapped: (!self.text("tapped").is_empty()).then_some(tapped),
            parent_state: String::new(),
            bolt_length_mm: self.number("bolt")?,
            thread_length_mm: self.number("threaded")?,
            nut_height_mm: self.number("nut")?,
            bearing_diameter_mm: self.number("bearing")?,
            hole_diameter_mm: self.number("hole")?,
            head_height_mm: self.number("head_height")?,
            head_diameter_mm: self.number("head_diameter")?,
            head_room_mm: self.number("room")?,
            head_space_mm: self.number("space")?,
        })
    }

    fn stretched<'b>(&self, stack: &'b GripStack) -> Result<StretchAsk<'b>, Wrong>
    where
        'a: 'b,
    {
        Ok(StretchAsk {
            torque: self.torque(),
            stack,
            bolt_modulus_mpa: self.number("modulus")?,
            loading_plane: self.number("plane")?,
            roughness: match self.text("roughness") {
                "fine" => Roughness::Fine,
                "rough" => Roughness::Rough,
                _ => Roughness::Machined,
            },
        })
    }

    fn stacked(&self, catalogue: &Catalogue, stack: &GripStack) -> Result<String, Wrong> {
        let question = catalogue.resolve_joint(&JointAsk {
            torque: self.torque(),
            stack,
            fit: match self.text("fit") {
                "close" => Fit::Close,
                _ => Fit::Medium,
            },
            shear_plane_mm: self.number("shear_plane")?,
        });
        let joint = check_joint(&question.map_err(|_| "refused")?);
        let e = joint.engagement;
        let engagement = exact([
            e.by_strength_mm,
            e.by_trade_mm.unwrap_or(f64::NAN),
            e.equal_strength_mm,
            e.external_area_per_mm,
            e.internal_area_per_mm,
        ]);
        let partners = joint.partners.iter();
        let partners = partners.map(|p| format!("{}={}", p.id, exact([p.capacity.get()])));
        let faces = joint.bearing.iter();
        let faces = exact(faces.flat_map(|f| [f.nominal.get(), f.maximum.get()]));
        Ok([
            lengths(&joint.lengths),
            engagement,
            partners.collect::<Vec<_>>().join(";"),
            faces,
            found(&joint.remarks.findings),
        ]
        .join("|"))
    }

    fn springs(&self, catalogue: &Catalogue, stack: &GripStack) -> Result<String, Wrong> {
        let question = catalogue.resolve_stretch(&self.stretched(stack)?);
        let joint = stretch(&question.map_err(|_| "refused")?);
        let numbers = exact([
            joint.bolt.get(),
            joint.members.get(),
            joint.load_share,
            joint.angle.get(),
            joint.elongation_mm,
            joint.compression_mm,
            joint.settling_mm,
            joint.settling_loss.get(),
        ]);
        Ok([numbers, found(&joint.remarks.findings)].join("|"))
    }

    fn castle(&self, catalogue: &Catalogue, stack: &GripStack) -> Result<String, Wrong> {
        let count = |key| self.number(key).map(|n| n.map(|n| n as u32));
        let question = catalogue.resolve_castle(&CastleAsk {
            stretch: self.stretched(stack)?,
            slots: count("slots")?,
            holes: count("holes")?,
            minimum_torque_nm: self.number("minimum")?.unwrap_or(0.0),
            maximum_torque_nm: self.number("maximum")?,
            prevailing_torque_nm: self.number("prevailing_torque")?,
            to_slot_degrees: self.number("to_slot")?,
        });
        let answer = align(&question.map_err(|_| "refused")?);
        let numbers = exact([
            answer.step.get(),
            answer.step_mm,
            answer.load_per_step.map_or(f64::NAN, Newtons::get),
            answer.window.map_or(f64::NAN, Degrees::get),
        ]);
        let verdict = match answer.verdict {
            Verdict::Advance { torque_nm } => exact(torque_nm),
            Verdict::ChangeWasher {
                thinner_mm: (a, b),
                thicker_mm: (c, d),
            } => exact([a, b, c, d]),
            Verdict::Measure | Verdict::Refuse { .. } => String::new(),
        };
        let id = answer.verdict.id().to_owned();
        Ok([numbers, id, verdict, found(&answer.remarks.findings)].join("|"))
    }
}

fn lengths(l: &Lengths) -> String {
    let at_hand = l.at_hand.map_or([f64::NAN; 5], |a| {
        [
            a.engagement_mm,
            a.reach_mm,
            a.protrusion_mm.unwrap_or(f64::NAN),
            a.body_mm,
            a.grip_length_mm,
        ]
    });
    let longest = l.longest_mm.unwrap_or(f64::NAN);
    let standard = l.standard_mm.unwrap_or(f64::NAN);
    let stack = [l.grip_mm, l.needed_mm, longest, standard];
    exact(stack.into_iter().chain(at_hand))
}

fn found(findings: &[Remark]) -> String {
    let one = |f: &Remark| format!("{}={:?}={:.16e}", f.id, f.severity, f.share);
    let mut all: Vec<_> = findings.iter().map(one).collect();
    all.sort_unstable();
    all.join(";")
}
