//! The steps: orders sent in groups, sent again, a restart, a file that gets full.

use crate::plain::{Expected, PANICS_AT, Plain, buggy_book};
use crate::promises;
use crate::support::{
    Gate, Shop, add_assembly, add_joint, add_pasted_joint, create_paste, create_person, decide_on,
    fingerprint, give, job, let_all_queue_up, log_alike, log_finding, log_match_marks, log_refit,
    log_removal, open_job, order, part_arrives, revise_paste, revise_person, shop_order, tighten,
    want_part, withdraw, withdraw_paste, withdraw_person,
};
use clampbook_book::command::Command;
use clampbook_book::entry::{Caller, Moment};
use clampbook_book::fact::AssemblyAdded;
use clampbook_book::ids::{AssemblyId, EntryNumber};
use clampbook_book::job::etag;
use clampbook_book::words::{self, FindingSeverity};
use clampbook_journal::{CommitError, Order, Receipt, Store, Work};
use proptest::prelude::{Just, Strategy, any as anything, prop_oneof};
use proptest::sample::Index;

const JOBS: [&str; 3] = ["hub", "axle", "gearbox"];
const POSITIONS: u16 = 6;
/// Two clients that speak at the same time, and may repeat each other's requests.
const CLIENTS: [(&str, &str); 2] = [("Ada", "bench tablet"), ("Bo", "office")];
/// People who may be one of the clients, by id or by name.
const PEOPLE: [&str; 2] = ["ada", "p2"];
const NAMES: [&str; 3] = ["Ada Holm", "bo", "Otto"];
const PASTES: [&str; 2] = ["bench-paste", "pit-paste"];

/// What is done to both.
#[derive(Clone, Debug)]
pub(crate) enum Step {
    /// Orders sent so that they wait together, and a clock that may have jumped.
    Send { group: Vec<Sending>, clock: i64 },
    /// A clean stop and a new start.
    Restart,
    /// A new start with a file that may grow by a few pages only, and orders until it is full.
    FillUp { pages: u32 },
    /// The read models made anew.
    Rebuild,
}

/// One order of a group.
#[derive(Clone, Debug)]
pub(crate) enum Sending {
    /// A new one, and how often it is sent.
    New {
        client: usize,
        job: usize,
        what: What,
        said: Option<i64>,
        times: usize,
    },
    /// One that was sent before, perhaps refused, perhaps changed, perhaps by the other client.
    Again {
        client: usize,
        which: Index,
        changed: bool,
    },
}

/// What a new order says.
#[derive(Clone, Debug)]
pub(crate) enum What {
    Open,
    Assembly,
    Joint,
    Remove(u16),
    RemoveRest,
    Decide {
        position: u16,
        touched: EntryNumber,
    },
    Refit(u16),
    Tighten(u16, words::Step),
    Withdraw {
        entry: EntryNumber,
        last: EntryNumber,
    },
    Marks(u16),
    Finding(FindingSeverity),
    WantPart(u16),
    PartArrives(u16),
    Panic,
    /// A joint whose torque rests on a paste of the shop's.
    PastedJoint,
    RemovePasted,
    RefitPasted,
    TightenPasted,
    CreatePaste {
        paste: usize,
        nut_factor: f64,
    },
    RevisePaste {
        paste: usize,
        nut_factor: f64,
        touched: EntryNumber,
    },
    WithdrawPaste {
        paste: usize,
        touched: EntryNumber,
    },
    CreatePerson {
        person: usize,
        name: usize,
    },
    RevisePerson {
        person: usize,
        name: usize,
        touched: EntryNumber,
    },
    WithdrawPerson {
        person: usize,
        touched: EntryNumber,
    },
}

