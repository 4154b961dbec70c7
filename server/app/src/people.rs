//! The people of the shop.

use super::{Call, Error, ShopChange};
use clampbook_book::command::ShopCommand;
use clampbook_book::fact::{PersonStated, PersonWithdrawn};
use clampbook_book::ids::PersonId;
use clampbook_book::shop::Kept;

impl Call<'_> {
    /// Keeps a person.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn create_person(
        &self,
        change: ShopChange<PersonStated>,
    ) -> Result<Kept<PersonStated>, Error> {
        let id = change.what.person.clone();
        self.write_person(id, change, ShopCommand::CreatePerson)
            .await
    }

    /// Keeps what a person whose etag is given is called and does from now on.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn revise_person(
        &self,
        change: ShopChange<PersonStated>,
        etag: String,
    ) -> Result<Kept<PersonStated>, Error> {
        let id = change.what.person.clone();
        let command = |stated| ShopCommand::RevisePerson { stated, etag };
        self.write_person(id, change, command).await
    }

    /// Lets a person whose etag is given speak for the shop no more.
    ///
    /// # Errors
    /// Every refusal of the book, and what can go wrong with the journal.
    pub async fn withdraw_person(
        &self,
        change: ShopChange<PersonWithdrawn>,
        etag: String,
    ) -> Result<Kept<PersonStated>, Error> {
        let id = change.what.person.clone();
        let command = |withdrawn| ShopCommand::WithdrawPerson { withdrawn, etag };
        self.write_person(id, change, command).await
    }

    /// Writes a change and reads the person as they are then.
    async fn write_person<W>(
        &self,
        id: PersonId,
        change: ShopChange<W>,
        command: impl FnOnce(W) -> ShopCommand,
    ) -> Result<Kept<PersonStated>, Error> {
        let receipt = self.write_shop(change, command).await?;
        let kept = receipt.shop.person(&id).cloned();
        kept.ok_or_else(|| Error::broken(&"a request was answered without its person"))
    }
}
