//! Giving the focus back to what had it before a dialog opened.
//!
//! A browser does so by itself as a dialog closes, and lays the whole page out for that, at once. What the press that
//! closed it was about changes the page a moment later, and it is laid out again; that took a third of such a press.
//! So a dialog opens with the focus nowhere, and what had it gets it back once the page is laid out for its next frame.

use std::cell::RefCell;

use wasm_bindgen::JsCast as _;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, HtmlElement, ResizeObserver};

use crate::events::document;
use crate::js;

thread_local! {
    // What is still to get it back, and what waits for the layout: a dialog that opens meanwhile takes that over.
    static DUE: RefCell<Option<(HtmlElement, ResizeObserver)>> = const { RefCell::new(None) };
}

/// What had the focus.
pub struct Left(Option<HtmlElement>);

/// Takes the focus from whatever has it.
#[must_use = "who took it gives it back"]
pub fn leave() -> Left {
    let active = document().active_element();
    let active: Option<HtmlElement> = active.and_then(|active| active.dyn_into().ok());
    if let Some(active) = &active {
        // It fails for nothing that can have it.
        let _ = active.blur();
    }
    Left(due().or(active))
}

impl Left {
    /// Gives it back with the next frame, unless something else has it by then.
    pub fn give_back(self) {
        let Some(focused) = self.0 else { return };
        // An observer is called for the first time after the next layout, and never for what isn't drawn.
        let laid_out = Closure::once_into_js(|| {
            if let Some(focused) = due().filter(|_| is_nowhere()) {
                focus(&focused);
            }
        });
        if let Ok(observer) = ResizeObserver::new(laid_out.unchecked_ref()) {
            observer.observe(&focused);
            drop(due());
            DUE.set(Some((focused, observer)));
        }
    }
}

fn due() -> Option<HtmlElement> {
    let (focused, observer) = DUE.take()?;
    observer.disconnect();
    Some(focused)
}

/// Gives the focus to something without scrolling there.
pub(crate) fn focus(part: &Element) {
    let quietly = js::object(&[("preventScroll", true.into())]);
    js::ignore(js::call(part.as_ref(), "focus", &[quietly]));
}

/// Whether nothing has the focus that is shown.
fn is_nowhere() -> bool {
    let Some(active) = document().active_element() else {
        return true;
    };
    let is_closed = active.closest("dialog:not([open])");
    active.local_name() == "body" || matches!(is_closed, Ok(Some(_)))
}