impl What {
    /// The order, for this job unless it is about the shop.
    fn order(&self, job: &str) -> Order {
        let command = match *self {
            Self::Open => open_job(),
            Self::Assembly => add_assembly(),
            Self::Joint => add_joint("drum", POSITIONS.into()),
            Self::Remove(position) => log_removal("drum", position),
            Self::RemoveRest => log_alike("drum"),
            Self::Decide { position, touched } => decide_on("drum", position, etag(touched)),
            Self::Refit(position) => log_refit("drum", position),
            Self::Tighten(position, step) => tighten("drum", position, step),
            Self::Withdraw { entry, last } => withdraw(entry, etag(last)),
            Self::Marks(position) => log_match_marks("drum", position),
            Self::Finding(severity) => log_finding(severity),
            Self::WantPart(quantity) => want_part(quantity),
            Self::PartArrives(quantity) => part_arrives(quantity),
            Self::Panic => log_removal("drum", PANICS_AT),
            Self::PastedJoint => add_pasted_joint("pasted", PASTES[0]),
            Self::RemovePasted => log_removal("pasted", 1),
            Self::RefitPasted => log_refit("pasted", 1),
            Self::TightenPasted => tighten("pasted", 1, words::Step::Final),
            Self::CreatePaste { paste, nut_factor } => {
                return shop_order(create_paste(PASTES[paste], nut_factor));
            }
            Self::RevisePaste {
                paste,
                nut_factor,
                touched,
            } => return shop_order(revise_paste(PASTES[paste], nut_factor, etag(touched))),
            Self::WithdrawPaste { paste, touched } => {
                return shop_order(withdraw_paste(PASTES[paste], etag(touched)));
            }
            Self::CreatePerson { person, name } => {
                return shop_order(create_person(PEOPLE[person], NAMES[name]));
            }
            Self::RevisePerson {
                person,
                name,
                touched,
            } => return shop_order(revise_person(PEOPLE[person], NAMES[name], etag(touched))),
            Self::WithdrawPerson { person, touched } => {
                return shop_order(withdraw_person(PEOPLE[person], etag(touched)));
            }
        };
        order(job, command)
    }
}

pub(crate) fn any() -> impl Strategy<Value = Vec<Step>> {
    proptest::collection::vec(step(), 1..24)
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        12 => (proptest::collection::vec(sending(), 1..10), 1_i64..1_000_000)
            .prop_map(|(group, clock)| Step::Send { group, clock }),
        2 => Just(Step::Restart),
        1 => (1_u32..6).prop_map(|pages| Step::FillUp { pages }),
        1 => Just(Step::Rebuild),
    ]
}

fn sending() -> impl Strategy<Value = Sending> {
    let client = 0..CLIENTS.len();
    let new = (
        client.clone(),
        0..JOBS.len(),
        what(),
        proptest::option::of(0_i64..2_000_000_000),
        1_usize..3,
    )
        .prop_map(|(client, job, what, said, times)| Sending::New {
            client,
            job,
            what,
            said,
            times,
        });
    let again = (client, anything::<Index>(), proptest::bool::weighted(0.2)).prop_map(
        |(client, which, changed)| Sending::Again {
            client,
            which,
            changed,
        },
    );
    prop_oneof![4 => new, 1 => again]
}

