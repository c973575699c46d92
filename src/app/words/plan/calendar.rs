//! The plan as entries of a calendar, and what became of them.

use domain::bake::{BakeId, State};
use domain::estimate::Estimate;
use domain::schedule::plan::{Call, Plan, RetardPart, What, agenda};
use domain::units::Moment;
use platform::calendar::Event;
use platform::clock::time_of_day;
use platform::files::SaveOutcome;

use super::items::moves;
use crate::state::Planned;
use crate::state::plan::told::{of_table, window};

/// The heading of what the plan can be taken along as.
pub(crate) const PAPERS: &str = "Take the plan with you";
/// Puts the plan in the phone's calendar.
pub(crate) const TO_CALENDAR: &str = "Put it in the calendar";
/// What a calendar is good for.
pub(crate) const CALENDAR_NOTE: &str = "As a backup reminder only: a calendar may be late or silent, and doesn't know when the plan moves. Keep Oventide open. When the plan moves, put it in again and delete any old entries.";
/// What a printed plan can't know.
pub(crate) const PAPER_NOTE: &str =
    "Its times are those of that moment: they move with the kitchen, the dough and your hands.";
/// The name of the calendar's file.
pub(crate) const CALENDAR_FILE: &str = "oventide-plan.ics";

/// What becomes of a fold in a calendar.
const FOLD: &str = "Fold the dough";

/// An entry for each moment from now on at which somebody has to be there, and one for each table.
pub(crate) fn calendar_events(planned: &Planned, bakes: &[&State], now: Moment) -> Vec<Event> {
    let plan = &planned.timetable.plan;
    let told = Told {
        plan,
        bakes,
        ids: &planned.bakes,
        names: crate::words::distinct_names(bakes),
        made: format!("Planned at {}. {BACKUP}", time_of_day(planned.at)),
    };
    let calls = agenda(plan, bakes, now);
    let mut events: Vec<Event> = calls.iter().filter_map(|call| told.event(call)).collect();
    let margins = &planned.timetable.margins;
    let all: Vec<usize> = (0..bakes.len()).collect();
    let tables = margins.iter().filter_map(|margin| {
        let of = of_table(margin.table, bakes);
        told.table(margin.table, &of, &margin.ready, now)
    });
    events.extend(tables);
    if margins.is_empty() {
        events.extend(told.table(plan.end.likely(), &all, &plan.end, now));
    }
    events
}

/// The last line of every note.
const BACKUP: &str = "A backup reminder: a calendar may be late or silent. Keep Oventide open.";

struct Told<'a> {
    plan: &'a Plan,
    bakes: &'a [&'a State],
    ids: &'a [BakeId],
    names: Vec<String>,
    made: String,
}

