//! The screens.
//!
//! `state` holds what the screens show and is the only caller of `platform`'s
//! storage; `pages` and `widgets` draw; every word shown comes from `words`.

#![allow(
    unreachable_pub,
    reason = "`#[component]` writes `pub` into what it makes, and nothing here is a library"
)]

mod app;
mod pages;
mod reactive;
mod route;
mod state;
mod widgets;
mod words;

fn main() {
    leptos::mount::mount_to_body(app::App);
    platform::page::remove_shell();
}
