//! A dialog of the browser's own, which keeps keys and screen readers inside while it is open.

use leptos::html;
use leptos::prelude::*;
use platform::focus::{self, Left};

use crate::reactive::effect;

/// Opens a dialog as a modal as long as it is wanted, and closes it.
pub(crate) fn keep(dialog: NodeRef<html::Dialog>, wanted: Signal<bool>) {
    let mut left: Option<Left> = None;
    effect(move || {
        let wanted = wanted.get();
        let Some(dialog) = dialog.get() else {
            return;
        };
        if wanted && !dialog.open() {
            left = Some(focus::leave());
            show(&dialog);
        } else if !wanted && dialog.open() {
            dialog.close();
        }
        // It closes by itself, too, where a key does that.
        if let Some(left) = left.take_if(|_| !wanted) {
            left.give_back();
        }
    });
}

/// Opens a dialog as a modal.
pub(crate) fn show(dialog: &leptos::web_sys::HtmlDialogElement) {
    // It fails only when the dialog has left the page, and then there is nothing to show.
    drop(dialog.show_modal());
}
