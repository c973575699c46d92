//! What goes in, and what to take care of.

use domain::formula::{Caution, Formula};
use domain::sorted;
use leptos::prelude::*;

use crate::reactive::Memo;
use crate::state::oventide;
use crate::widgets::amounts::amounts;
use crate::widgets::cautions::Cautions;
use crate::widgets::live::{self, Rows};
use crate::words;

/// Every component with its amounts.
#[component]
pub(super) fn Parts(formula: Memo<Formula>) -> impl IntoView {
    let app = oventide();
    let scales = Memo::new(move |_| app.settings.read().kitchen.scales);
    let parts = move || {
        let scales = scales.get();
        let formula = formula.read();
        formula
            .components
            .iter()
            .map(|component| {
                view! {
                    <div class="card">
                        <h3>{words::component(&component.name, component.mass())}</h3>
                        {amounts(&formula, component, scales)}
                    </div>
                }
            })
            .rows()
    };
    view! {
        <section class="section" aria-labelledby="amounts">
            <h2 id="amounts">{words::AMOUNTS}</h2>
            {live::part(parts)}
            <p class="soft">{words::AMOUNTS_NOTE}</p>
        </section>
    }
}

/// Allergens, and the dangers that matter before the shopping; the rest stand where the hand is.
#[component]
pub(super) fn Care(formula: Memo<Formula>) -> impl IntoView {
    // Neither depends on how much is made.
    let (allergens, cautions) = {
        let formula = formula.read_untracked();
        (words::allergens(&formula), beforehand(&formula))
    };
    view! {
        <section class="section" aria-labelledby="care">
            <h2 id="care">{words::CARE}</h2>
            <p>{allergens} " " {words::PACKETS}</p>
            <Cautions cautions=cautions />
        </section>
    }
}

fn beforehand(formula: &Formula) -> Vec<Caution> {
    let steps = formula.steps.iter();
    let mut cautions: Vec<Caution> = steps
        .flat_map(|step| &step.cautions)
        .copied()
        .filter(|caution| match caution {
            Caution::RawEgg | Caution::RawFlour | Caution::Perishable | Caution::CoolQuickly => {
                true
            }
            Caution::HotSugar | Caution::HotCustard | Caution::HotOven | Caution::Allergens => {
                false
            }
        })
        .collect();
    sorted::by_key(&mut cautions, |&caution| caution);
    cautions.dedup();
    cautions
}
