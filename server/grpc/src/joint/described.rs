//! A joint's description from the wire.

use crate::Validator;
use clampbook_api::v1 as wire;
use clampbook_app::error::violations_of;
use clampbook_book::bounds;
use clampbook_book::effective::{self, NotInForce, not_in_force};
use clampbook_book::fact::{Followed, JointAdded, Layout, Target};
use clampbook_book::ids::{AssemblyId, JobId, JointId};
use clampbook_book::judge::build;
use clampbook_book::shop::Shop;
use clampbook_book::target;
use clampbook_engine::{Catalogue, Purpose};

impl Validator {
    /// Takes the description of a joint of `job`.
    pub(crate) fn joint(
        &mut self,
        job: Option<&JobId>,
        id: Option<JointId>,
        joint: &wire::Joint,
        shop: &Shop,
    ) -> Option<JointAdded> {
        let catalogue = shop.catalogue();
        let assembly = self.assembly_of(job, &joint.assembly);
        let display_name = self.required_text(
            "joint.display_name",
            &joint.display_name,
            bounds::DISPLAY_NAME,
        );
        let labels = self.labels(&joint.positions);
        let layout = self.layout(joint, labels.len());
        let criticality = self.required_word("joint.criticality", joint.criticality);
        let hole_kind = self.required_word("joint.hole_kind", joint.hole_kind);
        let purpose = self
            .word::<Purpose>("joint.purpose", joint.purpose)
            .unwrap_or_default();
        let specification = self.followed(joint);
        let target = match (&joint.target, &specification) {
            // What it is published for may be all that is needed, which is judged with the specification at hand.
            (None, Some(_)) => None,
            (target, _) => self.target(target.as_ref(), purpose, catalogue),
        };
        let lock = self.text("joint.lock", &joint.lock, bounds::SENTENCE);
        let preparation = self.text("joint.preparation", &joint.preparation, bounds::SENTENCE);
        let computed_torque_approver = self.text(
            "joint.computed_torque_approver",
            &joint.computed_torque_approver,
            bounds::SHORT,
        );
        let build = self.build(joint.build.as_deref());
        if let Some(build) = &build {
            self.extend(build::violations(
                build,
                hole_kind,
                target.as_ref(),
                purpose,
                catalogue,
            ));
        }
        // What is right in itself is judged where it is written; if not all is, what is wrong with any of it is told at once.
        if self.count() > 0 {
            let (target, purpose) = (target.as_ref(), purpose.id());
            self.extend(specification.as_ref().and_then(|named| {
                match effective::holds(&named.specification, target, purpose, shop) {
                    // A correction may leave a withdrawn one as it is.
                    Ok(_) | Err(NotInForce::Withdrawn(_)) => None,
                    Err(why) => Some(not_in_force(named, why)),
                }
            }));
        }
        Some(JointAdded {
            joint: id?,
            assembly: assembly?,
            display_name,
            layout: layout?,
            labels,
            criticality: criticality?,
            hole_kind: hole_kind?,
            purpose: purpose.id().into(),
            target,
            lock,
            preparation,
            computed_torque_approver,
            build: build.map(Box::new),
            specification,
        })
    }

    /// Takes the specification that the joint names; whether there is one is judged against the shop.
    fn followed(&mut self, joint: &wire::Joint) -> Option<Followed> {
        let field = "joint.specification_revision";
        let revision = u32::try_from(joint.specification_revision);
        if revision.is_err() {
            self.wrong(field, "is negative; allowed are 0 and above");
        }
        if joint.specification.is_empty() {
            if joint.specification_revision > 0 {
                self.wrong(
                    field,
                    "is given without the specification; allowed is 0 here",
                );
            }
            return None;
        }
        let id = self.specification_name("joint.specification", &joint.specification);
        Some(Followed {
            specification: id?,
            revision: revision.ok()?,
        })
    }

    fn assembly_of(&mut self, job: Option<&JobId>, name: &str) -> Option<AssemblyId> {
        let (owner, assembly) = self.assembly_name("joint.assembly", name)?;
        if job.is_some_and(|job| *job != owner) {
            self.wrong("joint.assembly", format!("{name} belongs to another job"));
            return None;
        }
        Some(assembly)
    }

    fn labels(&mut self, positions: &[wire::Position]) -> Vec<String> {
        if positions.is_empty() || positions.len() > bounds::POSITIONS {
            self.wrong(
                "joint.positions",
                format!(
                    "has {} items; allowed are 1 to {}",
                    positions.len(),
                    bounds::POSITIONS
                ),
            );
            return Vec::new();
        }
        positions
            .iter()
            .enumerate()
            .map(|(i, position)| {
                self.text(
                    &format!("joint.positions[{i}].label"),
                    &position.label,
                    bounds::LABEL,
                )
            })
            .collect()
    }

    fn layout(&mut self, joint: &wire::Joint, positions: usize) -> Option<Layout> {
        let layout = match wire::Layout::try_from(joint.layout) {
            Ok(wire::Layout::Unspecified) => {
                self.wrong("joint.layout", "is required");
                return None;
            }
            Err(_) => {
                self.wrong(
                    "joint.layout",
                    format!("{} is not a value of this field", joint.layout),
                );
                return None;
            }
            Ok(wire::Layout::Ring) => Layout::Ring,
            Ok(wire::Layout::Line) => Layout::Line,
            Ok(wire::Layout::Single) => Layout::Single,
            Ok(wire::Layout::Grid) => return self.grid(joint.row_count, positions),
        };
        if joint.row_count != 0 {
            self.wrong("joint.row_count", "is for a grid only; allowed is 0 here");
        }
        if layout == Layout::Single && positions > 1 {
            self.wrong(
                "joint.positions",
                format!("has {positions} items; a single position has 1"),
            );
        }
        if layout == Layout::Ring && positions == 1 {
            self.wrong("joint.positions", "has 1 item; a ring has at least 2");
        }
        Some(layout)
    }

    fn grid(&mut self, rows: i32, positions: usize) -> Option<Layout> {
        let rows = u16::try_from(rows)
            .ok()
            .filter(|rows| (2..=bounds::ROWS).contains(rows));
        match rows {
            None => {
                self.wrong(
                    "joint.row_count",
                    format!("allowed for a grid are 2 to {}", bounds::ROWS),
                );
                None
            }
            Some(rows) if !positions.is_multiple_of(usize::from(rows)) => {
                self.wrong(
                    "joint.row_count",
                    format!("{positions} positions do not fill {rows} rows evenly"),
                );
                None
            }
            Some(rows) => Some(Layout::Grid { rows }),
        }
    }

    fn target(
        &mut self,
        target: Option<&wire::JointTarget>,
        purpose: Purpose,
        catalogue: &Catalogue,
    ) -> Option<Target> {
        if purpose.refusal().is_some() {
            if target.is_some() {
                self.wrong(
                    "joint.target",
                    format!("no torque is computed for {}; leave it out", purpose.id()),
                );
            }
            return None;
        }
        let target = self.required("joint.target", target)?;
        let target = Target {
            thread: target.thread.clone(),
            grade: target.grade.clone(),
            lubrication: target.lubrication.clone(),
            proof_share: target.proof_share,
            clamp_load_n: target.clamp_load_n,
            nut_factor: target.nut_factor,
            nut_grade: target.nut_grade.clone(),
            baked: target.baked,
        };
        if let Err(faults) = target::question(&target, purpose, catalogue) {
            self.extend(violations_of(&faults, "joint.target."));
        }
        Some(target)
    }
}
