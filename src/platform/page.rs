//! The page: its address, its title, whether it is seen, and coming back to it.
//!
//! Listeners here live as long as the page.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use wasm_bindgen::JsCast as _;
use wasm_bindgen::closure::Closure;
use wasm_bindgen_futures::spawn_local;
use web_sys::{
    Event, EventTarget, HtmlElement, ScrollIntoViewOptions, ScrollLogicalPosition, VisibilityState,
};

use crate::events::{Listening, document, listen, navigator, window};
use crate::focus::focus;
use crate::js;

/// Coming back raises several events at once; those this close together count as one.
const AT_ONCE_MS: f64 = 100.0;

/// Calls back whenever the baker comes back to the page, however that shows.
pub fn on_return(returned: impl FnMut() + 'static) {
    let returned = Rc::new(RefCell::new(returned));
    let last_ms = Rc::new(Cell::new(f64::NEG_INFINITY));
    let window: EventTarget = window().into();
    let document: EventTarget = document().into();
    let signs = [
        (&document, "visibilitychange"),
        (&document, "resume"),
        (&window, "pageshow"),
        (&window, "focus"),
    ];
    for (target, event) in signs {
        let returned = Rc::clone(&returned);
        let last_ms = Rc::clone(&last_ms);
        let heard = move |_: Event| {
            let now_ms = js_sys::Date::now();
            let again = (now_ms - last_ms.get()).abs() < AT_ONCE_MS;
            if is_visible() && !again {
                last_ms.set(now_ms);
                again_if_free(&returned);
            }
        };
        listen(target, event, heard).for_ever();
    }
}

/// Calls back on every touch and key, from within it: some capabilities open only there.
///
/// It goes on after the first, because a phone call or a locked screen can take
/// away what the first touch opened.
pub fn on_gesture(touched: impl FnMut() + 'static) {
    let touched = Rc::new(RefCell::new(touched));
    for event in ["pointerup", "touchend", "keydown"] {
        let touched = Rc::clone(&touched);
        listen(&window(), event, move |_| again_if_free(&touched)).for_ever();
    }
}

/// Calls back, unless it is being called already: focus moves within callbacks.
fn again_if_free(callback: &RefCell<impl FnMut()>) {
    if let Ok(mut callback) = callback.try_borrow_mut() {
        callback();
    }
}

/// Calls back whenever the page goes out of sight, perhaps for good, until this is dropped.
#[must_use = "it is heard no more when dropped"]
pub struct Hiding {
    _heard: Listening,
}

/// Calls back whenever the page goes out of sight: nothing later is sure to run.
pub fn on_hide(mut hidden: impl FnMut() + 'static) -> Hiding {
    let heard = move |_: Event| {
        if !is_visible() {
            hidden();
        }
    };
    Hiding {
        _heard: listen(&document(), "visibilitychange", heard),
    }
}

/// Whether the page can be seen.
#[must_use]
pub fn is_visible() -> bool {
    document().visibility_state() == VisibilityState::Visible
}

/// The part of the address from `#` on; empty when there is none.
#[must_use]
pub fn current_hash() -> String {
    window().location().hash().unwrap_or_default()
}

/// Changes the part of the address from `#` on, and keeps where the baker was in the history.
pub fn set_hash(hash: &str) {
    // It fails only in a page that is on its way out.
    let _ = window().location().set_hash(hash);
}

/// Calls back when the part of the address behind `#` changes.
pub fn on_hash_change(mut changed: impl FnMut() + 'static) {
    listen(&window(), "hashchange", move |_| changed()).for_ever();
}

/// Whether the app was opened from the home screen.
#[must_use]
pub fn is_standalone() -> bool {
    let ios = js::get(navigator().as_ref(), "standalone");
    matches("(display-mode: standalone)") || ios.and_then(|yes| yes.as_bool()) == Some(true)
}

/// Whether this phone is set to show less motion.
pub(crate) fn wants_less_motion() -> bool {
    matches("(prefers-reduced-motion: reduce)")
}

/// Whether a media query holds.
fn matches(query: &str) -> bool {
    let answer = window().match_media(query);
    answer.ok().flatten().is_some_and(|answer| answer.matches())
}

/// The browser's language, as a tag: "en-GB".
#[must_use]
pub fn language() -> String {
    navigator().language().unwrap_or_else(|| "en".to_owned())
}

/// Loads the page again.
pub fn reload() {
    // It fails only in a page that is on its way out.
    let _ = window().location().reload();
}

/// Takes away the first paint, which stood there before any code had come.
pub fn remove_shell() {
    if let Some(shell) = document().get_element_by_id("shell") {
        shell.remove();
    }
}

/// Names the page.
pub fn set_title(title: &str) {
    document().set_title(title);
}

/// Goes to the top of the page, and of what scrolls within it.
pub fn scroll_to_top() {
    window().scroll_to_with_x_and_y(0.0, 0.0);
    if let Ok(Some(part)) = document().query_selector("[data-scrolls]") {
        part.set_scroll_top(0);
    }
}

/// Brings a part of the page into sight with the next frame, moving no more than that needs.
///
/// Not at once: the browser would have to lay the page out now, and then again for the frame.
pub fn show(part: &'static str) {
    let show = Closure::once_into_js(move || {
        if let Ok(Some(part)) = document().query_selector(part) {
            let nearest = ScrollIntoViewOptions::new();
            nearest.set_block(ScrollLogicalPosition::Nearest);
            part.scroll_into_view_with_scroll_into_view_options(&nearest);
        }
    });
    // Without a frame to come nobody looks.
    drop(window().request_animation_frame(show.unchecked_ref()));
}

/// Gives the focus to the page's heading, so that keys and screen readers go on from there.
pub fn focus_heading() {
    if focus_on("main h1[tabindex]") {
        // The browser puts what has the focus in the middle, and what stands over it out of sight.
        scroll_to_top();
    }
}

/// Gives the focus to a part of the page, if there is such a one.
pub fn focus_on(part: &'static str) -> bool {
    let part = document().query_selector(part).ok().flatten();
    let part = part.and_then(|part| part.dyn_into::<HtmlElement>().ok());
    // What can't have the focus leaves it where it is.
    part.is_some_and(|part| part.focus().is_ok())
}

/// Gives the focus back to what has it now, once what is done in this turn has taken it away.
///
/// A browser takes it from whatever is moved to another place among its neighbours, and the baker with keys would stand
/// at the top of the page. Nothing is scrolled by it: plans move by themselves, too.
pub fn keep_focus() {
    let Some(focused) = document().active_element() else {
        return;
    };
    spawn_local(async move {
        let is_lost = document().active_element() == document().body().map(Into::into);
        if is_lost && focused.is_connected() {
            focus(&focused);
        }
    });
}
