//! Whether a way that was found earlier still does what was said of it.
//!
//! What it asks for isn't all that it takes (who puts a dough into the fridge takes it out again), so it is looked for
//! anew rather than planned from that.

use super::{Lever, Search, Way};
use crate::bake::{Bake, Intent};
use crate::schedule::plan::ways::trial::{LeftOff, Rest};
use crate::units::{Minutes, Moment, minutes};

/// A way still does what was said of it if it leaves so little more amiss: its time was said to be about that.
///
/// ASSUMPTION: judgement.
const AS_SAID: Minutes = minutes(5.0);

/// Whether a way that was found earlier would be found again and leaves no more amiss than was said of it; `None` where
/// the search was left off.
pub async fn still_helps(way: &Way, bakes: &[&Bake], now: Moment, rest: Rest<'_>) -> Option<bool> {
    let passed = |intent: &Intent| matches!(intent, Intent::Pin(_, Some(at)) if *at < now);
    if way.intents.iter().any(|(_, intent)| passed(intent)) {
        return Some(false);
    }
    let mut search = Search::of(bakes, now, rest).await.ok()?;
    search.look_for(way.lever).await.ok()?;
    let same = |found: &&Way| match (found.lever, way.lever) {
        (Lever::Place { air, .. }, Lever::Place { air: was, .. }) => air == was,
        (Lever::Yeast { times, .. }, Lever::Yeast { times: was, .. }) => times == was,
        (
            Lever::Fridge { from, out, .. },
            Lever::Fridge {
                from: was,
                out: was_out,
                ..
            },
        ) => {
            let is_near = |one: Moment, other: Moment| (one - other).get().abs() <= AS_SAID.get();
            let begins = from.zip(was).is_none_or(|(from, was)| is_near(from, was));
            begins && is_near(out, was_out)
        }
        (Lever::DayBefore { component, .. }, Lever::DayBefore { component: was, .. }) => {
            component == was
        }
        _ => false,
    };
    let found = search.ways.iter().find(same);
    Some(found.is_some_and(|found| found.amiss() <= way.amiss() + AS_SAID))
}

impl Search<'_> {
    /// Looks for ways like one that is known.
    async fn look_for(&mut self, lever: Lever) -> Result<(), LeftOff> {
        let (Lever::Place { bake, .. }
        | Lever::Fridge { bake, .. }
        | Lever::Yeast { bake, .. }
        | Lever::DayBefore { bake, .. }) = lever;
        let Some(state) = self.bakes.get(bake).map(|bake| bake.state()) else {
            return Ok(());
        };
        let formula = state.formula.clone();
        match lever {
            Lever::Place { step, .. } | Lever::Fridge { step, .. } => {
                let Some(step) = formula.step(step) else {
                    return Ok(());
                };
                match lever {
                    // Of a stay that begins now less is left by now.
                    Lever::Fridge { from, out, .. } => {
                        let stays = out - from.unwrap_or(self.trials.now);
                        self.fridge_for(bake, step, &[stays.get() / 60.0]).await
                    }
                    _ => self.place(bake, step).await,
                }
            }
            _ if state.has_begun() => Ok(()),
            Lever::Yeast { .. } => self.yeast(bake, &formula).await,
            Lever::DayBefore { .. } => self.day_before(bake, &formula).await,
        }
    }
}
