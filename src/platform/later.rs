//! A value that a callback gives later, to be awaited.

use std::cell::RefCell;
use std::future::Future;
use std::pin::Pin;
use std::rc::Rc;
use std::task::{Context, Poll, Waker};

struct Shared<T> {
    value: Option<T>,
    given: bool,
    waiting: Option<Waker>,
}

/// Gives the value. Clones share the one chance to give it.
pub(crate) struct Giver<T>(Rc<RefCell<Shared<T>>>);

/// The value to come.
pub(crate) struct Later<T>(Rc<RefCell<Shared<T>>>);

/// A value to come, and who gives it.
pub(crate) fn later<T>() -> (Giver<T>, Later<T>) {
    let shared = Rc::new(RefCell::new(Shared {
        value: None,
        given: false,
        waiting: None,
    }));
    (Giver(Rc::clone(&shared)), Later(shared))
}

impl<T> Clone for Giver<T> {
    fn clone(&self) -> Self {
        Self(Rc::clone(&self.0))
    }
}

impl<T> Giver<T> {
    /// Gives the value, or gets it back when another was given before.
    pub(crate) fn give(&self, value: T) -> Option<T> {
        let mut shared = self.0.borrow_mut();
        if std::mem::replace(&mut shared.given, true) {
            return Some(value);
        }
        shared.value = Some(value);
        let waiting = shared.waiting.take();
        drop(shared);
        if let Some(waiting) = waiting {
            waiting.wake();
        }
        None
    }
}

impl<T> Future for Later<T> {
    type Output = T;

    fn poll(self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<T> {
        let mut shared = self.0.borrow_mut();
        if let Some(value) = shared.value.take() {
            return Poll::Ready(value);
        }
        shared.waiting = Some(context.waker().clone());
        Poll::Pending
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_first_value_given_arrives() {
        let (giver, mut later) = later();
        let mut context = Context::from_waker(Waker::noop());
        assert_eq!(Pin::new(&mut later).poll(&mut context), Poll::Pending);
        assert_eq!(giver.clone().give(1), None);
        assert_eq!(giver.give(2), Some(2));
        assert_eq!(Pin::new(&mut later).poll(&mut context), Poll::Ready(1));
    }
}
