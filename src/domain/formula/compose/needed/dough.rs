//! The dough's lane, from mixing to cooling.

mod between;

use crate::formula::compose::Task;
use crate::formula::compose::place::first_of;
use crate::formula::manuscript::Manuscript;
use crate::formula::{ComponentId, ComponentKind, StepKind};

/// The lane with what it needs.
pub(super) fn complete(
    manuscript: &Manuscript,
    dough: ComponentId,
    told: Vec<Task>,
    oven_is_told: bool,
) -> Vec<Task> {
    let mut lane = Lane { tasks: told, dough };
    if lane.tasks.is_empty() {
        lane.usual();
    }
    lane.join_bakes();
    lane.mix();
    lane.shape();
    if manuscript.pieces.count != Some(1) {
        lane.divide();
    }
    lane.fill(manuscript);
    lane.bake(oven_is_told);
    lane.wash(manuscript);
    lane.prepare();
    lane.take_temperature();
    lane.cool(manuscript);
    lane.tasks
}

/// Turns the oven on behind the last rise before the first bake, where there is a bake.
pub(super) fn put_oven_on(lane: &mut Vec<Task>, dough: ComponentId, mut on: Task, mut heats: Task) {
    let Some(bake) = lane.iter().position(|task| task.kind == StepKind::Bake) else {
        return;
    };
    let rises = |task: &Task| task.component == dough && goes_on(task.kind);
    let place = lane[..bake]
        .iter()
        .rposition(rises)
        .map_or(0, |last| last + 1);
    // The bake's own temperature counts before the one at which the oven was turned on.
    let told = on.said.heat.or(heats.said.heat);
    if lane[bake].said.heat.is_none() {
        lane[bake].said.heat = told;
        lane[bake].assumed.heat = told.is_none_or(|heat| heat.is_assumed);
    }
    heats.said.heat = told.or(lane[bake].said.heat);
    heats.assumed.heat = heats.said.heat.is_none_or(|heat| heat.is_assumed);
    on.said.heat = None;
    lane.splice(place..place, [on, heats]);
}

fn goes_on(kind: StepKind) -> bool {
    matches!(
        kind,
        StepKind::Bulk | StepKind::FinalProof | StepKind::Retard | StepKind::BenchRest
    )
}

struct Lane {
    tasks: Vec<Task>,
    dough: ComponentId,
}

impl Lane {
    fn first(&self, is: impl Fn(StepKind) -> bool) -> Option<usize> {
        self.tasks.iter().position(|task| is(task.kind))
    }

    fn has(&self, kind: StepKind) -> bool {
        self.first(|other| other == kind).is_some()
    }

    fn first_bake(&self) -> Option<usize> {
        self.first(|kind| kind == StepKind::Bake)
    }

    fn add(&mut self, place: usize, kind: StepKind) {
        self.tasks.insert(place, Task::added(kind, self.dough));
    }

    /// What is done with any yeast dough.
    fn usual(&mut self) {
        let kinds = [
            StepKind::Mix,
            StepKind::Knead,
            StepKind::Bulk,
            StepKind::Shape,
            StepKind::FinalProof,
        ];
        self.tasks = kinds.map(|kind| Task::added(kind, self.dough)).to_vec();
    }

    /// "10 minutes at 240, then 30 at 200" is one time in the oven, begun at the first heat.
    fn join_bakes(&mut self) {
        let mut joined: Vec<Task> = Vec::with_capacity(self.tasks.len());
        for task in std::mem::take(&mut self.tasks) {
            match joined.last_mut() {
                Some(last) if last.kind == StepKind::Bake && task.kind == StepKind::Bake => {
                    super::say_also(last, &task);
                    last.said.heat = last.said.heat.or(task.said.heat);
                    last.assumed.heat &= task.assumed.heat;
                    last.assumed.time &= task.assumed.time;
                    last.said.minutes = match (last.said.minutes, task.said.minutes) {
                        (Some(one), Some(two)) => Some((one.0 + two.0, one.1 + two.1)),
                        (one, two) => one.or(two),
                    };
                }
                _ => joined.push(task),
            }
        }
        self.tasks = joined;
    }

    /// A dough is mixed before anything else becomes of it.
    fn mix(&mut self) {
        let begins = |kind| !matches!(kind, StepKind::Cook | StepKind::Prepare);
        let first = self.first(begins).unwrap_or(self.tasks.len());
        let later = |kind| begins(kind) && !matches!(kind, StepKind::Mix | StepKind::BenchRest);
        let later = self.first(later).unwrap_or(self.tasks.len());
        if self.tasks[..later]
            .iter()
            .all(|task| task.kind != StepKind::Mix)
        {
            self.add(first, StepKind::Mix);
        }
    }

