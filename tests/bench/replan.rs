//! A plan redone at an event, for a browser, as `bench/browser.rs` is for a reforecast.
//!
//! The first call of `main` plans, and every further one takes the next of [`REPLANNED`](checks::replan::REPLANNED) and
//! plans it anew once, the first after the last.

use std::sync::Mutex;

use checks::replan::{Replan, replans};

static REPLANS: Mutex<(usize, Vec<Replan>)> = Mutex::new((0, Vec::new()));

fn main() {
    let mut held = REPLANS.lock().expect("nothing else runs");
    let (next, all) = &mut *held;
    if all.is_empty() {
        *all = replans();
        return;
    }
    let replan = &all[*next % all.len()];
    *next += 1;
    replan.redo(&replan.news());
}
