//! Published specifications that the shop keeps.

mod said;
mod table;

use super::{Call, Error, ShopChange};
use clampbook_book::command::{ImportedSpecification, ShopCommand};
use clampbook_book::fact::{Fact, Revision, SpecificationStated, SpecificationWithdrawn};
use clampbook_book::ids::SpecificationId;
use clampbook_book::refusal::Violation;
use clampbook_book::shop::{Kept, Stated};
pub use said::{SaidSpecification, SaidStep};
pub use table::{read as read_table, write as write_table};

/// What became of the lines of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ImportedSpecifications {
    /// Specifications that are new.
    pub created: usize,
    /// Specifications that differ from what was kept.
    pub revised: usize,
    /// Specifications that are as they were.
    pub unchanged: usize,
}

/// One revision of a specification.
#[derive(Clone, Debug)]
pub struct SpecificationAt {
    /// The specification with all its revisions.
    pub kept: Kept<SpecificationStated>,
    /// The revision.
    pub stated: Stated<SpecificationStated>,
}

impl Call<'_> {
    /// Keeps a specification.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn create_specification(
        &self,
        change: ShopChange<SpecificationStated>,
    ) -> Result<Kept<SpecificationStated>, Error> {
        let id = change.what.specification.clone();
        self.write_specification(id, change, ShopCommand::CreateSpecification)
            .await
    }

    /// Keeps a new revision of a specification whose etag is given.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn revise_specification(
        &self,
        change: ShopChange<SpecificationStated>,
        etag: String,
    ) -> Result<Kept<SpecificationStated>, Error> {
        let id = change.what.specification.clone();
        let command = |stated| ShopCommand::ReviseSpecification { stated, etag };
        self.write_specification(id, change, command).await
    }

    /// Lets a specification whose etag is given hold no more.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn withdraw_specification(
        &self,
        change: ShopChange<SpecificationWithdrawn>,
        etag: String,
    ) -> Result<Kept<SpecificationStated>, Error> {
        let id = change.what.specification.clone();
        let command = |withdrawn| ShopCommand::WithdrawSpecification { withdrawn, etag };
        self.write_specification(id, change, command).await
    }

    /// Writes a change and reads the specification as it is then.
    async fn write_specification<W>(
        &self,
        id: SpecificationId,
        change: ShopChange<W>,
        command: impl FnOnce(W) -> ShopCommand,
    ) -> Result<Kept<SpecificationStated>, Error> {
        let receipt = self.write_shop(change, command).await?;
        let kept = receipt.shop.specification(&id).cloned();
        kept.ok_or_else(|| Error::broken(&"a request was answered without its specification"))
    }

    /// Keeps a whole file of specifications, or only looks what would become of its lines.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn import_specifications(
        &self,
        change: ShopChange<Vec<ImportedSpecification>>,
        validate_only: bool,
    ) -> Result<ImportedSpecifications, Error> {
        let lines = change.what.len();
        if validate_only {
            let facts = self.judge_shop(change, ShopCommand::ImportSpecifications)?;
            return Ok(ImportedSpecifications::of(lines, facts.iter()));
        }
        let receipt = self
            .write_shop(change, ShopCommand::ImportSpecifications)
            .await?;
        let facts = receipt.entries.iter().map(|stored| &stored.entry.fact);
        Ok(ImportedSpecifications::of(lines, facts))
    }

    /// A specification, in the revision that is wanted or the newest.
    ///
    /// # Errors
    /// Not found; a revision that was never stated.
    pub fn specification(
        &self,
        id: &SpecificationId,
        revision: Option<Revision>,
    ) -> Result<SpecificationAt, Error> {
        let shop = self.shop();
        let kept = shop
            .specification(id)
            .ok_or_else(|| Error::not_found(super::names::specification(id)))?;
        let is_wanted = |found| revision.is_none_or(|wanted| wanted == found);
        let stated = kept
            .revisions()
            .find(|stated| is_wanted(stated.fact.revision));
        let stated = stated.cloned().ok_or_else(|| {
            let (wanted, newest) = (revision.unwrap_or_default(), kept.newest.fact.revision);
            let why = format!("is {wanted}; allowed are 0 to {newest}");
            Error::invalid(vec![Violation::new("revision", why)])
        })?;
        Ok(SpecificationAt {
            kept: kept.clone(),
            stated,
        })
    }
}

impl ImportedSpecifications {
    fn of<'f>(lines: usize, facts: impl Iterator<Item = &'f Fact>) -> Self {
        let (mut created, mut revised) = (0, 0);
        for fact in facts {
            match fact {
                Fact::SpecificationStated(stated) if stated.revision == 1 => created += 1,
                _ => revised += 1,
            }
        }
        Self {
            created,
            revised,
            unchanged: lines.saturating_sub(created + revised),
        }
    }
}