    /// What rises for the last time was shaped, though a text may say both in one breath.
    fn shape(&mut self) {
        let Some(proof) = self.first(|kind| kind == StepKind::FinalProof) else {
            return;
        };
        let rises = |task: &Task| matches!(task.kind, StepKind::Bulk | StepKind::Retard);
        let risen = self.tasks[..proof].iter().rposition(rises);
        let mut between = self.tasks[risen.map_or(0, |risen| risen + 1)..proof].iter();
        let shapes = |task: &Task| {
            matches!(
                task.kind,
                StepKind::Divide | StepKind::PreShape | StepKind::Shape | StepKind::Fill
            )
        };
        if !between.any(shapes) {
            self.add(proof, StepKind::Shape);
        }
    }

    /// A text that fills a sheet of dough cuts it afterwards; any other that shapes pieces has cut them before.
    fn divide(&mut self) {
        let takes_pieces =
            |kind| matches!(kind, StepKind::PreShape | StepKind::Shape | StepKind::Fill);
        if let Some(place) = self.first(takes_pieces)
            && !self.has(StepKind::Divide)
            && !self.has(StepKind::Fill)
        {
            self.add(place, StepKind::Divide);
        }
    }

    fn fill(&mut self, manuscript: &Manuscript) {
        let filling = first_of(&manuscript.components, ComponentKind::Filling);
        let Some(filling) = filling.filter(|_| !self.has(StepKind::Fill)) else {
            return;
        };
        let raw = &self.tasks[..self.first_bake().unwrap_or(self.tasks.len())];
        let shapes = |task: &Task| {
            matches!(
                task.kind,
                StepKind::Divide | StepKind::PreShape | StepKind::Shape
            )
        };
        let proof = |task: &Task| task.kind == StepKind::FinalProof;
        let shaped = raw.iter().rposition(shapes).map(|place| place + 1);
        let place = shaped.or_else(|| raw.iter().position(proof));
        let place = place.unwrap_or(raw.len());
        self.tasks
            .insert(place, Task::added(StepKind::Fill, filling));
    }

    /// Bread is baked, unless the dough is cooked on the hob once it has been worked and no oven is spoken of.
    fn bake(&mut self, oven_is_told: bool) {
        let worked =
            self.first(|kind| !matches!(kind, StepKind::Cook | StepKind::Prepare | StepKind::Mix));
        let tail = &self.tasks[worked.unwrap_or(self.tasks.len())..];
        let is_cooked = tail.iter().any(|task| task.kind == StepKind::Cook);
        if self.has(StepKind::Bake) || (is_cooked && !oven_is_told) {
            return;
        }
        let ends = |task: &Task| matches!(task.kind, StepKind::Cool | StepKind::Finish);
        let place = self
            .tasks
            .iter()
            .rposition(|task| !ends(task))
            .map_or(0, |last| last + 1);
        self.add(place, StepKind::Bake);
    }

    fn wash(&mut self, manuscript: &Manuscript) {
        for wash in &manuscript.components {
            let is_brushed = |task: &Task| task.kind == StepKind::Wash && task.component == wash.id;
            if wash.kind != ComponentKind::Wash || self.tasks.iter().any(is_brushed) {
                continue;
            }
            let Some(bake) = self.first_bake() else {
                continue;
            };
            let before = bake
                .checked_sub(1)
                .filter(|&before| self.is_preparing(before));
            let place = before.unwrap_or(bake);
            self.tasks
                .insert(place, Task::added(StepKind::Wash, wash.id));
        }
    }

    /// Bread cools, and what a text doesn't put on while it is hot goes on then.
    fn cool(&mut self, manuscript: &Manuscript) {
        let Some(bake) = self
            .tasks
            .iter()
            .rposition(|task| task.kind == StepKind::Bake)
        else {
            return;
        };
        let is = |kind: StepKind| move |task: &Task| task.kind == kind;
        let baked = &self.tasks[bake..];
        if !baked.iter().any(is(StepKind::Cool)) {
            let finished = baked.iter().rposition(is(StepKind::Finish));
            // Behind the one that takes it out of the oven.
            let place = bake + finished.unwrap_or(1) + 1;
            self.add(place.min(self.tasks.len()), StepKind::Cool);
        }
        let outside = [ComponentKind::Glaze, ComponentKind::Coating];
        let put_on = outside
            .into_iter()
            .find_map(|kind| first_of(&manuscript.components, kind));
        if let Some(component) = put_on.filter(|_| !self.has(StepKind::Finish)) {
            self.tasks.push(Task::added(StepKind::Finish, component));
        }
    }
}
