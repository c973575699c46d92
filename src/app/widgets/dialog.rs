//! A dialog of the browser's own, which keeps keys and screen readers inside while it is open.

use leptos::html;
use leptos::prelude::*;

/// Opens a dialog as a modal as long as it is wanted, and closes it.
pub(crate) fn keep(dialog: NodeRef<html::Dialog>, wanted: Signal<bool>) {
    Effect::new(move || {
        let wanted = wanted.get();
        let Some(dialog) = dialog.get() else {
            return;
        };
        if wanted && !dialog.open() {
            show(&dialog);
        } else if !wanted && dialog.open() {
            dialog.close();
        }
    });
}

/// Opens a dialog as a modal.
pub(crate) fn show(dialog: &leptos::web_sys::HtmlDialogElement) {
    // It fails only when the dialog has left the page, and then there is nothing to show.
    drop(dialog.show_modal());
}
