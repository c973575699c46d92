//! Everything that the running bakes take: to buy, to fetch and to set out.

use domain::bake::{Bake, BakeId, State};
use domain::food::FoodKind;
use domain::formula::gather::{Bought, Kit, Shelf, allergens, eggs, gather, kit};
use domain::formula::{Caution, Formula, StepKind};
use domain::kitchen::Scales;
use domain::schedule::plan::in_use;
use leptos::prelude::*;

use crate::reactive::{Memo, RwSignal};
use crate::route::Route;
use crate::state::plan::{running_bakes, running_states};
use crate::state::{Oventide, Planned, oventide, tick};
use crate::widgets::cautions::Cautions;
use crate::widgets::choices::Choices;
use crate::widgets::fresh_id;
use crate::widgets::live::{self, Rows};
use crate::widgets::presses::Presses;
use crate::widgets::print::{MadeAt, PrintButton};
use crate::words;

/// The whole list, in words.
#[derive(Debug, Clone, PartialEq)]
struct List {
    made: String,
    note: Option<&'static str>,
    /// Whether some bakes are gathered for and some aren't.
    can_choose: bool,
    allergens: Vec<String>,
    cautions: Vec<Caution>,
    groups: Vec<Group>,
    /// The way to the Bench of each bake, and what it is called.
    benches: Vec<(String, String)>,
}

#[derive(Debug, Clone, PartialEq)]
struct Group {
    heading: &'static str,
    lines: Vec<Line>,
    note: Option<String>,
}

#[derive(Debug, Clone, PartialEq)]
struct Line {
    ticks: Vec<String>,
    name: String,
    uses: String,
    amount: String,
}

/// Everything that the running bakes take.
#[component]
pub(crate) fn GatherPage() -> impl IntoView {
    let app = oventide();
    let all = RwSignal::new(false);
    let list = Memo::new(move |_| list(&app.bakes.read(), app.plan.read().as_ref(), all.get()));
    let page = move || match list.get() {
        Some(list) => whole(app, list, all),
        None => view! {
            <p>{words::GATHER_NOTHING}</p>
            <a class="button" href=Route::Formulas.href()>
                {words::ALL_FORMULAS}
            </a>
        }
        .into_any(),
    };
    view! {
        <header class="page-head">
            <h1 tabindex="-1">{words::way(&Route::Gather)}</h1>
            <MadeAt />
        </header>
        {live::part(page)}
    }
}

fn whole(app: Oventide, list: List, all: RwSignal<bool>) -> AnyView {
    let no_print = RwSignal::new(false);
    let choose = list.can_choose.then(|| {
        view! {
            <Choices
                legend=words::GATHER_FOR
                options=words::GATHER_WHICH.map(str::to_owned).to_vec()
                chosen=Signal::derive(move || Some(usize::from(all.get())))
                on_choose=move |place| all.set(place == 1)
            />
        }
    });
    let lines = list
        .allergens
        .into_iter()
        .map(|line| view! { <li>{line}</li> });
    let groups = list.groups.into_iter().map(|group| of_group(app, group));
    let benches = list.benches.into_iter().map(|(href, text)| {
        view! {
            <a class="button" href=href>
                {text}
            </a>
        }
    });
    let failed = move || {
        let failed = no_print.get();
        failed
            .then(|| view! { <p class="answer">{words::NO_PRINT}</p> })
            .into_any()
    };
    view! {
        <p>{list.made}</p>
        {list.note.map(|note| view! { <p class="soft">{note}</p> })}
        <p>{live::text(move || leave_in_fridge(app))}</p>
        {choose}
        <section class="section" aria-labelledby="gather-allergens">
            <h2 id="gather-allergens">{words::GATHER_ALLERGENS}</h2>
            <ul class="lines">{lines.rows()}</ul>
            <p>{words::PACKETS}</p>
            <Cautions cautions=list.cautions />
        </section>
        {groups.rows()}
        <section class="section no-print">
            <p class="soft">{words::GATHER_TICKS}</p>
            <div class="row">
                <PrintButton failed=no_print />
                {benches.rows()}
            </div>
            <div role="status">{live::part(failed)}</div>
        </section>
    }
    .into_any()
}

fn of_group(app: Oventide, group: Group) -> AnyView {
    let id = fresh_id("gather");
    let named = id.clone();
    let lines = group.lines.into_iter().map(|line| of_line(app, line));
    let note = group.note.map(|note| view! { <p class="soft">{note}</p> });
    view! {
        <section class="section" aria-labelledby=named>
            <h2 id=id>{group.heading}</h2>
            <ul class="marks">{lines.rows()}</ul>
            {note}
        </section>
    }
    .into_any()
}

fn of_line(app: Oventide, line: Line) -> AnyView {
    let presses = Presses::new();
    // What marks a tick is drawn, and would be read out as a part of the name.
    let label = words::gather_label(&line.name, &line.amount, &line.uses);
    let ticks = line.ticks.clone();
    let is_on = live::flag(move || app.is_ticked_off(&ticks));
    let ticks = line.ticks;
    let turn = move |_| {
        if presses.is_new() {
            let on = !untrack(|| app.is_ticked_off(&ticks));
            app.tick_off(ticks.clone(), on);
        }
    };
    view! {
        <li>
            <button class="mark gather-line" type="button" aria-pressed=is_on aria-label=label on:click=turn>
                <span>{line.name}</span>
                <span class="digits">{line.amount}</span>
                <span class="soft">{line.uses}</span>
            </button>
        </li>
    }
    .into_any()
}

