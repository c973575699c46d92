//! What is kept on this phone.
//!
//! IndexedDB holds one store a kind of record, and every value is a record's
//! JSON text, so that nothing but [`records`] knows what is in it.
//!
//! - A bake is kept as its event log, one entry a key. An entry is only ever
//!   added: a key that is taken means that another tab wrote first.
//! - Whatever is written is durable when the call returns: one transaction, with
//!   strict durability, committed and awaited.
//! - A text that can't be read stays where it is and is reported. Where something
//!   has to be written in its place, it moves to the store `set_aside` first.

mod access;
mod connection;
mod settings;
mod shelves;
mod sorting;

use std::cell::RefCell;
use std::fmt;
use std::rc::Rc;

use domain::bake::{Bake, BakeId, Entry};
use domain::formula::Formula;
use domain::formula::manuscript::Manuscript;
use domain::notebook::Note;
use domain::schedule::plan::Promises;
use domain::units::Moment;
pub use records::ReadError;
use records::Record as _;
use records::archive::Archive;
pub use records::archive::{ArchiveError, MOST_BYTES as MOST_ARCHIVE_BYTES};
use records::bake::EntryRecord;
use records::formula::FormulaRecord;
use records::kitchen::KitchenRecord;
use records::manuscript::ManuscriptRecord;
use records::notebook::NoteRecord;
use records::promises::PromisesRecord;

use access::{Access, Work};
use connection::Connection;
pub use settings::{AlarmSettings, Asleep, Degrees, Settings};
use shelves::{KITCHEN_KEY, Kept, PROMISES_KEY, Shelf};

/// Why something could not be read or kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StoreError {
    /// This browser has no storage here, or keeps it shut; its words.
    Unavailable(String),
    /// Another tab holds an older version open.
    Blocked,
    /// The browser was asked for the storage and doesn't answer.
    NoAnswer,
    /// The phone has no room left.
    QuotaExceeded,
    /// The storage was closed: a newer version took it over, or it was cleared.
    Closed,
    /// Another tab wrote this place first.
    Conflict,
    /// A newer Oventide wrote the storage.
    NewerDatabase,
    /// Something else; the browser's words.
    Failed(String),
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unavailable(cause) => write!(f, "there is no storage here: {cause}"),
            Self::Blocked => write!(f, "another tab holds an older version open"),
            Self::NoAnswer => write!(f, "the storage doesn't answer"),
            Self::QuotaExceeded => write!(f, "there is no room left on this phone"),
            Self::Closed => write!(f, "the storage was closed"),
            Self::Conflict => write!(f, "another tab wrote this first"),
            Self::NewerDatabase => write!(f, "a newer Oventide wrote the storage"),
            Self::Failed(cause) => write!(f, "the storage failed: {cause}"),
        }
    }
}

impl std::error::Error for StoreError {}

/// Why an archive was not restored. Nothing has changed then.
#[derive(Debug, Clone, PartialEq)]
pub enum RestoreError {
    /// The file can't be taken.
    Archive(ArchiveError),
    /// It could not be stored.
    Store(StoreError),
}

impl fmt::Display for RestoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Archive(cause) => cause.fmt(f),
            Self::Store(cause) => cause.fmt(f),
        }
    }
}

impl std::error::Error for RestoreError {}

/// A record that can't be read. It is still kept.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SetAside {
    /// Where it lies: "bakes: 5f3a/000003".
    pub place: String,
    /// What it says; of a bake, its whole log, one entry a line.
    pub text: String,
    /// Why it can't be read.
    pub cause: String,
}

