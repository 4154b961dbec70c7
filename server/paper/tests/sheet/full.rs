//! Sheets to render: one in which every field says something of its own, and one of a job with a stop.

use clampbook_book::command::Command;
use clampbook_book::entry::{Caller, Entry, Moment, Said};
use clampbook_book::fact::{
    AssemblyAdded, GripLayer, GripStack, JobOpened, JointAdded, JointBuild, Layout, Removed,
    SaidTorque, TappedHole, Target,
};
use clampbook_book::ids::{AssemblyId, JobId, JointId, SpecificationId};
use clampbook_book::job::{Job, Standing};
use clampbook_book::judge::{Context, decide};
use clampbook_book::rules::{Flag, On};
use clampbook_book::sheet::{
    Built, Goal, Head, Number, Pass, Published, Row, Scope, Sheet, SheetJoint, TorqueCell, sheet,
};
use clampbook_book::shop::Shop;
use clampbook_book::standings::Standings;
use clampbook_book::stream::Stream;
use clampbook_book::words::{
    Compared, Criticality, HoleKind, Outcome, Severity, Tightness, TorqueUnit,
};
use clampbook_engine::joint::Partner;
use clampbook_engine::units::Newtons;

/// 2027-01-15 08:00 UTC.
const NOW: Moment = Moment(1_800_000_000_000_000);

/// Two joints; the second says everything, and its holes stand in every way that there is.
pub(crate) fn full() -> Sheet {
    let of_job = stopped();
    let joint = &of_job.joints[0];
    let mut built = joint.built.clone().expect("it is said how it is built");
    fill(&mut built);
    let everything = SheetJoint {
        fact: joint.fact.clone(),
        title: "Left hub: drum to flange".into(),
        published: Some(Published {
            specification: SpecificationId::new("drum-bolts").expect("a slug"),
            revision: 41,
            citation: "workshop manual, page 42".into(),
            grade: "8.8".into(),
            lubrication: "oiled threads".into(),
            minimum: None,
            maximum: Some(Goal::Published {
                printed: SaidTorque {
                    said: "61 N·m".into(),
                    nm: 61.0,
                },
                unit: TorqueUnit::NewtonMetre,
            }),
            note: "Ends dry.".into(),
        }),
        marks: "chisel mark to the valve".into(),
        built: Some(built),
        passes: vec![Pass {
            number: 1,
            count: 3,
            is_step: false,
            order: None,
            goal: Goal::Turn(30.0),
            once_more: false,
        }],
        cautions: vec!["Keep heat from the seal.".into()],
        photos: vec!["drum before parting".into()],
        rows: rows(),
        sources: vec![
            "First handbook, 1951.".into(),
            "Second handbook, 1962.".into(),
        ],
    };
    let bare = SheetJoint {
        title: "Axle: cap".into(),
        published: None,
        built: None,
        marks: String::new(),
        rows: vec![hole(1, Standing::Empty)],
        sources: vec!["Third handbook, 1973.".into()],
        ..everything.clone()
    };
    Sheet {
        name: "jobs/orchard-tractor".into(),
        job_display_name: "Orchard tractor of the museum".into(),
        machine: "narrow tractor, red".into(),
        stops: vec![(flag(), "Left hub: drum to flange".into())],
        waits: vec!["grease seal, two pieces".into()],
        findings: vec!["spindle worn on the left".into()],
        standings: Standings {
            in_place: 31,
            empty: 32,
            loose: 33,
            tight: 34,
            left_out: 35,
        },
        joints: vec![bare, everything],
        head: Head {
            entry: 36,
            hash: std::array::from_fn(|i| 0xa0 + i as u8),
            made: NOW,
        },
    }
}

fn flag() -> Flag {
    Flag {
        rule: "seized-out",
        severity: Severity::Stop,
        on: On::Joint(JointId::new("drum").expect("a slug")),
        position: 17,
        cause: "It came out with force.".into(),
        clears: "A decision by a person.",
        entries: vec![37],
    }
}

fn fill(built: &mut Built) {
    let numbers = built.checked.as_mut().expect("it can be judged");
    numbers.lengths.at_hand = None;
    numbers.lengths.longest_mm = None;
    numbers.lengths.standard_mm = Some(35.0);
    numbers.tapped = None;
    numbers.clamp_load = Newtons::new(40_000.0).expect("a load");
    numbers.unit = TorqueUnit::NewtonMetre;
    numbers.lengths.needed_mm = 33.25;
    numbers.engagement.available_mm = Some(14.75);
    numbers.weakest = Some(Partner {
        id: "tapped-thread",
        capacity: Newtons::new(51_000.0).expect("a load"),
    });
}