/// The list for all running bakes, or for those that aren't gathered for, where there are any.
fn list(bakes: &[Bake], plan: Option<&Planned>, all: bool) -> Option<List> {
    let running: Vec<&Bake> = running_bakes(bakes).collect();
    let waiting: Vec<&Bake> = running
        .iter()
        .filter(|bake| !is_gathered(bake.state()))
        .copied()
        .collect();
    let can_choose = !waiting.is_empty() && waiting.len() < running.len();
    let note = waiting.is_empty().then_some(words::GATHER_ALL_DONE);
    let chosen = if all || waiting.is_empty() {
        running
    } else {
        waiting
    };
    let ids: Vec<&BakeId> = chosen.iter().map(|bake| &bake.id).collect();
    let states: Vec<&State> = chosen.iter().map(|bake| bake.state()).collect();
    let scales = states.first()?.kitchen.scales;
    let all = running_states(bakes);
    let names = words::distinct_names(&all).into_iter().zip(&all);
    // As they are called everywhere else, also where the list isn't of all.
    let names =
        names.filter(|(_, state)| states.iter().any(|chosen| std::ptr::eq(*chosen, **state)));
    let names: Vec<String> = names.map(|(name, _)| name).collect();
    let names = (names.len() > 1).then_some(names.as_slice());
    let each: Vec<(&Formula, Scales)> = states
        .iter()
        .map(|state| (&state.formula, state.kitchen.scales))
        .collect();
    let foods = gather(&each);
    let mut groups: Vec<Group> = Shelf::ALL
        .into_iter()
        .map(|shelf| {
            let of = |line: &&Bought| Shelf::of(line.food) == shelf;
            let lines = foods.iter().filter(of).map(|line| Line {
                ticks: ticks(&ids, line.uses.iter().map(|one| one.formula), line.food.key),
                name: line.name().to_owned(),
                uses: words::gather_uses(line, names, &scales),
                amount: words::amount(line.mass, &scales),
            });
            let eggs = match shelf {
                Shelf::Chilled => eggs(&foods),
                _ => 0,
            };
            Group {
                heading: words::shelf(shelf),
                lines: lines.collect(),
                note: (eggs > 0).then(|| words::eggs_in_all(eggs)),
            }
        })
        .collect();
    let formulas: Vec<&Formula> = states.iter().map(|state| &state.formula).collect();
    let placed = states.iter().zip(&ids);
    let placed = placed.map(|(state, id)| (*state, plan.and_then(|plan| plan.place(id))));
    let placed: Vec<(&State, Option<usize>)> = placed.collect();
    let mut tools = kit(&formulas);
    for kit in tools.iter_mut().filter(|kit| kit.tool.hangs_on_times()) {
        let count = in_use(kit.tool, &placed, plan.map(|plan| &plan.timetable.plan));
        // One needs no number.
        kit.count = if count > 1 { count } else { 0 };
    }
    let tools = tools.into_iter().map(|kit: Kit| Line {
        ticks: ticks(
            &ids,
            kit.uses.iter().map(|&(place, _)| place),
            kit.tool.key(),
        ),
        name: words::tool(&kit),
        uses: words::tool_uses(&kit, &formulas, names),
        amount: String::new(),
    });
    groups.push(Group {
        heading: words::GATHER_KIT,
        lines: tools.collect(),
        note: Some(words::GATHER_KIT_NOTE.to_owned()),
    });
    groups.retain(|group| !group.lines.is_empty());
    let allergens = allergens(&foods).into_iter().map(|(allergen, places)| {
        let names: Vec<&str> = places.iter().map(|&place| foods[place].name()).collect();
        words::allergen_line(allergen, &names)
    });
    let benches = ids.iter().enumerate().map(|(place, id)| {
        let name = names.and_then(|names| names.get(place));
        let text = name.map_or_else(
            || words::TO_BENCH.to_owned(),
            |name| words::to_bench_of(name),
        );
        (Route::Bench(Some((*id).clone())).href(), text)
    });
    Some(List {
        benches: benches.collect(),
        made: words::gather_for(&states),
        note,
        can_choose,
        allergens: allergens.collect(),
        cautions: cautions(&foods),
        groups,
    })
}

/// What is at hand in the fridge until it is weighed.
fn leave_in_fridge(app: Oventide) -> String {
    let views = app.views.read();
    let each: Vec<String> = views
        .iter()
        .filter_map(|view| view.leave_in_fridge())
        .collect();
    words::plan::leave_all(&each)
}

fn is_gathered(state: &State) -> bool {
    let mut steps = state.formula.steps.iter();
    let left =
        steps.any(|step| step.kind == StepKind::Gather && state.progress(step.id).ended.is_none());
    !left
}

/// A thing is ticked off for every bake that takes it: one that comes later asks for it anew.
fn ticks(ids: &[&BakeId], of: impl Iterator<Item = usize>, thing: &str) -> Vec<String> {
    let mut ticks: Vec<String> = of.map(|place| tick(ids[place], thing)).collect();
    ticks.dedup();
    ticks
}

fn cautions(foods: &[Bought]) -> Vec<Caution> {
    let kinds = [
        (FoodKind::Flour, Caution::RawFlour),
        (FoodKind::Egg, Caution::RawEgg),
    ];
    let holds = |kind| foods.iter().any(|line| line.food.kind == kind);
    let found = kinds.into_iter().filter(|&(kind, _)| holds(kind));
    found.map(|(_, caution)| caution).collect()
}