/// Everything that is kept.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Contents {
    /// The baker's own formulas.
    pub formulas: Vec<Formula>,
    /// Every bake, running or over.
    pub bakes: Vec<Bake>,
    /// The kitchen and the preferences, once they have been set.
    pub settings: Option<Settings>,
    /// What the baker wrote about bakes.
    pub notes: Vec<Note>,
    /// Formulas that are still being written, as text by their names: reading them is for the half of the app that
    /// comes late.
    pub manuscripts: Vec<(String, String)>,
    /// What plans promised, as text: [`read_promises`] is for the half of the app that comes late.
    pub promises: Option<String>,
    /// What can't be read.
    pub set_aside: Vec<SetAside>,
}

/// What plans promised; nothing where the text can't be read.
#[must_use]
pub fn read_promises(text: &str) -> Option<Promises> {
    PromisesRecord::read(text).ok().map(Promises::from)
}

/// A formula in the making.
///
/// # Errors
/// [`ReadError`] where the text can't be read.
pub fn read_manuscript(text: &str) -> Result<Manuscript, ReadError> {
    ManuscriptRecord::read(text).and_then(Manuscript::try_from)
}

/// The text to keep of a formula in the making.
#[must_use]
pub fn write_manuscript(manuscript: &Manuscript) -> String {
    ManuscriptRecord::from(manuscript).write()
}

/// What a formula in the making is called, for lists: reading all of it is for the half of the app that comes late.
#[must_use]
pub fn manuscript_name(text: &str) -> Option<String> {
    records::manuscript::name(text)
}

/// The text to keep of what plans promised.
#[must_use]
pub fn write_promises(promises: &Promises) -> String {
    PromisesRecord::from(promises).write()
}

/// The formulas that come with the app. They are never stored.
#[must_use]
pub fn starters() -> Vec<Formula> {
    records::starters::all()
}

/// The storage, opened when it is needed. Clones share it.
///
/// Where a second caller needs it while the first still waits for it to open, the
/// second is turned away.
#[derive(Clone)]
pub struct Store {
    access: Rc<Access>,
    /// Unreadable texts as they were last read, with where they lie: known to no one else.
    set_aside: Rc<RefCell<Vec<(String, String)>>>,
}

impl Store {
    /// The storage, not opened yet. The callback is called when it should be
    /// read again: it was closed from outside (by a newer version in another
    /// tab, or because the browser cleared it), or it answered too late.
    #[must_use]
    pub fn new(on_change: impl Fn() + 'static) -> Self {
        Self {
            access: Access::new(Box::new(on_change)),
            set_aside: Rc::default(),
        }
    }

    async fn read_all(&self) -> Result<Kept, StoreError> {
        let work = |connection: Rc<Connection>| -> Work<Kept> {
            Box::pin(async move { connection.read_all().await })
        };
        self.access.with(work).await
    }

    async fn put(&self, shelf: Shelf, key: &str, text: String) -> Result<(), StoreError> {
        let work = |connection: Rc<Connection>| -> Work<()> {
            let (key, text) = (key.to_owned(), text.clone());
            Box::pin(async move { connection.put(shelf, &key, &text).await })
        };
        self.access.with(work).await
    }

    /// All of it in time, or nothing: half of an archive is of no use.
    async fn replace_all(&self, kept: Kept) -> Result<(), StoreError> {
        let mut connection = self.access.connection().await?;
        if !connection.answers() {
            connection = self.access.connection().await?;
        }
        let work = async move { connection.replace_all(&kept).await };
        self.access.or_never(Box::pin(work)).await
    }

    /// Reads everything, as it was at one moment.
    ///
    /// # Errors
    /// [`StoreError`]. What can't be understood is no error; it stands in [`Contents::set_aside`].
    pub async fn load(&self) -> Result<Contents, StoreError> {
        let sorted = sorting::sort(self.read_all().await?);
        *self.set_aside.borrow_mut() = sorted.archive.set_aside;
        Ok(sorted.contents)
    }

