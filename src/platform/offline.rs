//! Working without a network, and changing to a newer version when the baker says so.
//!
//! The service worker (`sw.js`) keeps every file of one build. A newer one is
//! fetched in the background and waits; it takes over when it is told
//! `SKIP_WAITING`, and then every tab is loaded again once.
//!
//! A browser doesn't keep a version waiting once no page is open: a phone that
//! dies in the middle of a bake comes back with the newer worker in charge. The
//! worker is therefore told whether a bake runs, and as long as one does it goes
//! on serving the files of the version the bake was last seen in, for three
//! days at most. What a page gets is always of one version: each version's files
//! lie in a cache of their own. When the bake is over the worker says `NEWER`,
//! and loading the page again brings the newer version.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use wasm_bindgen::{JsCast as _, JsValue};
use wasm_bindgen_futures::spawn_local;
use web_sys::{
    RegistrationOptions, ServiceWorker, ServiceWorkerContainer, ServiceWorkerRegistration,
    ServiceWorkerUpdateViaCache,
};

use crate::events::{Listening, listen, navigator, window};
use crate::{js, page};

const WORKER: &str = "./sw.js";
const TAKE_OVER: &str = "SKIP_WAITING";
const NEWER: &str = "NEWER";
/// How often a page that is opened again and again asks for a newer version.
const LOOK_EVERY_MS: f64 = 3_600_000.0;

/// The newer version that may wait. Without service workers there never is one.
pub struct Updates {
    inner: Rc<Inner>,
}

struct Inner {
    registration: RefCell<Option<ServiceWorkerRegistration>>,
    listening: RefCell<Vec<Listening>>,
    looked_ms: Cell<f64>,
    reloading: Cell<bool>,
    // Whether a bake runs, where it is known.
    baking: Cell<Option<bool>>,
    on_ready_offline: Box<dyn Fn()>,
    on_update_waits: Box<dyn Fn()>,
}

impl Updates {
    /// Registers the service worker.
    ///
    /// The first callback says that every file lies on the phone, the second that a newer version waits.
    #[must_use]
    pub fn register(
        on_ready_offline: impl Fn() + 'static,
        on_update_waits: impl Fn() + 'static,
    ) -> Self {
        let inner = Rc::new(Inner {
            registration: RefCell::default(),
            listening: RefCell::default(),
            looked_ms: Cell::new(js_sys::Date::now()),
            reloading: Cell::new(false),
            baking: Cell::new(None),
            on_ready_offline: Box::new(on_ready_offline),
            on_update_waits: Box::new(on_update_waits),
        });
        if let Some(container) = container() {
            Inner::follow(&inner, &container);
            spawn_local(Inner::register(Rc::clone(&inner), container));
        }
        Self { inner }
    }

    /// Says whether a bake runs: while one does, this version stays, even if every page is closed.
    /// While nobody knows, and while something waits to be stored, no other tab's update loads this page again.
    pub fn hold(&self, baking: Option<bool>) {
        if self.inner.baking.replace(baking) != baking {
            self.inner.tell_worker();
        }
    }

    /// Lets the newer version take over; the page is loaded again.
    pub fn apply(&self) {
        let registration = self.inner.registration.borrow();
        let waiting = registration.as_ref().and_then(|found| found.waiting());
        match waiting {
            // It fails only for a worker that has gone, and then loading again is all there is to do.
            Some(waiting) => drop(waiting.post_message(&JsValue::from_str(TAKE_OVER))),
            None => page::reload(),
        }
    }
}

impl Inner {
    /// Loads the page again when another version takes over, but not when the first one does.
    fn follow(inner: &Rc<Self>, container: &ServiceWorkerContainer) {
        let had_controller = Cell::new(container.controller().is_some());
        let weak = Rc::downgrade(inner);
        let changed = listen(container, "controllerchange", move |_| {
            let Some(inner) = weak.upgrade() else {
                return;
            };
            if !had_controller.replace(true) {
                return;
            }
            // Another tab let it take over, which may know nothing of what bakes or waits to be stored here.
            if inner.baking.get() != Some(false) {
                (inner.on_update_waits)();
            } else if !inner.reloading.replace(true) {
                page::reload();
            }
        });
        let weak = Rc::downgrade(inner);
        let told = listen(container, "message", move |event| {
            let word = js::get(event.as_ref(), "data").and_then(|word| word.as_string());
            if let (Some(NEWER), Some(inner)) = (word.as_deref(), weak.upgrade()) {
                (inner.on_update_waits)();
            }
        });
        inner.listening.borrow_mut().extend([changed, told]);
    }

