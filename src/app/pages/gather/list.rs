//! Everything that bakes take, in words.

use domain::bake::{Bake, BakeId, State};
use domain::food::FoodKind;
use domain::formula::gather::{Bought, Kit, Shelf, allergens, eggs, gather, kit};
use domain::formula::{Caution, Formula, StepKind};
use domain::kitchen::Scales;
use domain::schedule::plan::in_use;

use crate::route::Route;
use crate::state::plan::{running_bakes, running_states};
use crate::state::{Planned, tick};
use crate::words;

/// The whole list, in words.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct List {
    pub(super) made: String,
    pub(super) note: Option<&'static str>,
    /// Whether some bakes are gathered for and some aren't.
    pub(super) can_choose: bool,
    pub(super) allergens: Vec<String>,
    pub(super) cautions: Vec<Caution>,
    pub(super) groups: Vec<Group>,
    /// The way to the Bench of each bake, and what it is called.
    pub(super) benches: Vec<(String, String)>,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) struct Group {
    pub(super) heading: &'static str,
    pub(super) lines: Vec<Line>,
    pub(super) note: Option<String>,
}

#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    pub(super) ticks: Vec<String>,
    pub(super) name: String,
    pub(super) uses: String,
    pub(super) amount: String,
}

/// Those that the list is of.
struct Chosen<'a> {
    ids: Vec<&'a BakeId>,
    states: Vec<&'a State>,
    /// What they are called, where there are several.
    names: Option<Vec<String>>,
    scales: Scales,
}

impl<'a> Chosen<'a> {
    /// Nothing where there are none of them.
    fn of(chosen: &[&'a Bake], bakes: &[Bake]) -> Option<Self> {
        let states: Vec<&State> = chosen.iter().map(|bake| bake.state()).collect();
        let all = running_states(bakes);
        let names = words::distinct_names(&all).into_iter().zip(&all);
        // As they are called everywhere else, also where the list isn't of all.
        let names =
            names.filter(|(_, state)| states.iter().any(|chosen| std::ptr::eq(*chosen, **state)));
        let names: Vec<String> = names.map(|(name, _)| name).collect();
        Some(Self {
            ids: chosen.iter().map(|bake| &bake.id).collect(),
            scales: states.first()?.kitchen.scales,
            states,
            names: (names.len() > 1).then_some(names),
        })
    }

    fn names(&self) -> Option<&[String]> {
        self.names.as_deref()
    }

    /// What is to be had of one shelf.
    fn on_shelf(&self, shelf: Shelf, foods: &[Bought]) -> Group {
        let of = |line: &&Bought| Shelf::of(line.food) == shelf;
        let lines = foods.iter().filter(of).map(|line| Line {
            ticks: self.ticks(line.uses.iter().map(|one| one.formula), line.food.key),
            name: line.name().to_owned(),
            uses: words::gather_uses(line, self.names(), &self.scales),
            amount: words::amount(line.mass, &self.scales),
        });
        let eggs = match shelf {
            Shelf::Chilled => eggs(foods),
            _ => 0,
        };
        Group {
            heading: words::shelf(shelf),
            lines: lines.collect(),
            note: (eggs > 0).then(|| words::eggs_in_all(eggs)),
        }
    }

    /// What is to be set out: what hangs on times in as many as a plan has in use at once.
    fn kit(&self, plan: Option<&Planned>) -> Group {
        let formulas: Vec<&Formula> = self.states.iter().map(|state| &state.formula).collect();
        let placed = self.states.iter().zip(&self.ids);
        let placed = placed.map(|(state, id)| (*state, plan.and_then(|plan| plan.place(id))));
        let placed: Vec<(&State, Option<usize>)> = placed.collect();
        let mut tools = kit(&formulas);
        for kit in tools.iter_mut().filter(|kit| kit.tool.hangs_on_times()) {
            let count = in_use(kit.tool, &placed, plan.map(|plan| &plan.timetable.plan));
            // One needs no number.
            kit.count = if count > 1 { count } else { 0 };
        }
        let tools = tools.into_iter().map(|kit: Kit| Line {
            ticks: self.ticks(kit.uses.iter().map(|&(place, _)| place), kit.tool.key()),
            name: words::tool(&kit),
            uses: words::tool_uses(&kit, &formulas, self.names()),
            amount: String::new(),
        });
        Group {
            heading: words::GATHER_KIT,
            lines: tools.collect(),
            note: Some(words::GATHER_KIT_NOTE.to_owned()),
        }
    }

    /// A thing is ticked off for every bake that takes it: one that comes later asks for it anew.
    fn ticks(&self, of: impl Iterator<Item = usize>, thing: &str) -> Vec<String> {
        let mut ticks: Vec<String> = of.map(|place| tick(self.ids[place], thing)).collect();
        ticks.dedup();
        ticks
    }

    fn benches(&self) -> Vec<(String, String)> {
        let benches = self.ids.iter().enumerate().map(|(place, id)| {
            let name = self.names().and_then(|names| names.get(place));
            let text = name.map_or_else(
                || words::TO_BENCH.to_owned(),
                |name| words::to_bench_of(name),
            );
            (Route::Bench(Some((*id).clone())).href(), text)
        });
        benches.collect()
    }
}

/// The list for all running bakes, or for those that aren't gathered for, where there are any.
pub(super) fn list(bakes: &[Bake], plan: Option<&Planned>, of_all: bool) -> Option<List> {
    let running: Vec<&Bake> = running_bakes(bakes).collect();
    let waiting = running.iter().filter(|bake| !is_gathered(bake.state()));
    let waiting: Vec<&Bake> = waiting.copied().collect();
    let can_choose = !waiting.is_empty() && waiting.len() < running.len();
    let note = waiting.is_empty().then_some(words::GATHER_ALL_DONE);
    let chosen = if of_all || waiting.is_empty() {
        running
    } else {
        waiting
    };
    let chosen = Chosen::of(&chosen, bakes)?;
    let each = chosen.states.iter();
    let each = each.map(|state| (&state.formula, state.kitchen.scales));
    let foods = gather(&each.collect::<Vec<(&Formula, Scales)>>());
    let shelves = Shelf::ALL.into_iter();
    let mut groups: Vec<Group> = shelves
        .map(|shelf| chosen.on_shelf(shelf, &foods))
        .collect();
    groups.push(chosen.kit(plan));
    groups.retain(|group| !group.lines.is_empty());
    let allergens = allergens(&foods).into_iter().map(|(allergen, places)| {
        let names: Vec<&str> = places.iter().map(|&place| foods[place].name()).collect();
        words::allergen_line(allergen, &names)
    });
    Some(List {
        benches: chosen.benches(),
        made: words::gather_for(&chosen.states),
        note,
        can_choose,
        allergens: allergens.collect(),
        cautions: cautions(&foods),
        groups,
    })
}

fn is_gathered(state: &State) -> bool {
    let mut steps = state.formula.steps.iter();
    let left =
        steps.any(|step| step.kind == StepKind::Gather && state.progress(step.id).ended.is_none());
    !left
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
