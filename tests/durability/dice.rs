//! Seeded chance, so that a run that failed can be rolled again.

use uuid::{Builder, Uuid};

/// Chance from a seed: SplitMix64.
#[derive(Clone, Debug)]
pub(crate) struct Dice(u64);

impl Dice {
    /// A seed from `CLAMPBOOK_SEED`, or a new one. It is printed, and shown when the test fails.
    pub(crate) fn seed() -> u64 {
        let seed = match std::env::var("CLAMPBOOK_SEED") {
            Ok(said) => said.parse().expect("CLAMPBOOK_SEED is a whole number"),
            Err(_) => Uuid::new_v4().as_u64_pair().0,
        };
        println!("CLAMPBOOK_SEED={seed}");
        seed
    }

    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number from `minimum` to `most`.
    pub(crate) fn between(&mut self, minimum: usize, most: usize) -> usize {
        let span = (most - minimum + 1) as u64;
        minimum + usize::try_from(self.next() % span).expect("below a usize")
    }

    pub(crate) fn coin(&mut self) -> bool {
        self.between(0, 1) == 1
    }

    /// More chance that does not depend on how this one goes on.
    pub(crate) fn fork(&mut self) -> Self {
        Self(self.next())
    }

    /// A request id.
    pub(crate) fn id(&mut self) -> String {
        let mut bytes = [0; 16];
        bytes[..8].copy_from_slice(&self.next().to_be_bytes());
        bytes[8..].copy_from_slice(&self.next().to_be_bytes());
        Builder::from_random_bytes(bytes).into_uuid().to_string()
    }
}
