//! Choosing the one tab among many that makes a noise.
//!
//! The first tab leads, and the next in line when it closes. A phone can freeze
//! a tab in the background that still holds the lead, and nobody can tell a
//! frozen tab from one that is only quiet; so a tab in front of the baker's eyes
//! may [claim](Leader::claim) it. A tab that loses the lead stands in line again.
//!
//! A browser without Web Locks, or one that refuses them, lets every tab lead:
//! ringing twice is better than not at all.

use std::cell::Cell;
use std::rc::Rc;

use js_sys::Promise;
use wasm_bindgen::JsValue;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_futures::spawn_local;

use crate::events::navigator;
use crate::js;

const LOCK: &str = "oventide-alarm";
/// What the standard calls the end of a lock that another tab took.
const TAKEN: &str = "AbortError";

/// This tab's place in the line. It stays there for as long as the tab lives.
pub struct Leader {
    inner: Rc<Inner>,
}

struct Inner {
    // How many of this tab's requests hold the lock: a tab can claim what it is just being given.
    held: Cell<u32>,
    in_line: Cell<bool>,
    on_change: Box<dyn Fn(bool)>,
}

impl Leader {
    /// Stands in line. Calls back whenever this tab comes to lead, or loses the lead.
    #[must_use]
    pub fn new(on_change: impl Fn(bool) + 'static) -> Self {
        let inner = Rc::new(Inner {
            held: Cell::new(0),
            in_line: Cell::new(false),
            on_change: Box::new(on_change),
        });
        Inner::ask(&inner, false);
        Self { inner }
    }

    /// Takes the lead from whichever tab has it.
    pub fn claim(&self) {
        if self.inner.held.get() == 0 {
            Inner::ask(&self.inner, true);
        }
    }
}

impl Inner {
    fn hold(&self, held: u32) {
        let before = self.held.replace(held);
        if (before > 0) != (held > 0) {
            (self.on_change)(held > 0);
        }
    }

    fn gain(&self) {
        self.hold(self.held.get().saturating_add(1));
    }

    fn ask(inner: &Rc<Self>, steal: bool) {
        if !steal && inner.in_line.replace(true) {
            return;
        }
        let Some(locks) = js::get(navigator().as_ref(), "locks") else {
            inner.gain();
            return;
        };
        let leader = Rc::clone(inner);
        let granted = Closure::once_into_js(move |_lock: JsValue| {
            if !steal {
                leader.in_line.set(false);
            }
            leader.gain();
            // A promise that is never kept holds the lock for as long as the tab lives.
            JsValue::from(Promise::new(&mut |_, _| {}))
        });
        let options = js::object(&[("steal", steal.into())]);
        let asked = js::call(&locks, "request", &[LOCK.into(), options, granted]);
        let inner = Rc::clone(inner);
        spawn_local(async move {
            let ended = match asked {
                Ok(lock) => js::wait(lock).await,
                Err(thrown) => Err(thrown),
            };
            match ended {
                Err(thrown) if thrown.name == TAKEN => {
                    inner.hold(inner.held.get().saturating_sub(1));
                    Self::ask(&inner, false);
                }
                // Refused outright, as in an opaque origin: no tab has the lock, so this one rings.
                Err(_) => inner.gain(),
                Ok(_) => {}
            }
        });
    }
}