fn rows() -> Vec<Row> {
    let everything = Row {
        position: 11,
        label: "at the valve".into(),
        fastener: "M10 x 40, class 8.8".into(),
        odd: Some(Compared::Longer),
        reuse: "new part".into(),
        marks: "paint stripe".into(),
        stack: "plain washer, shim".into(),
        parts: "split pin missing".into(),
        preparation: "wire brush".into(),
        torque: TorqueCell::Computed(Number {
            nm: 48.625,
            unit: TorqueUnit::PoundForceFoot,
        }),
        lock: "tab bent over".into(),
        standing: Standing::Fitted(Tightness::Started),
        worst: Some(Severity::Caution),
    };
    let stop = Row {
        torque: TorqueCell::Stopped("stud broken off in the hub".into()),
        worst: Some(Severity::Stop),
        ..hole(17, Standing::Empty)
    };
    vec![
        everything,
        hole(12, Standing::Fitted(Tightness::Snug)),
        hole(13, Standing::Fitted(Tightness::Final)),
        hole(14, Standing::Empty),
        hole(15, Standing::LeftOut),
        hole(16, Standing::InPlace),
        stop,
    ]
}

/// A hole of which nothing is said but where it stands.
fn hole(position: u16, standing: Standing) -> Row {
    Row {
        position,
        label: String::new(),
        fastener: "plain bolt".into(),
        odd: None,
        reuse: String::new(),
        marks: String::new(),
        stack: String::new(),
        parts: String::new(),
        preparation: String::new(),
        torque: TorqueCell::Nothing("no torque asked".into()),
        lock: String::new(),
        standing,
        worst: None,
    }
}

/// The sheet of a job whose one bolt seized: M10 of class 8.8 in a blind hole, as the book makes it.
pub(crate) fn stopped() -> Sheet {
    let shop = Shop::new();
    let mut job = Job::new(JobId::new("tractor").expect("a slug"));
    for command in commands() {
        say(&mut job, &shop, &command);
    }
    let scope = Scope {
        assembly: None,
        unit: Some(TorqueUnit::NewtonMetre),
    };
    let head = Head {
        entry: job.last,
        hash: [7; 32],
        made: NOW,
    };
    let caller = Caller::unnamed();
    sheet(&job, &scope, &Context::asked(&caller, NOW, &shop), &head)
}

fn say(job: &mut Job, shop: &Shop, command: &Command) {
    let caller = Caller {
        person: "Ida".into(),
        device: "tablet".into(),
    };
    let context = Context::asked(&caller, NOW, shop);
    for fact in decide(job, command, &context).expect("it may be said") {
        job.apply(&Entry {
            stream: Stream::Job(job.id.clone()),
            number: job.last + 1,
            said: Said {
                by: context.by.clone(),
                device: caller.device.clone(),
                said: NOW,
                written: NOW,
            },
            fact,
        });
    }
}

fn commands() -> [Command; 4] {
    let (assembly, joint) = (AssemblyId::new("hub"), JointId::new("drum"));
    let (assembly, joint) = (assembly.expect("a slug"), joint.expect("a slug"));
    [
        Command::OpenJob(JobOpened {
            display_name: "Orchard tractor".into(),
            machine: "narrow tractor".into(),
            torque_unit: Some(TorqueUnit::NewtonMetre),
        }),
        Command::AddAssembly(AssemblyAdded {
            assembly: assembly.clone(),
            display_name: "Left hub".into(),
            counterpart: None,
        }),
        Command::AddJoint(JointAdded {
            joint: joint.clone(),
            assembly,
            display_name: "Drum".into(),
            layout: Layout::Ring,
            labels: vec![String::new(); 2],
            criticality: Criticality::A,
            hole_kind: HoleKind::TappedBlind,
            purpose: "clamping".into(),
            target: Some(Target {
                thread: "M10".into(),
                grade: "8.8".into(),
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
            build: Some(Box::new(JointBuild {
                stack: GripStack {
                    layers: vec![GripLayer {
                        metal: "mild steel".into(),
                        thickness_mm: 12.0,
                        outer_diameter_mm: None,
                    }],
                    tapped: Some(TappedHole {
                        metal: "cast aluminium".into(),
                        shear_mpa: None,
                        full_thread_mm: 40.0,
                        blind: true,
                        insert: false,
                    }),
                    bolt_length_mm: Some(40.0),
                    ..GripStack::default()
                },
                ..JointBuild::default()
            })),
            specification: None,
        }),
        Command::LogRemoval(Removed {
            joint,
            position: 1,
            outcome: Outcome::Seized,
            ticks: Vec::new(),
            methods: Vec::new(),
            heat_colour: None,
            heated_place: String::new(),
            thread: "M10".into(),
            length: None,
            head_marking: String::new(),
            grade: "8.8".into(),
            breakaway: None,
            kept_in: "bag".into(),
            note: String::new(),
            assembled: None,
        }),
    ]
}
