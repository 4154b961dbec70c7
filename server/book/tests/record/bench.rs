//! A joint on the bench: says things about it through the real judge and fold, and asks what is flagged.

use clampbook_book::command::{Command, Correction, Restated, Tightening};
use clampbook_book::context::Context;
use clampbook_book::entry::{Caller, Entry, Moment, Said};
use clampbook_book::fact::{
    AssemblyAdded, Decided, Fact, FastenerSpec, FittedWith, JobOpened, JointAdded, Layout,
    LengthSeen, PieceFitted, Refitted, Removed, SaidLength, SaidTorque, Target, TorqueRead,
};
use clampbook_book::ids::{AssemblyId, JobId, JointId};
use clampbook_book::job::{Job, Joint};
use clampbook_book::judge::decide;
use clampbook_book::refusal::Refusal;
use clampbook_book::rules;
use clampbook_book::shop::Shop;
use clampbook_book::stream::Stream;
use clampbook_book::words::{
    Criticality, DecisionKind, HoleKind, Outcome, Severity, Step, Tightness, TorqueUnit,
};

pub(crate) const NOW: Moment = Moment(1_800_000_000_000_000);

pub(crate) struct Bench {
    pub(crate) job: Job,
    pub(crate) entries: Vec<Entry>,
    pub(crate) shop: Shop,
    ida: Caller,
}

pub(crate) fn joint_id() -> JointId {
    JointId::new("plate").expect("a slug")
}

impl Bench {
    /// A ring of four 7/16-20 UNF SAE J429 5, oiled, into tapped holes; a computed torque is approved.
    pub(crate) fn new(criticality: Criticality) -> Self {
        Self::with(|joint| joint.criticality = criticality)
    }

    pub(crate) fn with(change: impl FnOnce(&mut JointAdded)) -> Self {
        Self::in_shop(Shop::new(), change)
    }

    pub(crate) fn in_shop(shop: Shop, change: impl FnOnce(&mut JointAdded)) -> Self {
        let mut bench = Self {
            job: Job::new(JobId::new("tractor").expect("a slug")),
            entries: Vec::new(),
            shop,
            ida: Caller {
                person: "Ida".into(),
                device: "tablet".into(),
            },
        };
        let assembly = AssemblyId::new("hub").expect("a slug");
        bench.say(Command::OpenJob(JobOpened {
            display_name: "Orchard tractor".into(),
            machine: String::new(),
            torque_unit: Some(TorqueUnit::NewtonMetre),
        }));
        bench.say(Command::AddAssembly(AssemblyAdded {
            assembly: assembly.clone(),
            display_name: "Hub".into(),
            counterpart: None,
        }));
        let mut joint = JointAdded {
            joint: joint_id(),
            assembly,
            display_name: "Plate to knuckle".into(),
            layout: Layout::Ring,
            labels: vec![String::new(); 4],
            criticality: Criticality::B,
            hole_kind: HoleKind::TappedThrough,
            purpose: "clamping".into(),
            target: Some(Target {
                thread: "7/16-20 UNF".into(),
                grade: "SAE J429 5".into(),
                lubrication: "oiled".into(),
                proof_share: None,
                clamp_load_n: None,
                nut_factor: None,
                nut_grade: None,
                baked: false,
            }),
            lock: String::new(),
            preparation: String::new(),
            computed_torque_approver: "Ida".into(),
            build: None,
            specification: None,
        };
        change(&mut joint);
        bench.say(Command::AddJoint(joint));
        bench
    }

