//! Signals and memos whose machinery the phone loads once, whatever they hold.
//!
//! Leptos compiles all of its bookkeeping anew for each type that a signal or a memo holds, a kilobyte or two each.
//! Here the value lies behind a pointer, so that Leptos sees a single type, and the type comes back on reading.
//! What it costs is one more step to the value.

use std::any::Any;
use std::marker::PhantomData;
use std::ops::Deref;
use std::sync::Arc;

use leptos::prelude::{self as ui, Get, GetUntracked, IsDisposed, Set, Signal, Update};

/// What a signal or a memo can hold.
pub(crate) trait Value: Send + Sync + 'static {}

impl<T: Send + Sync + 'static> Value for T {}

/// A value of any type, and how to compare it with another of the same.
#[derive(Clone)]
struct Shared {
    value: Arc<dyn Any + Send + Sync>,
    same: fn(&dyn Any, &dyn Any) -> bool,
}

impl PartialEq for Shared {
    fn eq(&self, other: &Self) -> bool {
        (self.same)(&*self.value, &*other.value)
    }
}

impl Shared {
    /// One that counts as the same as long as it is equal.
    fn compared<T: Value + PartialEq>(value: T) -> Self {
        Self {
            value: Arc::new(value),
            same: |one, other| one.downcast_ref::<T>() == other.downcast_ref::<T>(),
        }
    }

    /// One that is never compared.
    fn of<T: Value>(value: T) -> Self {
        Self {
            value: Arc::new(value),
            same: |_, _| false,
        }
    }

    /// What it holds, to be changed: a copy, if somebody is reading it.
    fn typed_mut<T: Value + Clone>(&mut self) -> &mut T {
        let held = self.value.downcast_ref::<T>();
        let held = held.expect(ONE_TYPE);
        if Arc::strong_count(&self.value) > 1 {
            self.value = Arc::new(held.clone());
        }
        let only = Arc::get_mut(&mut self.value).expect("nobody else holds it now");
        only.downcast_mut().expect(ONE_TYPE)
    }

    fn typed<T: Value>(self) -> Ref<T> {
        Ref(self.value.downcast().expect(ONE_TYPE))
    }
}

const ONE_TYPE: &str = "what goes in by type comes out by the same type";

/// A value that is being read; what is set meanwhile doesn't change it.
pub(crate) struct Ref<T>(Arc<T>);

impl<T> Deref for Ref<T> {
    type Target = T;

    fn deref(&self) -> &T {
        &self.0
    }
}

/// A value that is reckoned again when what it was reckoned from changes, and that tells only of real changes.
pub(crate) struct Memo<T> {
    inner: ui::Memo<Shared>,
    holds: PhantomData<fn() -> T>,
}

impl<T> Clone for Memo<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Memo<T> {}

type Reckon = Box<dyn Fn(Option<&Shared>) -> Shared + Send + Sync>;

impl<T: Value + PartialEq> Memo<T> {
    /// Reckons from what the last value was, where there was one.
    pub(crate) fn new(reckon: impl Fn(Option<&T>) -> T + Send + Sync + 'static) -> Self {
        Self {
            inner: erased(Box::new(move |last| {
                let last = last.and_then(|last| last.value.downcast_ref());
                Shared::compared(reckon(last))
            })),
            holds: PhantomData,
        }
    }
}

fn erased(reckon: Reckon) -> ui::Memo<Shared> {
    ui::Memo::new(reckon)
}

impl<T: Value> Memo<T> {
    /// The value; whoever reads is told of changes.
    pub(crate) fn read(self) -> Ref<T> {
        self.inner.get().typed()
    }

    /// The value, for once.
    pub(crate) fn read_untracked(self) -> Ref<T> {
        self.inner.get_untracked().typed()
    }
}

impl<T: Value + Clone> Memo<T> {
    /// A copy of the value; whoever reads is told of changes.
    pub(crate) fn get(self) -> T {
        T::clone(&self.read())
    }

    /// A copy of the value, for once.
    pub(crate) fn get_untracked(self) -> T {
        T::clone(&self.read_untracked())
    }
}

impl<T: Value + Clone> From<Memo<T>> for Signal<T> {
    fn from(memo: Memo<T>) -> Self {
        Self::derive(move || memo.get())
    }
}

/// Does something once, with the next turn, and again whenever what it reads changes.
pub(crate) fn effect(run: impl FnMut() + 'static) {
    effect_erased(Box::new(run));
}

fn effect_erased(run: Box<dyn FnMut()>) {
    ui::Effect::new(run);
}

/// A value that can be set, and that tells its readers.
pub(crate) struct RwSignal<T> {
    inner: ui::RwSignal<Shared>,
    holds: PhantomData<fn() -> T>,
}

impl<T> Clone for RwSignal<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for RwSignal<T> {}

impl<T: Value> RwSignal<T> {
    /// A signal that holds this.
    pub(crate) fn new(value: T) -> Self {
        Self {
            inner: ui::RwSignal::new(Shared::of(value)),
            holds: PhantomData,
        }
    }

    /// Puts another value in the place of this one, and tells.
    pub(crate) fn set(self, value: T) {
        self.inner.set(Shared::of(value));
    }

    /// The value; whoever reads is told of changes.
    pub(crate) fn read(self) -> Ref<T> {
        self.inner.get().typed()
    }

    /// The value, for once.
    pub(crate) fn read_untracked(self) -> Ref<T> {
        self.inner.get_untracked().typed()
    }
}

impl<T> RwSignal<T> {
    /// Whether what it belonged to is gone.
    pub(crate) fn is_disposed(self) -> bool {
        self.inner.is_disposed()
    }
}

impl<T: Value + Clone> RwSignal<T> {
    /// A copy of the value; whoever reads is told of changes.
    pub(crate) fn get(self) -> T {
        T::clone(&self.read())
    }

    /// A copy of the value, for once.
    pub(crate) fn get_untracked(self) -> T {
        T::clone(&self.read_untracked())
    }

    /// Changes the value where it stands, and tells.
    pub(crate) fn update(self, change: impl FnOnce(&mut T)) {
        let mut change = Some(change);
        update(self.inner, &mut |shared| {
            if let Some(change) = change.take() {
                change(shared.typed_mut());
            }
        });
    }
}

fn update(signal: ui::RwSignal<Shared>, change: &mut dyn FnMut(&mut Shared)) {
    signal.update(change);
}

impl<T: Value + Clone> From<RwSignal<T>> for Signal<T> {
    fn from(signal: RwSignal<T>) -> Self {
        Self::derive(move || signal.get())
    }
}
