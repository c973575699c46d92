//! Questions about plans: the end, and the waiting.

use checks::plan::{File, Named};
use domain::schedule::solve::{Outcome, least_waiting, solve};
use serde::Deserialize;
use serde_json::{Value, json};

fn named(file: &File) -> Named {
    file.named()
        .expect("run.py draws bakes that speak of what is there")
}

pub(crate) fn plan(file: &File) -> Value {
    named(file).answer(&mut || true)
}

/// A plan with little patience.
#[derive(Deserialize)]
pub(crate) struct Hasty {
    bake: File,
    turns: u32,
}

impl Hasty {
    pub(crate) fn answer(&self) -> Value {
        let mut left = self.turns;
        named(&self.bake).answer(&mut || {
            left = left.saturating_sub(1);
            left > 0
        })
    }
}

#[derive(Deserialize)]
pub(crate) struct Calm {
    bake: File,
    weights: Vec<u16>,
}

impl Calm {
    pub(crate) fn answer(&self) -> Value {
        let Named { problem, tasks, .. } = named(&self.bake);
        let best = match solve(&problem, None, &mut || true) {
            Outcome::Optimal(best) => best,
            Outcome::Infeasible => return json!({ "status": "infeasible", "end": null }),
            Outcome::BestFound { .. } => return json!({ "status": "best-found", "end": null }),
        };
        let calm = least_waiting(&problem, &best, &self.weights, &mut || true);
        let starts = tasks.iter().zip(&calm.schedule.starts);
        let starts: Value = starts
            .map(|(id, &start)| (id.clone(), Value::from(start)))
            .collect();
        json!({
            "status": if calm.is_proven { "optimal" } else { "best-found" },
            "end": best.end,
            "waiting": calm.waiting,
            "starts": starts,
        })
    }
}
