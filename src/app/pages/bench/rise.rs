//! What rises now, drawn.

use domain::bake::{BakeId, Reason};
use domain::formula::StepId;
use domain::units::Celsius;
use leptos::prelude::*;

use super::Shown;
use crate::reactive::RwSignal;
use crate::state::{Oventide, in_kitchen};
use crate::widgets::rise::{Rising, rise};
use crate::words;

/// Draws a step of a bake, as long as it rises.
pub(super) fn of(app: Oventide, of: RwSignal<Option<(BakeId, StepId)>>) -> AnyView {
    rise(move |_| {
        let of = of.read();
        let (bake, step) = of.as_ref()?;
        let view = app.view(bake)?;
        Some(Rising {
            now: view.at,
            drawn: vec![view.bake.state().drawn(*step, view.at)?],
            said: String::new(),
        })
    })
}

/// Draws what rises in the bake that is shown, as it is and as it would be in a kitchen of another
/// temperature, and says which is which.
pub(super) fn in_another_kitchen(
    shown: Shown,
    open: RwSignal<bool>,
    air: RwSignal<Celsius>,
) -> AnyView {
    rise(move |degrees| {
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
    })
}
