//! The same reforecast for a browser: `specs/quality/budgets.spec.js` compiles it as the app is compiled, and times it
//! on the imitated phone.
//!
//! Whoever runs it calls `main` again and again. The first call bakes, and every further one takes the next of
//! [`TAKEN_UP`](checks::reforecast::TAKEN_UP) up and reforecasts it once, the first after the last.

use std::sync::Mutex;

use checks::baker::Point;
use checks::reforecast::{reforecast, taken_up, with_news};

static POINTS: Mutex<(usize, Vec<Point>)> = Mutex::new((0, Vec::new()));

fn main() {
    let mut points = POINTS.lock().expect("nothing else runs");
    let (next, points) = &mut *points;
    if points.is_empty() {
        *points = taken_up();
        return;
    }
    let point = &points[*next % points.len()];
    *next += 1;
    reforecast(&with_news(point), point.now);
}
