//! The open database: transactions over bare texts.
//!
//! What has to be minded with `indexed_db_futures`:
//! - A transaction that is dropped without being committed is rolled back.
//! - Inside a transaction only its own requests are awaited. Waiting for anything
//!   else commits the first half by itself.
//! - A failed request is awaited before the next is made, because the crate's
//!   listener for errors can be called once only.
//! - Opening a database that the browser keeps shut is reported as
//!   `VersionZero`, whatever was thrown.
//! - Listeners that an opening is given by the crate bring its words for every error, and those the tables for writing
//!   any number at all. So an opening is listened to here.

use std::cell::Cell;
use std::rc::Rc;

use indexed_db_futures::database::Database;
use indexed_db_futures::error::{Error, OpenDbError};
use indexed_db_futures::internals::SystemRepr as _;
use indexed_db_futures::object_store::ObjectStore;
use indexed_db_futures::prelude::*;
use indexed_db_futures::transaction::{
    Transaction, TransactionDurability, TransactionMode, TransactionOptions,
};
use records::migrate::MIGRATIONS;
use wasm_bindgen::{JsCast as _, JsValue};
use web_sys::{DomException, IdbDatabase, IdbOpenDbRequest, IdbTransaction};

use super::StoreError;
use super::shelves::{Kept, Shelf, entry_key, free_key};
use super::sorting::readable;
use crate::events::{Listening, listen};
use crate::js::{self, Thrown};

const NAME: &str = "oventide";

/// One for the stores of the first version, one for that of the plan and one for that of manuscripts. Every migration of a record is a new
/// version as well, so that an older app is turned away instead of meeting records it can't read.
const VERSION: u32 = 3 + MIGRATIONS.len() as u32;

/// The open database. Dropping it closes it.
pub(super) struct Connection {
    database: Database,
    is_open: Rc<Cell<bool>>,
    _listening: [Listening; 2],
}

impl Connection {
    /// Opens it. The callbacks are called when another tab keeps it from being
    /// opened, and once when it is closed from outside.
    pub(super) async fn open(
        on_blocked: impl Fn() + 'static,
        on_closed: impl Fn() + 'static,
    ) -> Result<Self, StoreError> {
        let request = Database::open(NAME).with_version(VERSION).build();
        let request = request.map_err(opening)?;
        let asked = request.as_sys().clone();
        let upgraded = asked.clone();
        let listening = [
            listen(&asked, "blocked", move |_| on_blocked()),
            listen(&asked, "upgradeneeded", move |_| build_shelves(&upgraded)),
        ];
        let database = request.await.map_err(opening)?;
        drop(listening);
        Ok(Self::listening(database, on_closed))
    }

    fn listening(database: Database, on_closed: impl Fn() + 'static) -> Self {
        let is_open = Rc::new(Cell::new(true));
        let closing = database.clone();
        let closed = {
            let is_open = Rc::clone(&is_open);
            Rc::new(move || {
                if is_open.replace(false) {
                    on_closed();
                }
            })
        };
        let cleared = Rc::clone(&closed);
        let target = database.as_sys();
        let listening = [
            listen(target, "versionchange", move |_| {
                closing.clone().close();
                closed();
            }),
            listen(target, "close", move |_| cleared()),
        ];
        Self {
            database,
            is_open,
            _listening: listening,
        }
    }

    /// Whether nobody has closed it, as far as is known: some phones do so without a word, and then it only shows
    /// when a transaction is begun.
    pub(super) fn is_open(&self) -> bool {
        self.is_open.get()
    }

    /// Whether a transaction can be begun.
    pub(super) fn answers(&self) -> bool {
        let begun = self.database.transaction(Shelf::SetAside.name()).build();
        self.known(begun).is_ok()
    }