fn what() -> impl Strategy<Value = What> {
    // One position too many, so that some do not exist.
    let position = 1..=POSITIONS + 1;
    let number = 0_u32..24;
    prop_oneof![
        3 => Just(What::Open),
        3 => Just(What::Assembly),
        3 => Just(What::Joint),
        6 => position.clone().prop_map(What::Remove),
        1 => Just(What::RemoveRest),
        4 => (position.clone(), number.clone())
            .prop_map(|(position, touched)| What::Decide { position, touched }),
        2 => position.clone().prop_map(What::Refit),
        2 => (position.clone(), proptest::sample::select(words::Step::ALL))
            .prop_map(|(position, step)| What::Tighten(position, step)),
        // Position 0 is the joint as a whole.
        2 => prop_oneof![Just(0), position].prop_map(What::Marks),
        2 => proptest::sample::select(FindingSeverity::ALL).prop_map(What::Finding),
        2 => quantity().prop_map(What::WantPart),
        2 => quantity().prop_map(What::PartArrives),
        3 => (number.clone(), number).prop_map(|(entry, last)| What::Withdraw { entry, last }),
        1 => Just(What::Panic),
        2 => Just(What::PastedJoint),
        2 => Just(What::RemovePasted),
        2 => Just(What::RefitPasted),
        2 => Just(What::TightenPasted),
        3 => (paste(), factor()).prop_map(|(paste, nut_factor)| What::CreatePaste { paste, nut_factor }),
        3 => (paste(), factor(), touched())
            .prop_map(|(paste, nut_factor, touched)| What::RevisePaste { paste, nut_factor, touched }),
        1 => (paste(), touched()).prop_map(|(paste, touched)| What::WithdrawPaste { paste, touched }),
        3 => (person(), name()).prop_map(|(person, name)| What::CreatePerson { person, name }),
        3 => (person(), name(), touched())
            .prop_map(|(person, name, touched)| What::RevisePerson { person, name, touched }),
        1 => (person(), touched()).prop_map(|(person, touched)| What::WithdrawPerson { person, touched }),
    ]
}

/// None is refused, and so is more than was asked for.
fn quantity() -> impl Strategy<Value = u16> {
    0_u16..4
}

fn paste() -> impl Strategy<Value = usize> {
    0..PASTES.len()
}

fn person() -> impl Strategy<Value = usize> {
    0..PEOPLE.len()
}

fn name() -> impl Strategy<Value = usize> {
    0..NAMES.len()
}

/// One too high, one too low, so that some are refused.
fn factor() -> impl Strategy<Value = f64> {
    proptest::sample::select(vec![0.09, 0.11, 0.12, 0.15, 0.19, 0.21])
}

/// What may be the etag of a paste.
fn touched() -> impl Strategy<Value = EntryNumber> {
    0_u32..6
}

/// The store under test and what was sent to it.
pub(crate) struct Bench {
    pub(crate) store: Store,
    gate: Gate,
    sent: Vec<Order>,
    shop: Shop,
}

impl Bench {
    pub(crate) fn new() -> Self {
        let (shop, gate) = (Shop::new(), Gate::default());
        Self {
            store: open(&shop, &gate, None),
            gate,
            sent: Vec::new(),
            shop,
        }
    }

    pub(crate) async fn play(&mut self, step: Step, plain: &mut Plain) {
        match step {
            Step::Send { group, clock } => {
                self.shop.hand.set(clock);
                self.send(group, plain).await;
            }
            Step::Restart => self.restart(plain).await,
            Step::FillUp { pages } => self.fill_up(pages, plain).await,
            Step::Rebuild => self
                .store
                .rebuild_read_models()
                .await
                .expect("they can be made anew"),
        }
    }

    pub(crate) async fn restart(&mut self, plain: &Plain) {
        let head = self.store.head().await.expect("readable");
        self.reopen(None).await;
        promises::refused_changes_nothing(&self.store, head).await;
        assert_eq!(head.seq, plain.entries.len() as i64);
    }

    async fn reopen(&mut self, most_pages: Option<u32>) {
        self.store.stop().await;
        self.store = open(&self.shop, &self.gate, most_pages);
    }

    async fn send(&mut self, group: Vec<Sending>, plain: &mut Plain) {
        let orders: Vec<Order> = group.into_iter().flat_map(|s| self.orders(s)).collect();
        let before = self.store.head().await.expect("readable");
        self.gate.shut();
        let waiting: Vec<_> = orders
            .iter()
            .map(|order| give(&self.store, order.clone()))
            .collect();
        let_all_queue_up().await;
        self.gate.open();
        let mut written = false;
        for (order, answer) in orders.iter().zip(waiting) {
            let answer = answer.await.expect("the task ends");
            let expected = plain.take(order, self.shop.hand.now());
            written |= matches!(
                expected,
                Expected::Written {
                    replayed: false,
                    ..
                }
            );
            compare(order, answer, expected);
        }
        if !written {
            promises::refused_changes_nothing(&self.store, before).await;
        }
        self.sent.extend(orders);
    }

