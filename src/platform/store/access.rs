//! The way to the database: opened when it is needed, and anew after it was closed.
//!
//! Browsers close it by themselves: when a phone puts the page to sleep, when
//! the baker clears the browser's data, and when a newer version wants it. Some
//! don't answer an opening at all, or never say what became of a write. Nobody
//! may wait for that for ever, so after a while the waiting ends with an error. A
//! phone that slept meanwhile gives its answer only then; so a late answer is told,
//! and what it changed is met by reading again.

use std::cell::RefCell;
use std::future::{Future, poll_fn};
use std::pin::Pin;
use std::rc::Rc;
use std::task::Poll;

use gloo_timers::callback::Timeout;
use wasm_bindgen_futures::spawn_local;

use super::StoreError;
use super::connection::Connection;
use crate::later::later;

/// How long an opening may take. Even a slow phone opens a database in a tenth of that.
const OPENING_MS: u32 = 5_000;

/// How long reading or writing may take. A worn phone can need seconds to make one entry durable.
const WORKING_MS: u32 = 10_000;

/// How long replacing everything may take. An archive can be large, and a worn phone needs a
/// millisecond or two for each of its thousands of entries.
const REPLACING_MS: u32 = 60_000;

/// Something that is done with the open database.
pub(super) type Work<T> = Pin<Box<dyn Future<Output = Result<T, StoreError>>>>;

/// The way to the database.
pub(super) struct Access {
    connection: RefCell<Option<Rc<Connection>>>,
    /// Why an opening that is under way has not been answered; none when none is.
    unanswered: RefCell<Option<StoreError>>,
    on_change: Box<dyn Fn()>,
}

impl Access {
    /// Nothing is opened yet. The callback is called when the database was closed
    /// from outside, and when it answers after nobody waited any more.
    pub(super) fn new(on_change: Box<dyn Fn()>) -> Rc<Self> {
        Rc::new(Self {
            connection: RefCell::default(),
            unanswered: RefCell::default(),
            on_change,
        })
    }

    /// The open database.
    pub(super) async fn connection(self: &Rc<Self>) -> Result<Rc<Connection>, StoreError> {
        let before = self.connection.borrow().clone();
        if let Some(open) = before.filter(|before| before.is_open()) {
            return Ok(open);
        }
        // Browsers answer one opening after the other, so another would only wait behind it.
        if let Some(why) = self.unanswered.borrow().clone() {
            return Err(why);
        }
        *self.unanswered.borrow_mut() = Some(StoreError::NoAnswer);
        let (giver, answer) = later();
        let (access, told) = (Rc::clone(self), giver.clone());
        let on_blocked = move || {
            *access.unanswered.borrow_mut() = Some(StoreError::Blocked);
            let _ = told.give(Err(StoreError::Blocked));
        };
        let access = Rc::clone(self);
        let on_closed = move || (access.on_change)();
        let (access, told) = (Rc::clone(self), giver.clone());
        spawn_local(async move {
            let opened = Connection::open(on_blocked, on_closed).await.map(Rc::new);
            *access.unanswered.borrow_mut() = None;
            *access.connection.borrow_mut() = opened.clone().ok();
            if let Some(Ok(_)) = told.give(opened) {
                (access.on_change)();
            }
        });
        let _limit = Timeout::new(OPENING_MS, move || {
            let _ = giver.give(Err(StoreError::NoAnswer));
        });
        answer.await
    }

    /// Does something with the open database, and once more where that turns out to be closed.
    ///
    /// Trying it beforehand takes a transaction of its own, which was more than a tenth of what a press costs.
    pub(super) async fn with<T: 'static>(
        self: &Rc<Self>,
        work: impl Fn(Rc<Connection>) -> Work<T>,
    ) -> Result<T, StoreError> {
        let connection = self.connection().await?;
        let outcome = self.in_time(work(Rc::clone(&connection))).await;
        match &outcome {
            // A transaction that wasn't begun, or was torn off by the closing, has changed nothing.
            Err(StoreError::Closed | StoreError::Failed(_)) if !connection.is_open() => {
                let connection = self.connection().await?;
                self.in_time(work(connection)).await
            }
            _ => outcome,
        }
    }

    /// Waits for something that is done with the open database, but not for ever.
    ///
    /// Some phones lose the way to the database without a word, so after a failure
    /// the connection is forgotten and the next need opens another.
    async fn in_time<T: 'static>(self: &Rc<Self>, work: Work<T>) -> Result<T, StoreError> {
        let (giver, answer) = later();
        let limit = giver.clone();
        let access = Rc::clone(self);
        // It goes on when nobody waits any more: nothing may be torn off half-way.
        spawn_local(async move {
            if giver.give(work.await).is_some() {
                (access.on_change)();
            }
        });
        let _limit = Timeout::new(WORKING_MS, move || {
            let _ = limit.give(Err(StoreError::NoAnswer));
        });
        let outcome = answer.await;
        if let Err(StoreError::Closed | StoreError::Failed(_) | StoreError::NoAnswer) = &outcome {
            let gone = self.connection.borrow_mut().take();
            drop(gone);
        }
        outcome
    }

    /// Waits for something that must not be done once nobody waits for it any more: it is dropped
    /// then, and a transaction that is dropped before it is committed changes nothing.
    pub(super) async fn or_never<T: 'static>(&self, mut work: Work<T>) -> Result<T, StoreError> {
        let (giver, mut late) = later();
        let _limit = Timeout::new(REPLACING_MS, move || {
            let _ = giver.give(());
        });
        poll_fn(move |context| match work.as_mut().poll(context) {
            Poll::Pending => {
                let late = Pin::new(&mut late).poll(context);
                late.map(|()| Err(StoreError::NoAnswer))
            }
            done => done,
        })
        .await
    }
}
