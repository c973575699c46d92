//! What goes on by itself, drawn.

use domain::bake::{BakeId, Reason};
use domain::formula::StepId;
use domain::units::Celsius;
use leptos::prelude::*;

use super::Shown;
use crate::reactive::RwSignal;
use crate::state::{Oventide, in_kitchen};
use crate::widgets::course::rise::Rising;
use crate::widgets::course::{cooling, figure, rise};
use crate::words;

/// Draws a step of a bake, as long as it rises or cools.
pub(super) fn of(app: Oventide, of: RwSignal<Option<(BakeId, StepId)>>) -> AnyView {
    figure(move |degrees| {
        let of = of.read();
        let found = of.as_ref().and_then(|(bake, step)| {
            let view = app.view(bake)?;
            let (state, now) = (view.bake.state(), view.at);
            if let Some(cooled) = state.cooled(*step, now) {
                return Some(cooling::picture(&cooled, now, degrees));
            }
            let rising = Rising {
                now,
                drawn: vec![state.drawn(*step, now)?],
                said: String::new(),
            };
            Some(rise::picture(&rising, degrees))
        });
        found.unwrap_or_default()
    })
}

/// Draws what rises in the bake that is shown, as it is and as it would be in a kitchen of another
/// temperature, and says which is which.
pub(super) fn in_another_kitchen(
    shown: Shown,
    open: RwSignal<bool>,
    air: RwSignal<Celsius>,
) -> AnyView {
    let rising = move |degrees| {
        // While it closes nobody looks any more, and a change that is being made has enough to do.
        let view = open.get_untracked().then(|| shown.view.read())?;
        let (bake, now, air) = (&view.bake, view.at, air.get());
        let state = bake.state();
        let mut running = view.running.iter();
        let step = running.find(|running| matches!(running.reason, Reason::Yeast { .. }))?;
        let is = state.drawn(step.step, now)?;
        let as_it_is = is.window.likely();
        let mut drawn = vec![is];
        let mut would_be = None;
        if air != state.kitchen.air
            && let Some(bake) = in_kitchen(bake, air, now)
            && let Some(would) = bake.state().drawn(step.step, now)
        {
            would_be = Some(would.window.likely());
            drawn.insert(0, would);
        }
        let solid = would_be.map_or(state.kitchen.air, |_| air);
        Some(Rising {
            now,
            drawn,
            said: words::kitchens(as_it_is, solid, would_be, degrees),
        })
    };
    figure(move |degrees| {
        let rising = rising(degrees);
        rising.map_or_else(String::new, |rising| rise::picture(&rising, degrees))
    })
}