impl Told<'_> {
    fn event(&self, call: &Call) -> Option<Event> {
        let first = *call.looks.first().or(call.work.first())?;
        let looks: Vec<String> = call.looks.iter().map(|&it| self.title(it)).collect();
        let work: Vec<String> = call.work.iter().map(|&it| self.title(it)).collect();
        let mut title = match looks.as_slice() {
            [] => String::new(),
            looks => format!("{}: look", looks.join(" and ")),
        };
        if let Some(what) = in_short(&work) {
            let before = if !title.is_empty() {
                ", then "
            } else if self.begins(call) {
                "Begin: "
            } else {
                ""
            };
            title += before;
            title += &what;
        }
        let looks = call.looks.iter().map(|&place| self.look(place));
        let work = call.work.iter().map(|&place| self.work(place));
        let mut note: Vec<String> = looks.chain(work).collect();
        note.push(self.made.clone());
        Some(Event {
            id: self.id(call.bake, self.plan.items[first].what)?,
            start: call.at,
            end: call.until,
            title: format!("{title} ({})", self.names.get(call.bake)?),
            note: note.join("\n"),
        })
    }

    /// The table of some of them.
    fn table(
        &self,
        at: Moment,
        of: &[usize],
        ready: &Estimate<Moment>,
        now: Moment,
    ) -> Option<Event> {
        let whose = self.ids.get(*of.first()?)?;
        let window = crate::words::table_window(ready, now);
        let names: Vec<&str> = of.iter().map(|&bake| &*self.names[bake]).collect();
        (at >= now).then(|| Event {
            id: format!("{}-table@oventide", whose.0),
            start: at,
            end: at,
            title: format!("On the table: {}", names.join(", ")),
            note: format!("{window}\n{}", self.made),
        })
    }

    /// Whether a bake that hasn't begun begins with it.
    fn begins(&self, call: &Call) -> bool {
        let first = self.plan.first_of(call.bake);
        first.is_some_and(|(_, start)| start == call.at)
            && self
                .bakes
                .get(call.bake)
                .is_some_and(|state| !state.has_begun())
    }

    /// The same whenever the same thing is planned again, so that a calendar can replace its entry.
    fn id(&self, bake: usize, what: What) -> Option<String> {
        let whose = &self.ids.get(bake)?.0;
        Some(match what {
            What::Step(_, step) => format!("{whose}-{}@oventide", step.0),
            What::Fold(_, step, nth) => {
                // The plan counts those that are still to come.
                let made = self.bakes.get(bake)?.progress(step).folds.len();
                format!("{whose}-{}-fold-{}@oventide", step.0, made + nth)
            }
            What::Retard(_, step, part) => {
                let way = match part {
                    RetardPart::Out => "out",
                    RetardPart::In => "in",
                    // Nobody is called for it.
                    RetardPart::Stands => return None,
                };
                format!("{whose}-{}-{way}@oventide", step.0)
            }
            What::Kept(..) | What::Away => return None,
        })
    }

    fn title(&self, place: usize) -> String {
        match self.plan.items[place].what {
            What::Step(bake, step) => {
                let state = self.bakes.get(bake);
                let title = state.map_or("", |state| state.formula.title(step));
                title.to_owned()
            }
            What::Fold(..) => FOLD.to_owned(),
            What::Retard(bake, step, cold) => {
                let state = self.bakes.get(bake);
                state.map_or_else(String::new, |state| moves(state.formula.title(step), cold))
            }
            What::Kept(..) | What::Away => String::new(),
        }
    }

    /// "First rise: 11:20 to 12:05, likely 11:40. Ready when it has doubled."
    fn look(&self, place: usize) -> String {
        let mut line = format!("{}: ", self.title(place));
        let item = &self.plan.items[place];
        line += &match window(item) {
            Some(window) => crate::words::window(&window),
            None => time_of_day(item.end),
        };
        line.push('.');
        if let What::Step(bake, step) = self.plan.items[place].what
            && let Some(step) = self
                .bakes
                .get(bake)
                .and_then(|state| state.formula.step(step))
            && !step.cue.is_empty()
        {
            line.push(' ');
            line += &crate::words::ready_when(&step.cue);
        }
        line
    }

    /// "11:40 Divide: Cut the dough into equal pieces, on the scales."
    fn work(&self, place: usize) -> String {
        let item = &self.plan.items[place];
        let at = time_of_day(item.start);
        let what = match item.what {
            What::Step(bake, step) => {
                let step = self
                    .bakes
                    .get(bake)
                    .and_then(|state| state.formula.step(step));
                step.map_or_else(String::new, |step| {
                    format!("{}: {}", step.title, step.instruction)
                })
            }
            _ => format!("{}.", self.title(place)),
        };
        format!("{at} {what}")
    }
}

/// "Divide", "Divide and Round the pieces", "Gather and 6 more steps".
fn in_short(titles: &[String]) -> Option<String> {
    match titles {
        [] => None,
        [one] => Some(one.clone()),
        [one, other] => Some(format!("{one} and {other}")),
        [first, rest @ ..] => Some(format!("{first} and {} more steps", rest.len())),
    }
}

/// What became of the file; `next` is the first of its entries.
pub(crate) fn calendar_outcome(outcome: &SaveOutcome, next: Option<&Event>) -> String {
    match outcome {
        SaveOutcome::Shared => {
            "The plan was handed over. Where your calendar asks, add all of its entries.".to_owned()
        }
        SaveOutcome::Downloaded => format!(
            "{CALENDAR_FILE} is in your downloads. Open it there with a calendar, add all of its entries, and look whether they remind you."
        ),
        SaveOutcome::Cancelled => "Nothing was put in the calendar.".to_owned(),
        SaveOutcome::Failed(_) => {
            let alarm = next.map_or_else(String::new, |next| {
                let at = time_of_day(next.start);
                format!(
                    " Or set the phone's own alarm for what comes next: {at}, {}.",
                    next.title
                )
            });
            format!("This phone takes no calendar file from here. Print the plan instead.{alarm}")
        }
    }
}
