//! The page on paper.

use crate::events::window;
use crate::js;

/// Opens the browser's own window for printing; whether there is one. To be called from a tap.
pub fn print() -> bool {
    js::call(window().as_ref(), "print", &[]).is_ok()
}