    fn tell_worker(&self) {
        let registration = self.registration.borrow();
        let worker = registration.as_ref().and_then(|found| found.active());
        if let (Some(worker), Some(baking)) = (worker, self.baking.get()) {
            let word = if baking { "BAKING" } else { "NOT_BAKING" };
            // It fails only for a worker that has gone; the next page tells the next one.
            drop(worker.post_message(&JsValue::from_str(word)));
        }
    }

    async fn register(inner: Rc<Self>, container: ServiceWorkerContainer) {
        let options = RegistrationOptions::new();
        options.set_update_via_cache(ServiceWorkerUpdateViaCache::None);
        let promise = container.register_with_options(WORKER, &options);
        // Without a worker, as in private windows, the app works as long as there is a network.
        let Ok(registration) = js::wait(promise.into()).await else {
            return;
        };
        let registration: ServiceWorkerRegistration = registration.unchecked_into();
        *inner.registration.borrow_mut() = Some(registration.clone());
        if registration.waiting().is_some() && registration.active().is_some() {
            (inner.on_update_waits)();
        }
        Self::watch(&inner, &registration);
        Self::look_on_return(&inner);
        let Ok(ready) = container.ready() else {
            return;
        };
        // A worker is ready once it has kept every file.
        if js::wait(ready.into()).await.is_ok() {
            inner.tell_worker();
            (inner.on_ready_offline)();
        }
    }

    fn watch(inner: &Rc<Self>, registration: &ServiceWorkerRegistration) {
        if let Some(worker) = registration.installing() {
            Self::watch_worker(inner, worker);
        }
        let weak = Rc::downgrade(inner);
        let found = registration.clone();
        let listening = listen(registration, "updatefound", move |_| {
            if let (Some(inner), Some(worker)) = (weak.upgrade(), found.installing()) {
                Self::watch_worker(&inner, worker);
            }
        });
        inner.listening.borrow_mut().push(listening);
    }

    fn watch_worker(inner: &Rc<Self>, worker: ServiceWorker) {
        let weak = Rc::downgrade(inner);
        let watched = worker.clone();
        let listening = listen(&worker, "statechange", move |_| {
            let Some(inner) = weak.upgrade() else {
                return;
            };
            // The first worker goes from installed to active by itself; a newer one waits behind it.
            let active = inner
                .registration
                .borrow()
                .as_ref()
                .and_then(|found| found.active());
            let behind = active.is_some_and(|active| active != watched);
            let state = js::get(watched.as_ref(), "state").and_then(|state| state.as_string());
            if behind && state.as_deref() == Some("installed") {
                (inner.on_update_waits)();
            }
        });
        inner.listening.borrow_mut().push(listening);
    }

    /// A page that stays open for days asks for a newer version when the baker comes back.
    fn look_on_return(inner: &Rc<Self>) {
        let weak = Rc::downgrade(inner);
        page::on_return(move || {
            let Some(inner) = weak.upgrade() else {
                return;
            };
            let now_ms = js_sys::Date::now();
            if (now_ms - inner.looked_ms.get()).abs() < LOOK_EVERY_MS {
                return;
            }
            inner.looked_ms.set(now_ms);
            let registration = inner.registration.borrow().clone();
            if let Some(registration) = registration {
                spawn_local(async move {
                    // Without a network there is nothing newer to be had.
                    let _ = js::call_and_wait(registration.as_ref(), "update", &[]).await;
                });
            }
        });
    }
}

fn container() -> Option<ServiceWorkerContainer> {
    let container = js::get(navigator().as_ref(), "serviceWorker")?;
    window()
        .is_secure_context()
        .then(|| container.unchecked_into())
}