    /// Adds entries to a bake's log, all or none. `first` is the place of the first of them.
    ///
    /// # Errors
    /// [`StoreError::Conflict`] when another tab has added to this log, or has taken it away.
    pub async fn append(
        &self,
        bake: &BakeId,
        first: u32,
        entries: &[Entry],
    ) -> Result<(), StoreError> {
        let texts = entries.iter().map(|entry| EntryRecord::from(entry).write());
        let texts: Vec<String> = texts.collect();
        let work = |connection: Rc<Connection>| -> Work<()> {
            let (bake, texts) = (bake.0.clone(), texts.clone());
            Box::pin(async move { connection.append(&bake, first, &texts).await })
        };
        self.access.with(work).await
    }

    /// Keeps a formula.
    ///
    /// # Errors
    /// [`StoreError`].
    pub async fn put_formula(&self, formula: &Formula) -> Result<(), StoreError> {
        let text = FormulaRecord::from(formula).write();
        self.put(Shelf::Formulas, &formula.id.0, text).await
    }

    /// Keeps the text of a formula that is still being written, in place of what was written before; without a text
    /// it is taken away.
    ///
    /// # Errors
    /// [`StoreError`].
    pub async fn put_manuscript(&self, key: &str, text: Option<String>) -> Result<(), StoreError> {
        let Some(text) = text else {
            let work = |connection: Rc<Connection>| -> Work<()> {
                let key = key.to_owned();
                Box::pin(async move { connection.remove(Shelf::Manuscripts, &key).await })
            };
            return self.access.with(work).await;
        };
        self.put(Shelf::Manuscripts, key, text).await
    }

    /// Keeps the kitchen and the preferences.
    ///
    /// # Errors
    /// [`StoreError`].
    pub async fn put_settings(&self, settings: &Settings) -> Result<(), StoreError> {
        let text = KitchenRecord::from(settings).write();
        self.put(Shelf::Kitchen, KITCHEN_KEY, text).await
    }

    /// Keeps what the baker wrote about a bake, in place of what was written before.
    ///
    /// # Errors
    /// [`StoreError`].
    pub async fn put_note(&self, note: &Note) -> Result<(), StoreError> {
        let text = NoteRecord::from(note).write();
        self.put(Shelf::Notebook, &note.bake.0, text).await
    }

    /// Keeps what plans promised, in place of what they did before.
    ///
    /// # Errors
    /// [`StoreError`].
    pub async fn put_promises(&self, text: String) -> Result<(), StoreError> {
        self.put(Shelf::Plan, PROMISES_KEY, text).await
    }

    /// Everything that is kept, readable or not, as the text of an archive file,
    /// together with what could not be kept yet.
    ///
    /// # Errors
    /// [`StoreError`] when nothing can be read; [`Store::export_known`] goes without.
    pub async fn export(&self, now: Moment, unsaved: &Contents) -> Result<String, StoreError> {
        let mut kept = self.read_all().await?;
        sorting::lay_over(&mut kept, unsaved);
        Ok(sorting::sort(kept).archive.write(now.epoch_ms()))
    }

    /// The text of an archive file with all that the app knows, and with what
    /// was unreadable when the storage was last read.
    #[must_use]
    pub fn export_known(&self, now: Moment, known: &Contents) -> String {
        let mut kept = Kept::new();
        sorting::lay_over(&mut kept, known);
        let mut archive = sorting::sort(kept).archive;
        archive.set_aside = self.set_aside.borrow().clone();
        archive.write(now.epoch_ms())
    }

    /// Puts everything in an archive file in place of everything that is kept.
    ///
    /// # Errors
    /// [`RestoreError`]; nothing has changed then.
    pub async fn restore(&self, text: &str) -> Result<(), RestoreError> {
        let archive = Archive::read(text).map_err(RestoreError::Archive)?;
        let kept = sorting::shelve(archive);
        self.replace_all(kept).await.map_err(RestoreError::Store)
    }

    /// Forgets everything.
    ///
    /// # Errors
    /// [`StoreError`]; nothing has changed then.
    pub async fn erase(&self) -> Result<(), StoreError> {
        self.replace_all(Kept::new()).await
    }
}
