//! Something hot, and what cools it: a filling in its dish, or a baked piece.

use std::borrow::Cow;

use super::state::State;
use crate::estimate::{Basis, Estimate};
use crate::formula::{Formula, Held, Length, Step, StepId};
use crate::sorted::Map;
use crate::thermal::cooling::{FilmSpread, HORIZON};
use crate::thermal::vessel::{Course, Material, Surroundings, Vessel};
use crate::units::{Celsius, Grams, Moment};

/// Something hot, and what cools it.
pub(super) struct HotBody<'a> {
    body: Cow<'a, FilmSpread>,
    from: Estimate<Celsius>,
    /// When it was so warm; none for what is so as its step begins.
    since: Option<Moment>,
    /// What it was poured from.
    was: Option<Box<Self>>,
    /// What a thermometer last showed before it was poured on.
    read: Option<(Moment, Celsius)>,
    /// How cold its middle must be.
    pub(super) to: Celsius,
    /// What is around it.
    pub(super) around: Surroundings,
}

impl HotBody<'_> {
    /// When its middle comes to a temperature.
    pub(super) fn window(
        &self,
        start: Moment,
        to: Celsius,
        around: &Surroundings,
    ) -> Estimate<Moment> {
        let start = self.begins(start);
        self.body.window_from(self.from, to, around, start)
    }

    pub(super) fn likely_course(&self, start: Moment, around: &Surroundings) -> Course {
        let (start, from) = (self.begins(start), self.from.likely());
        self.body.likely().course(start, from, around)
    }

    pub(super) fn likely_end(&self, start: Moment) -> Moment {
        let cold = self.likely_course(start, &self.around);
        cold.when_core_reaches(self.to, HORIZON)
            .unwrap_or(start + HORIZON)
    }

    /// From when on it is as it is, in a step that began at `start`.
    pub(super) fn begins(&self, start: Moment) -> Moment {
        self.since.unwrap_or(start)
    }

    /// How it cooled in what it was poured from, each course from its moment on.
    pub(super) fn before(&self, start: Moment) -> Vec<(Moment, Course)> {
        let Some(was) = &self.was else {
            return Vec::new();
        };
        let course = was.likely_course(start, &was.around);
        let found = was
            .read
            .map(|(at, core)| (at, course.through(at, core, 1.0)));
        let mut ways = was.before(start);
        ways.push((was.begins(start), course));
        ways.extend(found);
        ways
    }
}

impl State {
    pub(super) fn hot_body(
        &self,
        step: &Step,
        from: Celsius,
        to: Celsius,
        around: Surroundings,
    ) -> HotBody<'_> {
        HotBody {
            body: self.body_of(step),
            from: Estimate::exact(from, Basis::Model),
            since: None,
            was: None,
            read: None,
            to,
            around,
        }
    }

    /// A filling in whatever the baker has poured it into since it began to cool.
    pub(super) fn poured_out<'a>(
        &'a self,
        step: &Step,
        start: Moment,
        mut hot: HotBody<'a>,
    ) -> HotBody<'a> {
        let Length::Chill { cooling, .. } = step.length else {
            return hot;
        };
        for poured in self.poured(step) {
            let begun = hot.begins(start);
            let at = poured.at.max(begun);
            let read =
                self.cores.iter().rev().find(|reading| {
                    reading.of == step.id && reading.at >= begun && reading.at <= at
                });
            let read = read.map(|reading| (reading.at, reading.temperature));
            let from = hot.body.poured_at(at, hot.from, &hot.around, begun, read);
            hot = HotBody {
                body: Cow::Owned(body(&self.formula, step, poured.what)),
                from,
                since: Some(at),
                to: hot.to,
                around: self.around_filling(step, cooling, poured.what),
                was: Some(Box::new(HotBody { read, ..hot })),
                read: None,
            };
        }
        hot
    }

    fn body_of(&self, step: &Step) -> Cow<'_, FilmSpread> {
        match self.body(step.id) {
            Some(reckoned) => Cow::Borrowed(reckoned),
            // A step of another formula.
            None => Cow::Owned(body(&self.formula, step, Held::Bowl)),
        }
    }
}

/// Everything that a formula chills or lets cool: it follows from the formula alone.
pub(super) fn bodies(formula: &Formula) -> Map<StepId, FilmSpread> {
    let steps = formula.steps.iter();
    let cools = |step: &&Step| matches!(step.length, Length::Chill { .. } | Length::Cool { .. });
    steps
        .filter(cools)
        .map(|step| (step.id, body(formula, step, Held::Bowl)))
        .collect()
}

/// What a step chills, in its dish or something else, or a baked piece.
fn body(formula: &Formula, step: &Step, held: Held) -> FilmSpread {
    let vessel = match step.length {
        Length::Chill { depth, cooling, .. } => {
            let (filling, mass) = filling(formula, step);
            Vessel::filling_held(held, filling, mass, depth, cooling)
        }
        _ => formula.pieces.form.cooling(formula.oven_piece()),
    };
    FilmSpread::of(vessel)
}

/// What a step chills, as it is half-way between hot and cold, and how much of it.
pub(super) fn filling(formula: &Formula, step: &Step) -> (Material, Grams) {
    let half_way = match step.length {
        Length::Chill { from, to, .. } => from + (to - from) * 0.5,
        _ => formula.reference,
    };
    let component = formula.component_of(step);
    component.map_or((Material::CUSTARD, Grams::MIN), |component| {
        (component.material(half_way), component.mass())
    })
}
