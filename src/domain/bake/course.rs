//! How a step goes on, by its length and today's temperatures: what forecasts are read off.

use std::borrow::Cow;

use super::forecast::Reason;
use super::rising::Ferment;
use super::state::State;
use crate::estimate::{Basis, Estimate};
use crate::formula::{Formula, Held, Length, Step, StepId};
use crate::kitchen::Place;
use crate::sorted::Map;
use crate::thermal::cooling::{Chilled, FilmSpread, HORIZON};
use crate::thermal::oven::{self, Baking, Fan, Heat};
use crate::thermal::vessel::{Cooling, Course, Material, Surroundings, Vessel};
use crate::units::{Celsius, Grams, Minutes, Moment, Share, celsius};
use crate::yeast::proof::Proof;
use crate::yeast::thin_air;

/// The middle of a piece as it leaves the oven, at sea level: a little below boiling. High up it is no hotter than
/// [`State::core_wanted`] has it.
const OUT_OF_THE_OVEN: Celsius = celsius(95.0);
/// How much earlier or later an oven is hot than its owner says. ASSUMPTION: judgement.
const HEATING_UP_SPREAD: Share = crate::units::share(0.2);

/// How a step goes on.
pub(super) enum Going<'a> {
    /// For so long.
    Clock(Estimate<Minutes>, Reason),
    /// Until the yeast has done its work.
    Rises(Proof),
    /// Until something is cold.
    Cools(HotBody<'a>),
}

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
    /// How a step goes on that starts at `start`; for `warming_since` see
    /// [`State::length_if_warming_since`].
    pub(super) fn going(
        &self,
        step: &Step,
        start: Moment,
        warming_since: Option<Moment>,
    ) -> Going<'_> {
        match &step.length {
            Length::Hands(range) | Length::Wait(range) => Going::Clock(*range, Reason::Formula),
            Length::Ferment {
                reference_minutes,
                held,
                from_fridge,
                ..
            } => {
                let range = thin_air::sooner(reference_minutes, self.kitchen.altitude);
                let ferment = Ferment::new(&range, *held, *from_fridge);
                Going::Rises(self.proof(step, ferment, start, warming_since))
            }
            Length::Chill {
                from, to, cooling, ..
            } => {
                let around = self.around_filling(step, *cooling, Held::Bowl);
                let hot = self.hot_body(step, *from, *to, around);
                Going::Cools(self.poured_out(step, start, hot))
            }
            Length::Cool { to } => {
                let out = self.core_wanted(OUT_OF_THE_OVEN);
                Going::Cools(self.hot_body(step, out, *to, self.air()))
            }
            Length::Bake {
                oven,
                range,
                core,
                piece,
                form,
                load,
            } => {
                let (formula, kitchen) = (&self.formula, &self.kitchen);
                let window = oven::bake_window(range, *piece, formula.oven_piece());
                let baking = self.baking(*core);
                let written = oven::Written {
                    form: form.unwrap_or(baking.form),
                    load: *load,
                    conventional: *oven,
                };
                let today = oven::Today {
                    load: formula.oven_load(),
                    fan: kitchen.oven.fan(),
                    off: kitchen.oven_spread(),
                };
                let length = oven::window_in(&window, &baking, written, today);
                Going::Clock(length, Reason::Oven)
            }
            Length::OvenHeats { .. } => {
                let likely = self.kitchen.oven_heats_in;
                let off = likely * HEATING_UP_SPREAD.get();
                let length = Estimate::new(likely - off, likely, likely + off, Basis::Formula);
                Going::Clock(length, Reason::Oven)
            }
        }
    }

    fn hot_body(
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
    fn poured_out<'a>(&'a self, step: &Step, start: Moment, mut hot: HotBody<'a>) -> HotBody<'a> {
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

    /// What bakes until its middle has a temperature.
    fn baking(&self, core: Celsius) -> Baking {
        Baking {
            piece: self.formula.oven_piece(),
            form: self.formula.pieces.form,
            dough: self.formula.reference,
            core,
            altitude: self.kitchen.altitude,
        }
    }

    /// How the middle of a piece warms in an oven that without its fan would have a temperature.
    pub(super) fn baking_course(
        &self,
        oven: Celsius,
        core: Celsius,
        start: Moment,
        likely: Minutes,
    ) -> Course {
        let fan = self.kitchen.oven.fan();
        let air = match fan {
            Fan::Off => oven,
            Fan::On => oven::with_fan(oven),
        };
        oven::oven_course(&self.baking(core), Heat { air, fan }, start, likely)
    }

    /// The temperature to look for in the middle of what bakes, in a kitchen at this height.
    #[must_use]
    pub fn core_wanted(&self, core: Celsius) -> Celsius {
        oven::core_target(core, self.kitchen.altitude)
    }

    /// What a step chills, and how, as it is now: what [`remedies`](crate::thermal::cooling::remedies)
    /// asks. `None` for other steps.
    #[must_use]
    pub fn chills(&self, step: &Step, now: Moment) -> Option<Chilled> {
        let Length::Chill {
            from,
            depth,
            cooling,
            ..
        } = step.length
        else {
            return None;
        };
        let (filling, mass) = filling(&self.formula, step);
        let place = self.place_of(step.id)?;
        let held = self.held_of(step.id)?;
        let around = self.around_filling(step, cooling, held).at(now);
        let cooling = match place {
            Place::Kitchen | Place::Warm(_) => Cooling::Kitchen,
            Place::Fridge => Cooling::Fridge,
            Place::Water(_) => Cooling::IceBath,
        };
        Some(Chilled {
            from,
            filling,
            mass,
            depth,
            held,
            cooling,
            around,
            off: self.doubt(place).off,
        })
    }

    /// The kitchen's air over time.
    #[must_use]
    pub fn air(&self) -> Surroundings {
        let air = over_time(&self.air, self.kitchen.air);
        air.doubted(self.doubt(Place::Kitchen))
    }
}

fn over_time(readings: &[(Moment, Celsius)], else_always: Celsius) -> Surroundings {
    let mut readings = readings.iter();
    let first = readings.next().map_or(else_always, |&(_, first)| first);
    readings.fold(Surroundings::constant(first), |around, &(at, to)| {
        around.changed(at, to)
    })
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
fn filling(formula: &Formula, step: &Step) -> (Material, Grams) {
    let half_way = match step.length {
        Length::Chill { from, to, .. } => from + (to - from) * 0.5,
        _ => formula.reference,
    };
    let component = formula.component_of(step);
    component.map_or((Material::CUSTARD, Grams::MIN), |component| {
        (component.material(half_way), component.mass())
    })
}
