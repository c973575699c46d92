//! How a step goes on, by its length and today's temperatures: what forecasts are read off.

use super::forecast::Reason;
use super::hot_body::{HotBody, filling};
use super::oven::heats;
use super::rising::Ferment;
use super::state::State;
use crate::estimate::{Basis, Estimate};
use crate::formula::{Held, Length, Step};
use crate::kitchen::Place;
use crate::thermal::cooling::Chilled;
use crate::thermal::oven::{self, Baking, Fan, Heat};
use crate::thermal::vessel::{Cooling, Course, Surroundings};
use crate::units::{Celsius, Minutes, Moment, Share, celsius};
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
            Length::OvenHeats { oven } => {
                let (cold, air) = (self.kitchen.oven_heats_in, self.kitchen.air);
                let mut before = step.after.iter();
                let was = before.find_map(|link| self.progress(link.step).oven_was);
                let likely = was.map_or(cold, |was| heats(was, *oven, air, cold));
                let off = likely * HEATING_UP_SPREAD.get();
                let length = Estimate::new(likely - off, likely, likely + off, Basis::Formula);
                Going::Clock(length, Reason::Oven)
            }
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
