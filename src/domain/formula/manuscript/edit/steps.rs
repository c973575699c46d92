//! Changes of steps. Links are kept as they are but for those of the step that comes, goes or moves.

use super::{Edit, Refused};
use crate::formula::compose::compose;
use crate::formula::compose::weave::Weave;
use crate::formula::manuscript::{Assumed, Line, Manuscript};
use crate::formula::palette::{self, spread};
use crate::formula::{ComponentId, Length, Link, Step, StepId, StepKind};
use crate::units::{Celsius, Minutes};

impl Manuscript {
    pub(super) fn change_step(&mut self, edit: &Edit) -> Result<(), Refused> {
        match edit {
            Edit::AddStep(kind, component, to) => self.add_step(*kind, *component, *to)?,
            Edit::UsualSteps => self.take_usual_steps()?,
            Edit::RemoveStep(id) => {
                self.remove_step(*id)?;
            }
            Edit::MoveStep(id, to) => {
                let moved = self.remove_step(*id)?;
                self.insert(moved, *to);
            }
            Edit::StepKind(id, kind) => self.take_kind(*id, *kind)?,
            Edit::StepComponent(id, component) => {
                self.component_place(*component)?;
                let place = self.step_place(*id)?;
                let mut moved = self.remove_step(*id)?;
                moved.step.component = *component;
                moved.assumed.component = false;
                self.insert(moved, place);
            }
            Edit::Title(id, title) => title.clone_into(&mut self.step_mut(*id)?.step.title),
            Edit::Instruction(id, instruction) => {
                if instruction.split_whitespace().count() > Step::MOST_WORDS {
                    return Err(Refused::TooManyWords);
                }
                instruction.clone_into(&mut self.step_mut(*id)?.step.instruction);
            }
            Edit::Detail(id, detail) => detail.clone_into(&mut self.step_mut(*id)?.step.detail),
            Edit::Cue(id, cue) => cue.clone_into(&mut self.step_mut(*id)?.step.cue),
            Edit::Time(id, least, most) => self.take_time(*id, *least, *most)?,
            Edit::Heat(id, heat) => self.take_heat(*id, *heat)?,
            _ => {}
        }
        Ok(())
    }

    fn step_place(&self, id: StepId) -> Result<usize, Refused> {
        let place = self.steps.iter().position(|line| line.step.id == id);
        place.ok_or(Refused::NoStep)
    }

    fn step_mut(&mut self, id: StepId) -> Result<&mut Line, Refused> {
        let place = self.step_place(id)?;
        Ok(&mut self.steps[place])
    }

    fn usual(&self, kind: StepKind, component: ComponentId) -> Result<Step, Refused> {
        let component = self.component(component).ok_or(Refused::NoComponent)?;
        Ok(palette::step(kind, &self.setting(component)))
    }

    fn add_step(
        &mut self,
        kind: StepKind,
        component: ComponentId,
        to: usize,
    ) -> Result<(), Refused> {
        let mut step = self.usual(kind, component)?;
        let next = self.last_step.0.checked_add(1).ok_or(Refused::Full)?;
        self.last_step = StepId(next);
        step.id = self.last_step;
        let assumed = Assumed {
            time: true,
            heat: true,
            ..Assumed::default()
        };
        self.insert(Line { step, assumed }, to);
        Ok(())
    }

    fn take_usual_steps(&mut self) -> Result<(), Refused> {
        if !self.steps.is_empty() {
            return Err(Refused::HasSteps);
        }
        self.steps = compose(self, &[]).steps;
        let last = self.steps.last().ok_or(Refused::NoDough)?;
        self.last_step = self.last_step.max(last.step.id);
        Ok(())
    }

    /// Takes a step out; what waited for it waits for what it waited for, and no longer than before.
    pub(super) fn remove_step(&mut self, id: StepId) -> Result<Line, Refused> {
        let place = self.step_place(id)?;
        let removed = self.steps.remove(place);
        for line in &mut self.steps {
            let step = &mut line.step;
            if step.ahead_of == Some(id) {
                step.ahead_of = None;
            }
            let before = step.after.len();
            step.after.retain(|link| link.step != id);
            if step.after.len() == before {
                continue;
            }
            for link in &removed.step.after {
                if step.after.iter().all(|other| other.step != link.step) {
                    step.after.push(Link {
                        greatest: None,
                        ..*link
                    });
                }
            }
        }
        self.aim_ovens();
        Ok(removed)
    }

