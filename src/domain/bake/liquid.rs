//! How warm the liquid of a dough should be in a bake under way: its preferment is as warm as somebody
//! read, or as its vessel and the places where it stood have made it since.
//!
//! What is open of it (the reading or the formula's hope, the lag, the places) is moved one by one
//! to its ninetieth percentile, and added in quadrature. Once its rise has ended it stands in the kitchen, and
//! while it goes on the dough is mixed when it likely ends.
//!
//! Left out: what held it before it was poured.

use super::state::State;
use crate::formula::ComponentId;
use crate::thermal::liquid::LiquidQuestion;
use crate::thermal::vessel::{Spot, Surroundings};
use crate::units::{Celsius, CelsiusDelta, Moment};
use crate::yeast::proof::LAG_SPREAD;

impl State {
    /// What the temperature of a component's liquid depends on now, or `None` when it
    /// has no target or no liquid whose temperature the baker chooses.
    #[must_use]
    pub fn liquid_question(&self, component: ComponentId, now: Moment) -> Option<LiquidQuestion> {
        let warmth = |preferment| self.preferment_at(preferment, now);
        self.formula
            .liquid_question_with(component, &self.kitchen, &warmth)
    }

    /// How warm a preferment is when it is mixed in; none that isn't begun.
    fn preferment_at(
        &self,
        preferment: ComponentId,
        now: Moment,
    ) -> Option<(Celsius, CelsiusDelta)> {
        let mut newest_first = self.formula.steps.iter().rev();
        let (step, held) = newest_first.find_map(|step| {
            let begun = self.progress(step.id).open_since.is_some();
            let held = self.held_of(step.id)?;
            (step.component == preferment && begun).then_some((step, held))
        })?;
        let ends = self.forecast(step.id, now);
        let at = ends.map_or(now, |ends| ends.window.likely().max(now));
        let vessel = self.dough_vessel(step, held);
        let around = self.around_dough(step, at, held);
        let (since, dough, off, _) = self.last_known(step, at, None);
        let comes_to = |dough: Celsius, lag: f64, around: &Surroundings| {
            let course = vessel.for_mean(lag).course(since, dough, around);
            course.mean_at(at)
        };
        let likely = comes_to(dough, 1.0, &around);
        let mut squares = 0.0;
        let mut open = |other: Celsius| squares += (other - likely).get().powi(2);
        open(comes_to(dough + off, 1.0, &around));
        open(comes_to(dough, LAG_SPREAD, &around));
        for spot in Spot::ALL {
            let mut spots = [0.0; 3];
            spots[spot as usize] = 1.0;
            open(comes_to(dough, 1.0, &around.shifted(&spots)));
        }
        Some((likely, CelsiusDelta::clamped(squares.sqrt())))
    }
}
