//! What is done between the steps that texts tell: covering, moving, and taking the dough's temperature.

use super::Lane;
use crate::formula::StepKind;
use crate::formula::compose::Task;
use crate::formula::palette::Preparing;

impl Lane {
    /// Whether a text itself says what is done in between.
    pub(super) fn is_preparing(&self, place: usize) -> bool {
        self.tasks.get(place).is_some_and(|task| {
            let is_told = task.said.kind == Some(StepKind::Prepare);
            is_told && task.kind == StepKind::Prepare && task.component == self.dough
        })
    }

    /// The bowl is covered, the dough put into the fridge, the bread into the oven and taken out.
    pub(super) fn prepare(&mut self) {
        let mut first_rise = true;
        let mut place = 0;
        while place < self.tasks.len() {
            let task = &self.tasks[place];
            let before = match task.kind {
                StepKind::Bulk if first_rise => Some(Preparing::Cover),
                StepKind::Retard => Some(Preparing::IntoFridge),
                StepKind::Bake => Some(Preparing::IntoOven),
                _ => None,
            };
            first_rise &= !matches!(
                task.kind,
                StepKind::Bulk | StepKind::FinalProof | StepKind::Retard
            );
            if let Some(what) = before {
                place += self.put(what, place.checked_sub(1), place);
            }
            if self.tasks[place].kind == StepKind::Bake {
                self.put(Preparing::OutOfOven, Some(place + 1), place + 1);
            }
            place += 1;
        }
    }

    /// Takes what stands at `told` for that, or else adds it at `place`; how many were added.
    fn put(&mut self, what: Preparing, told: Option<usize>, place: usize) -> usize {
        if let Some(told) = told
            && self.is_preparing(told)
            && self.tasks[told].preparing.is_none()
        {
            self.tasks[told].preparing = Some(what);
            return 0;
        }
        let added = Task::added(StepKind::Prepare, self.dough);
        let preparing = Some(what);
        self.tasks.insert(place, Task { preparing, ..added });
        1
    }

    /// The dough's temperature is taken when it was worked last before it rises.
    pub(super) fn take_temperature(&mut self) {
        let rises = |kind| {
            matches!(
                kind,
                StepKind::Bulk | StepKind::FinalProof | StepKind::Retard
            )
        };
        let Some(rise) = self.first(rises) else {
            return;
        };
        let works = |task: &Task| matches!(task.kind, StepKind::Mix | StepKind::Knead);
        let worked = self.tasks[..rise].iter().rposition(works);
        if let Some(worked) = worked.filter(|_| !self.has(StepKind::TakeTemperature)) {
            self.add(worked + 1, StepKind::TakeTemperature);
        }
    }
}