    /// Puts a step at a place of the list, linked as a step there is.
    fn insert(&mut self, line: Line, to: usize) {
        let id = line.step.id;
        let to = to.min(self.steps.len());
        self.steps.insert(to, line);
        let woven = Weave::of(&self.steps, &self.components);
        let own = woven.links(to);
        let ahead = woven.ahead_of(to);
        let later: Vec<Option<Link>> = (0..self.steps.len())
            .map(|place| {
                let mut links = woven.links(place).into_iter();
                links.find(|link| place > to && link.step == id)
            })
            .collect();
        for (line, link) in self.steps.iter_mut().zip(later) {
            let Some(link) = link else {
                continue;
            };
            // It stands between the two now.
            let after = &mut line.step.after;
            after.retain(|other| own.iter().all(|own| own.step != other.step));
            after.push(link);
        }
        let step = &mut self.steps[to].step;
        step.after = own;
        step.ahead_of = ahead;
        self.aim_ovens();
    }

    /// Turning the oven on is timed anew where what it was timed for is gone.
    fn aim_ovens(&mut self) {
        let woven = Weave::of(&self.steps, &self.components);
        let aims: Vec<_> = (0..self.steps.len())
            .map(|place| woven.ahead_of(place))
            .collect();
        for (line, aim) in self.steps.iter_mut().zip(aims) {
            if line.step.kind == StepKind::OvenOn && line.step.ahead_of.is_none() {
                line.step.ahead_of = aim;
            }
        }
    }

    fn take_kind(&mut self, id: StepId, kind: StepKind) -> Result<(), Refused> {
        let place = self.step_place(id)?;
        let usual = self.usual(kind, self.steps[place].step.component)?;
        let mut line = self.remove_step(id)?;
        let said = line.step;
        line.step = Step {
            id,
            instruction: said.instruction,
            detail: said.detail,
            ..usual
        };
        line.assumed = Assumed {
            kind: false,
            time: true,
            heat: true,
            ..line.assumed
        };
        self.insert(line, place);
        Ok(())
    }

    fn take_time(&mut self, id: StepId, least: Minutes, most: Minutes) -> Result<(), Refused> {
        let line = self.step_mut(id)?;
        let told = spread(line.step.kind, least, most);
        match &mut line.step.length {
            Length::Hands(range) | Length::Wait(range) | Length::Bake { range, .. } => {
                *range = told;
            }
            Length::Ferment {
                reference_minutes, ..
            } => *reference_minutes = told,
            Length::Chill { .. } | Length::Cool { .. } | Length::OvenHeats { .. } => {
                return Err(Refused::TimeFollows);
            }
        }
        line.assumed.time = false;
        Ok(())
    }

    fn take_heat(&mut self, id: StepId, heat: Celsius) -> Result<(), Refused> {
        let place = self.step_place(id)?;
        let heated = |line: &Line| {
            matches!(
                line.step.length,
                Length::Bake { .. } | Length::OvenHeats { .. }
            )
        };
        if !heated(&self.steps[place]) {
            return Err(Refused::NoOven);
        }
        let bakes = |line: &Line| matches!(line.step.length, Length::Bake { .. });
        let heating = |line: &Line| matches!(line.step.length, Length::OvenHeats { .. });
        // A bake and its heating are one temperature: the other of the two stands nearest.
        let other = if bakes(&self.steps[place]) {
            self.steps[..place].iter().rposition(heating)
        } else {
            let found = self.steps[place..].iter().position(bakes);
            found.map(|found| place + found)
        };
        for place in [Some(place), other].into_iter().flatten() {
            let line = &mut self.steps[place];
            if let Length::Bake { oven, .. } | Length::OvenHeats { oven } = &mut line.step.length {
                *oven = heat;
                line.assumed.heat = false;
            }
        }
        Ok(())
    }
}
