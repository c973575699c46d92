//! More of the yeast in a dough that isn't mixed yet, or less.

use super::{Lever, Search};
use crate::bake::{Bake, Intent, State, decide};
use crate::formula::{Formula, Length};
use crate::schedule::plan::ways::trial::LeftOff;
use crate::units::{Minutes, minutes};
use crate::yeast::dose::{LEAST_DOSE, MOST_DOSE};

/// How many times the yeast, to see whether that helps: from a quarter more, of which a rise shows a little more than
/// its window leaves open, to the most with which its times can be reckoned ([`MOST_DOSE`]).
///
/// ASSUMPTION: judgement, how finely.
const MORE_YEAST: [f64; 4] = [1.25, 1.5, 2.0, 2.5];
/// The same for less of it, to what is more than [`LEAST_DOSE`] on any scales.
///
/// ASSUMPTION: judgement, how finely.
const LESS_YEAST: [f64; 3] = [0.75, 0.5, 0.3];

impl Search<'_> {
    /// The least change of the yeast that does it, or the one with which least is amiss.
    pub(super) async fn yeast(&mut self, bake: usize, formula: &Formula) -> Result<(), LeftOff> {
        let scales = self.bakes[bake].state().kitchen.scales;
        let before = self.ways.len();
        let less = if self.wants_delay() {
            &LESS_YEAST[..]
        } else {
            &[]
        };
        for &times in MORE_YEAST.iter().chain(less) {
            let other = formula.with_yeast(times, Some(&scales));
            if other == *formula || !is_known(self.bakes[bake], &other) {
                continue;
            }
            let intent = Intent::Refit(Box::new(other));
            let mut after = self.bakes[bake].clone();
            let Ok(entries) = decide(&after, intent.clone(), self.trials.now) else {
                continue;
            };
            after.append(entries);
            let trial = self.with(bake, after.state().clone()).await?;
            let rises = formula.steps.iter();
            let rises = rises.filter(|step| matches!(step.length, Length::Ferment { .. }));
            let longest = rises
                .filter_map(|step| trial.step(bake, step.id))
                .map(|rise| rise.end - rise.start)
                .fold(minutes(0.0), Minutes::max);
            let lever = Lever::Yeast { bake, times };
            self.offer(bake, &trial, lever, None, longest, vec![(bake, intent)]);
            // No more than does it.
            if trial.is_kept() && self.ways.len() > before {
                break;
            }
        }
        self.keep_best(before);
        Ok(())
    }
}

/// Whether times can be reckoned with that much yeast. It is held against what the bake was started with, or one way
/// taken after the other would make a dough of yeast.
fn is_known(bake: &Bake, other: &Formula) -> bool {
    let share = |formula: &Formula| formula.percent_of_flour(formula.fresh_yeast());
    let Some(first) = State::fold(&bake.log()[..1]) else {
        return false;
    };
    let times = share(other).get() / share(&first.formula).get();
    (LEAST_DOSE..=MOST_DOSE).contains(&times)
}