    /// What can't be begun is closed, whatever the browser calls it.
    fn known<'a>(
        &self,
        begun: Result<Transaction<'a>, Error>,
    ) -> Result<Transaction<'a>, StoreError> {
        if begun.is_err() {
            self.is_open.set(false);
        }
        Ok(begun?)
    }

    /// Everything in every store, as it was at one moment.
    pub(super) async fn read_all(&self) -> Result<Kept, StoreError> {
        let names = Shelf::ALL.map(Shelf::name);
        let transaction = self.known(self.database.transaction(names).build())?;
        let mut kept = Kept::new();
        for shelf in Shelf::ALL {
            let store = transaction.object_store(shelf.name())?;
            let keys = store.get_all_keys::<JsValue>().primitive()?;
            let values = store.get_all::<JsValue>().primitive()?;
            let (keys, values) = (keys.await?, values.await?);
            for (key, value) in keys.zip(values) {
                kept.insert((shelf, js::text_of(&key?)), js::text_of(&value?));
            }
        }
        Ok(kept)
    }

    /// Adds entries to a log, all or none, where the log ends at `first`.
    pub(super) async fn append(
        &self,
        bake: &str,
        first: u32,
        texts: &[String],
    ) -> Result<(), StoreError> {
        let transaction = self.strict(&[Shelf::Bakes])?;
        {
            let store = transaction.object_store(Shelf::Bakes.name())?;
            if let Some(before) = first.checked_sub(1)
                && !has(&store, &entry_key(bake, before)).await?
            {
                return Err(StoreError::Conflict);
            }
            for (place, text) in (first..).zip(texts) {
                let key = entry_key(bake, place);
                store
                    .add(text.as_str())
                    .with_key(key)
                    .without_key_type()
                    .primitive()?
                    .await?;
            }
        }
        commit(transaction).await
    }

    /// Puts a text in place of another, or of nothing. An unreadable text that
    /// lay there is moved aside first.
    pub(super) async fn put(&self, shelf: Shelf, key: &str, text: &str) -> Result<(), StoreError> {
        let transaction = self.strict(&[shelf, Shelf::SetAside])?;
        {
            let store = transaction.object_store(shelf.name())?;
            let before: Option<JsValue> = store.get(key).primitive()?.await?;
            if let Some(before) = before.map(|before| js::text_of(&before))
                && readable(shelf, &before).is_err()
            {
                let aside = transaction.object_store(Shelf::SetAside.name())?;
                move_aside(&aside, &shelf.place(key), &before).await?;
            }
            put(&store, key, text).await?;
        }
        commit(transaction).await
    }

    /// Takes a text away.
    pub(super) async fn remove(&self, shelf: Shelf, key: &str) -> Result<(), StoreError> {
        let transaction = self.strict(&[shelf])?;
        {
            let store = transaction.object_store(shelf.name())?;
            store.delete(key).primitive()?.await?;
        }
        commit(transaction).await
    }

    /// Puts these texts in place of everything, or changes nothing.
    pub(super) async fn replace_all(&self, kept: &Kept) -> Result<(), StoreError> {
        let transaction = self.strict(&Shelf::ALL)?;
        for shelf in Shelf::ALL {
            let store = transaction.object_store(shelf.name())?;
            store.clear()?.await?;
            for ((_, key), text) in kept.iter().filter(|((on, _), _)| *on == shelf) {
                put(&store, key, text).await?;
            }
        }
        commit(transaction).await
    }

    fn strict(&self, shelves: &[Shelf]) -> Result<Transaction<'_>, StoreError> {
        let names: Vec<&str> = shelves.iter().map(|shelf| shelf.name()).collect();
        let mut options = TransactionOptions::new();
        options.set_durability(TransactionDurability::Strict);
        let transaction = self
            .database
            .transaction(names)
            .with_mode(TransactionMode::Readwrite)
            .with_options(options);
        self.known(transaction.build())
    }
}

impl Drop for Connection {
    fn drop(&mut self) {
        self.database.clone().close();
    }
}

/// Builds what isn't there yet. Where that can't be done the opening fails, so that nothing is half built.
fn build_shelves(asked: &IdbOpenDbRequest) {
    let build = || -> Result<(), JsValue> {
        let database: IdbDatabase = asked.result()?.unchecked_into();
        let built = database.object_store_names();
        for shelf in Shelf::ALL {
            if !built.contains(shelf.name()) {
                database.create_object_store(shelf.name())?;
            }
        }
        Ok(())
    };
    if build().is_err()
        && let Some(upgrade) = asked.transaction()
    {
        // It refuses only if it has ended already, and then with the opening.
        let _ = upgrade.abort();
    }
}

async fn has(store: &ObjectStore<'_>, key: &str) -> Result<bool, StoreError> {
    let found: Option<JsValue> = store.get(key).primitive()?.await?;
    Ok(found.is_some())
}

async fn put(store: &ObjectStore<'_>, key: &str, text: &str) -> Result<(), StoreError> {
    let request = store.put(text).with_key(key).without_key_type();
    request.primitive()?.await?;
    Ok(())
}

async fn move_aside(store: &ObjectStore<'_>, place: &str, text: &str) -> Result<(), StoreError> {
    let mut taken = Vec::new();
    for key in store.get_all_keys::<JsValue>().primitive()?.await? {
        taken.push(js::text_of(&key?));
    }
    let key = free_key(place, |key| taken.iter().any(|taken| taken == key));
    put(store, &key, text).await
}

/// Commits, and waits until everything is durable.
async fn commit(transaction: Transaction<'_>) -> Result<(), StoreError> {
    let watched: IdbTransaction = transaction
        .as_sys()
        .unchecked_ref::<IdbTransaction>()
        .clone();
    transaction.commit().await.map_err(|error| {
        // A full phone is only noticed now, and only the transaction itself says so.
        watched.error().map_or_else(|| error.into(), named)
    })
}

fn opening(error: OpenDbError) -> StoreError {
    match error {
        OpenDbError::Base(base) => match StoreError::from(base) {
            StoreError::Closed => StoreError::Unavailable("it can't be opened here".to_owned()),
            // Nothing was written yet, and what can't be opened now isn't tried again.
            StoreError::Failed(cause) => StoreError::Unavailable(cause),
            other => other,
        },
        // The version is never zero, so this is the browser refusing in its own way.
        OpenDbError::VersionZero => StoreError::Unavailable("it is kept shut here".to_owned()),
        OpenDbError::UnsupportedEnvironment | OpenDbError::NullFactory => {
            StoreError::Unavailable("this browser has none here".to_owned())
        }
    }
}

impl From<Error> for StoreError {
    fn from(error: Error) -> Self {
        match error {
            Error::DomException(exception) => named(exception.into()),
            // The crate's own words for the rest would bring the tables for writing any number at all.
            Error::Unknown(thrown) => Self::Failed(Thrown::from(JsValue::from(thrown)).message),
            Error::Serialisation(_) | Error::MissingData(_) => {
                Self::Failed("the browser gave back something else than was stored".to_owned())
            }
        }
    }
}

fn named(exception: DomException) -> StoreError {
    let (name, message) = (exception.name(), exception.message());
    match name.as_str() {
        "QuotaExceededError" => StoreError::QuotaExceeded,
        "ConstraintError" => StoreError::Conflict,
        "VersionError" => StoreError::NewerDatabase,
        "InvalidStateError" => StoreError::Closed,
        "SecurityError" => StoreError::Unavailable(message),
        _ => StoreError::Failed(format!("{name}: {message}")),
    }
}
