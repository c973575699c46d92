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

#[derive(Deserialize)]
pub(crate) struct Calm {
    bake: File,
    weights: Vec<u16>,
}

impl Calm {
    pub(crate) fn answer(&self) -> Value {
        let Named { problem, tasks, .. } = named(&self.bake);
        let Outcome::Optimal(best) = solve(&problem, None, &mut || true) else {
            return json!({ "end": null });
        };
        let calm = least_waiting(&problem, &best, &self.weights, &mut || true);
        let starts = tasks.iter().zip(&calm.schedule.starts);
        let starts: Value = starts
            .map(|(id, &start)| (id.clone(), Value::from(start)))
            .collect();
        json!({ "end": best.end, "waiting": calm.waiting, "starts": starts })
    }
}