    /// The world as Ida sees it.
    pub(crate) fn context(&self) -> Context<'_> {
        Context::asked(&self.ida, NOW, &self.shop)
    }

    pub(crate) fn try_say(&mut self, command: &Command) -> Result<(), Refusal> {
        let facts = decide(&self.job, command, &self.context())?;
        for fact in facts {
            let entry = Entry {
                stream: Stream::Job(self.job.id.clone()),
                number: self.job.last + 1,
                said: Said {
                    by: self.shop.speaker(&self.ida),
                    device: self.ida.device.clone(),
                    said: NOW,
                    written: NOW,
                },
                fact,
            };
            self.job.apply(&entry);
            self.entries.push(entry);
        }
        Ok(())
    }

    pub(crate) fn say(&mut self, command: Command) {
        if let Err(refusal) = self.try_say(&command) {
            panic!("{command:?} was refused: {refusal}");
        }
    }

    pub(crate) fn take_out(&mut self, removed: Removed) -> &mut Self {
        self.say(Command::LogRemoval(removed));
        self
    }

    pub(crate) fn decide(&mut self, decided: Decided) -> &mut Self {
        let etag = self
            .joint()
            .position(decided.position)
            .expect("a position")
            .etag();
        self.say(Command::LogDecision { decided, etag });
        self
    }

    /// Puts in what is described, and brings it to the tightness that is described.
    pub(crate) fn refit(&mut self, described: Refitted) -> &mut Self {
        let Refitted {
            position,
            tightness,
            ..
        } = described;
        let torque = described.torque.clone();
        self.say(Command::LogRefit(Refitted {
            tightness: None,
            torque: TorqueRead::default(),
            ..described
        }));
        let step = Step::ALL
            .iter()
            .find(|step| Some(step.tightness()) == tightness);
        if let Some(step) = step {
            self.say(Command::LogTightening(Tightening {
                reading: torque.reading,
                tool: torque.tool,
                ..tightening(&[position], *step)
            }));
        }
        self
    }

    pub(crate) fn tighten(&mut self, positions: &[u16], step: Step) -> &mut Self {
        self.say(Command::LogTightening(tightening(positions, step)));
        self
    }

    pub(crate) fn correct(&mut self, entry: u32, with: Option<Fact>) -> Result<(), Refusal> {
        self.restate(entry, with.map(Restated::from))
    }

    pub(crate) fn restate(&mut self, entry: u32, with: Option<Restated>) -> Result<(), Refusal> {
        let etag = self.job.etag();
        self.try_say(&Command::Correct(Correction {
            entry,
            with,
            reason: "misread".into(),
            etag,
        }))
    }

    pub(crate) fn joint(&self) -> &Joint {
        self.job.joint(&joint_id()).expect("the joint")
    }

    pub(crate) fn unit(&self) -> Option<TorqueUnit> {
        self.job.torque_unit()
    }

    /// Severity of a rule's flag at a position, if it is raised.
    pub(crate) fn flag(&self, rule: &str, position: u16) -> Option<Severity> {
        assert!(rules::rule(rule).is_some(), "{rule} is a rule");
        rules::joint_flags(self.joint(), &self.context(), self.unit())
            .into_iter()
            .find(|flag| flag.rule == rule && flag.position == position)
            .map(|flag| flag.severity)
    }
}

/// A bolt that came out as it should, marked and measured.
pub(crate) fn sound(position: u16) -> Removed {
    Removed {
        joint: joint_id(),
        position,
        outcome: Outcome::Normal,
        ticks: Vec::new(),
        methods: Vec::new(),
        heat_colour: None,
        heated_place: String::new(),
        thread: String::new(),
        length: Some(LengthSeen::Measured(inches(1.25))),
        head_marking: String::new(),
        grade: "SAE J429 5".into(),
        breakaway: None,
        kept_in: String::new(),
        note: String::new(),
        assembled: None,
    }
}

pub(crate) fn inches(inches: f64) -> SaidLength {
    SaidLength {
        said: format!("{inches} in"),
        mm: inches * 25.4,
    }
}

pub(crate) fn torque(nm: f64) -> SaidTorque {
    SaidTorque {
        said: format!("{nm} N·m"),
        nm,
    }
}

pub(crate) fn new_bolt() -> FastenerSpec {
    FastenerSpec {
        thread: "7/16-20 UNF".into(),
        length: inches(1.25),
        grade: "SAE J429 5".into(),
        detail: None,
    }
}

pub(crate) fn decision(position: u16, kind: DecisionKind) -> Decided {
    Decided {
        replacement: (kind == DecisionKind::Replace).then(new_bolt),
        reason: "looked at".into(),
        ..Decided::new(joint_id(), position, kind)
    }
}

pub(crate) fn back(position: u16, tightness: Tightness) -> Refitted {
    Refitted {
        tightness: Some(tightness),
        ..Refitted::new(joint_id(), position)
    }
}

/// Pieces that went in beside a fastener that is in already.
pub(crate) fn beside(position: u16, pieces: Vec<PieceFitted>) -> Refitted {
    Refitted {
        in_already: true,
        with: Some(Box::new(FittedWith {
            pieces,
            ..FittedWith::default()
        })),
        ..Refitted::new(joint_id(), position)
    }
}

pub(crate) fn tightening(positions: &[u16], step: Step) -> Tightening {
    Tightening {
        joint: joint_id(),
        positions: positions.to_vec(),
        step,
        reading: None,
        tool: String::new(),
        note: String::new(),
    }
}

pub(crate) fn read(nm: f64) -> TorqueRead {
    TorqueRead {
        reading: Some(torque(nm)),
        ..TorqueRead::default()
    }
}