    fn orders(&self, sending: Sending) -> Vec<Order> {
        match sending {
            Sending::New {
                client,
                job,
                what,
                said,
                times,
            } => {
                let mut new = what.order(JOBS[job]);
                new.caller = caller(client);
                new.said = said.map(Moment);
                vec![new; times]
            }
            Sending::Again { .. } if self.sent.is_empty() => Vec::new(),
            Sending::Again {
                client,
                which,
                changed,
            } => {
                let mut again = which.get(&self.sent).clone();
                again.caller = caller(client);
                if changed {
                    again.work = match again.work {
                        Work::Job(id, _) => Work::Job(id, add_joint("cover", 1)),
                        Work::Shop(_) => Work::Shop(create_paste(PASTES[0], 0.13)),
                    };
                    again.fingerprint = fingerprint(&again.work);
                }
                vec![again]
            }
        }
    }

    /// Writes into a job of its own until there is no room, and sees that the one that did not fit left nothing behind.
    async fn fill_up(&mut self, pages: u32, plain: &mut Plain) {
        self.store.stop().await;
        let count: u32 = self
            .shop
            .outsider()
            .pragma_query_value(None, "page_count", |row| row.get(0))
            .expect("a count");
        self.reopen(Some(count + pages)).await;
        let failed = loop {
            let filler = order("filler", filler(plain));
            match self.store.commit(filler.clone()).await {
                Err(CommitError::NoSpace) => break filler,
                answer => compare(&filler, answer, plain.take(&filler, self.shop.hand.now())),
            }
        };
        promises::all(&self.store, plain).await;
        self.reopen(None).await;
        let answer = self.store.commit(failed.clone()).await;
        compare(&failed, answer, plain.take(&failed, self.shop.hand.now()));
        self.sent.push(failed);
    }
}

fn caller(client: usize) -> Caller {
    let (person, device) = CLIENTS[client];
    Caller {
        person: person.into(),
        device: device.into(),
    }
}

fn open(shop: &Shop, gate: &Gate, most_pages: Option<u32>) -> Store {
    let mut options = shop.options();
    options.decider = buggy_book();
    options.clock = gate.before(options.clock);
    options.most_pages = most_pages;
    // So few that jobs are put out of memory all the time.
    options.cached_jobs = 2;
    Store::open(options).expect("the journal opens")
}

/// What can always be written next into the job that fills the file.
fn filler(plain: &Plain) -> Command {
    match plain.job(&job("filler")).last {
        0 => open_job(),
        last => Command::AddAssembly(AssemblyAdded {
            assembly: AssemblyId::new(&format!("a{last}")).expect("a slug"),
            display_name: "long ".repeat(400),
            counterpart: None,
        }),
    }
}

fn compare(order: &Order, answer: Result<Receipt, CommitError>, expected: Expected) {
    match (answer, expected) {
        (
            Ok(receipt),
            Expected::Written {
                replayed,
                entries,
                job,
                shop,
            },
        ) => {
            assert_eq!(receipt.replayed, replayed, "{order:?}");
            let made: Vec<_> = receipt
                .entries
                .iter()
                .map(|e| (e.seq, (*e.entry).clone()))
                .collect();
            assert_eq!(made, entries);
            assert_eq!(receipt.job.as_deref(), job.as_deref(), "{order:?}");
            assert_eq!(*receipt.shop, *shop, "{order:?}");
        }
        (Err(CommitError::Panicked { .. }), Expected::Panic) => {}
        (Err(error), Expected::Error(expected)) => assert_eq!(error, expected, "{order:?}"),
        (answer, expected) => panic!("{order:?}\nanswered: {answer:?}\nexpected: {expected:?}"),
    }
}
