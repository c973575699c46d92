//! Keeping the screen awake.
//!
//! The browser takes the lock away whenever the page is hidden, so it is asked
//! for again each time the page is seen.

use std::cell::{Cell, RefCell};
use std::rc::{Rc, Weak};

use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::spawn_local;
use web_sys::EventTarget;

use crate::events::{Listening, document, listen, navigator};
use crate::{js, page};

/// Whether the screen is kept awake.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum WakeState {
    /// It is.
    Held,
    /// It isn't: not wanted, or the page is hidden.
    Released,
    /// This browser can't.
    Unsupported,
    /// The phone said no, as with a low battery; the browser's words.
    Refused(String),
}

/// Whether this browser can keep the screen awake.
#[must_use]
pub fn is_supported() -> bool {
    js::has(navigator().as_ref(), "wakeLock")
}

/// Keeps the screen awake while it is wanted. Dropping it lets the screen sleep.
pub struct WakeLock {
    inner: Rc<Inner>,
    _seen: Listening,
}

struct Inner {
    wanted: Cell<bool>,
    asking: Cell<bool>,
    held: RefCell<Option<Sentinel>>,
    on_change: Box<dyn Fn(WakeState)>,
}

struct Sentinel {
    lock: JsValue,
    released: Listening,
}

impl Sentinel {
    fn release(self) {
        // Some browsers tell of the release from within it; here it is no news.
        drop(self.released);
        release(&self.lock);
    }
}

impl WakeLock {
    /// Calls back whenever the state changes.
    #[must_use]
    pub fn new(on_change: impl Fn(WakeState) + 'static) -> Self {
        let inner = Rc::new(Inner {
            wanted: Cell::new(false),
            asking: Cell::new(false),
            held: RefCell::default(),
            on_change: Box::new(on_change),
        });
        let weak = Rc::downgrade(&inner);
        let seen = listen(&document(), "visibilitychange", move |_| {
            if let Some(inner) = weak.upgrade() {
                Inner::ask(&inner);
            }
        });
        Self { inner, _seen: seen }
    }

    /// Keeps the screen awake from now on, or lets it sleep.
    pub fn keep(&self, on: bool) {
        let was_wanted = self.inner.wanted.replace(on);
        if on {
            Inner::ask(&self.inner);
        } else if was_wanted {
            self.inner.let_go();
        }
    }
}

impl Inner {
    fn ask(inner: &Rc<Self>) {
        let needless = inner.held.borrow().is_some() || inner.asking.get();
        if !inner.wanted.get() || needless || !page::is_visible() {
            return;
        }
        let Some(wake_lock) = js::get(navigator().as_ref(), "wakeLock") else {
            (inner.on_change)(WakeState::Unsupported);
            return;
        };
        inner.asking.set(true);
        let weak = Rc::downgrade(inner);
        spawn_local(async move {
            let answer = js::call_and_wait(&wake_lock, "request", &["screen".into()]).await;
            if let Some(inner) = weak.upgrade() {
                inner.asking.set(false);
                match answer {
                    Ok(lock) => inner.hold(lock, weak),
                    Err(thrown) => (inner.on_change)(WakeState::Refused(thrown.message)),
                }
            } else if let Ok(lock) = answer {
                release(&lock);
            }
        });
    }

    fn hold(&self, lock: JsValue, weak: Weak<Self>) {
        // What was wanted when it was asked for may not be wanted any more.
        if !self.wanted.get() {
            release(&lock);
            return;
        }
        let released = listen(lock.unchecked_ref::<EventTarget>(), "release", move |_| {
            if let Some(inner) = weak.upgrade() {
                // Taking the listener away from inside itself has to wait until it has returned.
                let gone = inner.held.borrow_mut().take();
                spawn_local(async move { drop(gone) });
                (inner.on_change)(WakeState::Released);
                Self::ask(&inner);
            }
        });
        *self.held.borrow_mut() = Some(Sentinel { lock, released });
        (self.on_change)(WakeState::Held);
    }

    fn let_go(&self) {
        let held = self.held.borrow_mut().take();
        if let Some(sentinel) = held {
            sentinel.release();
        }
        (self.on_change)(WakeState::Released);
    }
}

fn release(lock: &JsValue) {
    // Releasing what the browser already took away does nothing.
    js::ignore(js::call(lock, "release", &[]));
}

impl Drop for WakeLock {
    fn drop(&mut self) {
        self.inner.wanted.set(false);
        let held = self.inner.held.borrow_mut().take();
        if let Some(sentinel) = held {
            sentinel.release();
        }
    }
}
