//! When bakes begin: as it was promised, or else as late as their tables allow.

use super::lead::after_retards;
use super::search::Search;
use super::{Timetable, buffer_of, margins, not_before, table_of, tables, waits_for_table};
use crate::bake::State;
use crate::schedule::plan::{NOTABLE, Plan};
use crate::units::{Minutes, Moment, minutes};

/// A bake that is ready later than it was to be by more than this begins sooner: plans go by whole minutes.
const LATER: Minutes = NOTABLE;
/// One that is ready so much earlier may begin later.
///
/// ASSUMPTION: judgement: less is no reason to call off a beginning that was promised.
pub(super) const EARLIER: Minutes = minutes(15.0);
/// So much of a buffer may be lost to what was promised.
///
/// ASSUMPTION: judgement: buffers are told in steps of as much.
pub(crate) const LESS_BUFFER: Minutes = minutes(5.0);

/// Whether something that is ready so much later than it was to be keeps to what was promised.
fn is_as_ready(later: Minutes) -> bool {
    later < LATER && later > -EARLIER
}

/// When a bake has to begin at the latest, and how much sooner than its table it is ready then.
#[derive(Clone, Copy, Default)]
pub(super) struct Begin {
    pub(super) at: Option<Moment>,
    pub(super) buffer: Option<Minutes>,
}

impl Search<'_> {
    /// Begun when it was promised, if everything is then ready when it was to be; and whether that leaves less to spare before
    /// a time away than was told.
    pub(super) fn as_promised(&mut self, before: &Timetable) -> Option<(Timetable, bool)> {
        let mut at = Vec::new();
        let mut waits = false;
        for (bake, state) in self.bakes.iter().enumerate() {
            let promised = before.begins.get(bake).copied().flatten();
            if waits_for_table(state) {
                waits = true;
                let was = before.known.get(bake)?.as_ref()?;
                // What takes another time by itself isn't ready when it was to be, and needn't be tried.
                let is = self.known(bake);
                let is_as_known = was.asked == is.asked && is_as_ready(is.takes - was.takes);
                at.push(Some(promised.filter(|_| is_as_known)?));
            } else {
                at.push(not_before(state));
            }
        }
        if !waits {
            return None;
        }
        let margins = &before.margins;
        let buffer = |table: Moment| {
            let mut margins = margins.iter();
            Some(margins.find(|margin| margin.table == table)?.buffer)
        };
        let kept = self.begun(&at, &buffer)?;
        let mut bakes = self.bakes.iter().enumerate();
        let stands = bakes.all(|(bake, state)| {
            let (true, Some(table)) = (waits_for_table(state), table_of(state)) else {
                return true;
            };
            let ready = |plan: &Plan| plan.of(bake).map(|outline| outline.table);
            let (Some(was), Some(is)) = (ready(&before.plan), ready(&kept.plan)) else {
                return false;
            };
            let (later, spare) = (is.likely() - was.likely(), table - is.likely());
            // What is ready sooner than the last for its table gains nothing by that.
            let all = |of: &Timetable| of.margin(state).map(|margin| margin.ready.likely());
            let (Some(all_was), Some(all_is)) = (all(before), all(&kept)) else {
                return false;
            };
            let buffer = buffer_of(&is);
            let has_buffer = spare >= buffer - LESS_BUFFER;
            // With its buffer before the table it is late for nothing.
            let is_as_ready = later < LATER && all_is - all_was > -EARLIER;
            let is_as_ready = is_as_ready || (has_buffer && later.get() > 0.0);
            is_as_ready && (has_buffer || later.get() < 0.5)
        });
        let could_begin = |(bake, at): (usize, &Option<Moment>)| {
            waits_for_table(self.bakes[bake]) && at.is_some_and(|at| at > self.now)
        };
        let waits = at.iter().enumerate().any(could_begin);
        let (was, is) = (self.missing(before), self.missing(&kept));
        let could_be_safer = waits && is > LESS_BUFFER && is - was > minutes(0.5);
        stands.then_some((kept, could_be_safer))
    }

    /// Everything as soon as it can be, but nothing before it is to begin.
    pub(super) fn begun(
        &mut self,
        at: &[Option<Moment>],
        buffer: &dyn Fn(Moment) -> Option<Minutes>,
    ) -> Option<Timetable> {
        let ready_by = |state: &&State| {
            let table = table_of(state)?;
            Some(buffer(table).map_or(table, |early| table - early))
        };
        let bakes = self.bakes;
        let ready_by: Vec<_> = bakes.iter().map(ready_by).collect();
        let all: Vec<usize> = (0..bakes.len()).collect();
        let plan = self.soonest(&all, &ready_by, at)?;
        let plan = self.weighed_with_work(plan, &ready_by, at, buffer);
        let known = |(bake, state)| waits_for_table(state).then(|| self.known(bake));
        let waiting = bakes
            .iter()
            .enumerate()
            .map(|(bake, state)| Some(plan.begin_of(bake, state)?.1));
        Some(Timetable {
            margins: margins(bakes, &plan, buffer),
            begins: waiting.collect(),
            ready: all.iter().map(|&bake| Some(plan.of(bake)?.table)).collect(),
            known: bakes.iter().copied().enumerate().map(known).collect(),
            plan,
        })
    }

    /// By bake: when it is kept back until.
    pub(super) fn begins(&mut self) -> Vec<Begin> {
        let mut begins: Vec<Begin> = vec![Begin::default(); self.bakes.len()];
        let waits = |&bake: &usize| waits_for_table(self.bakes[bake]);
        let (waiting, going): (Vec<usize>, Vec<usize>) = (0..self.bakes.len()).partition(waits);
        for &bake in &going {
            begins[bake].at = not_before(self.bakes[bake]);
        }
        let (mut beside, last) = (None, tables(self.bakes).last().copied());
        let (mut goes_on, mut so_far) = (None, Vec::new());
        for table in tables(self.bakes) {
            let of: Vec<usize> = waiting
                .iter()
                .copied()
                .filter(|&bake| table_of(self.bakes[bake]) == Some(table))
                .collect();
            if of.is_empty() {
                continue;
            }
            if beside.is_none() && !going.is_empty() {
                goes_on = self.going(&going);
                beside.clone_from(&goes_on);
            }
            let mut planned = self.begin_for(table, &of, beside.as_ref(), &mut begins);
            let is_second = !so_far.is_empty();
            so_far.extend_from_slice(&of);
            let is_short = planned.as_ref();
            let is_short = is_short.is_some_and(|plan| self.is_short(plan, &of));
            if is_second
                && (is_short || of.iter().any(|&bake| self.gives_way(bake, &begins[bake])))
                && let Some(all) = self.together(&so_far, goes_on.as_ref(), &mut begins, is_short)
            {
                beside.clone_from(&goes_on);
                self.together = Some(all.clone());
                planned = Some(all);
            }
            if let Some(planned) = planned.filter(|_| last != Some(table)) {
                match &mut beside {
                    Some(beside) => beside.items.extend(planned.items),
                    None => beside = Some(planned),
                }
            }
        }
        begins
    }

    /// What goes on, by the places of all.
    fn going(&mut self, going: &[usize]) -> Option<Plan> {
        let ready_by: Vec<_> = self.bakes.iter().map(|state| table_of(state)).collect();
        let not_before: Vec<_> = self.bakes.iter().map(|state| not_before(state)).collect();
        let plan = self.soonest(going, &ready_by, &not_before)?;
        Some(plan.reordered(&|place| going.get(place).copied()))
    }

    /// How late the bakes for one table can begin. Gives the plan of them by that, if there is one.
    fn begin_for(
        &mut self,
        table: Moment,
        of: &[usize],
        beside: Option<&Plan>,
        begins: &mut [Begin],
    ) -> Option<Plan> {
        let Some(latest) = self.by(table, of, beside) else {
            // Something else can't be kept any more, which is no reason to begin at once.
            for &bake in of {
                let alone = self.by(table, &[bake], None);
                let alone =
                    alone.or_else(|| self.by(after_retards(self.bakes[bake])?, &[bake], None));
                let alone = alone.or_else(|| self.late_by_fix(bake));
                let alone = alone.or_else(|| self.late_by_sleep(table, bake));
                let at = alone.and_then(|alone| {
                    let buffer = buffer_of(&alone.end);
                    let short = alone.short_before_away(self.bakes, &[bake], &self.away);
                    self.begin_of(bake, &alone, None, buffer, short)
                });
                begins[bake].at = at.max(not_before(self.bakes[bake]));
            }
            return None;
        };
        let buffer = if self.buffers {
            buffer_of(&latest.end)
        } else {
            minutes(0.0)
        };
        let mut earlier = if self.can_shift(&latest, of, buffer, beside) {
            Some(latest.shifted(-buffer))
        } else {
            self.by(table - buffer, of, beside)
        };
        let search = |search: &mut Self| search.by(table - buffer, of, beside);
        if let Some(spared) = self.spared(earlier.as_ref().unwrap_or(&latest), of, &search) {
            earlier = Some(spared);
        }
        // For what has to be done before nobody is there all of them begin sooner, as they do for the table.
        let short = self.short(earlier.as_ref().unwrap_or(&latest), of);
        for &bake in of {
            let at = self.begin_of(bake, &latest, earlier.as_ref(), buffer, short);
            begins[bake] = Begin {
                at: at.max(not_before(self.bakes[bake])),
                buffer: Some(buffer),
            };
        }
        Some(earlier.unwrap_or(latest))
    }

    /// When a bake begins that could begin as late as in one plan, or in an earlier one with its buffer before the table.
    ///
    /// Where a time away leaves no room for all of the buffer, what comes before that begins sooner by as much, or now. A
    /// step that was fixed, and a retard that is planned, is no sooner for that: what comes before it begins sooner by
    /// what that may itself be late. What is too short before a time away begins sooner by as much, if it doesn't yet.
    pub(super) fn begin_of(
        &self,
        bake: usize,
        latest: &Plan,
        earlier: Option<&Plan>,
        buffer: Minutes,
        short: Minutes,
    ) -> Option<Moment> {
        let begins = |plan: &Plan| plan.begin_of(bake, self.bakes[bake]).map(|(_, at)| at);
        let last = begins(latest)?;
        let lead = latest.lead_of(bake, self.bakes[bake]);
        let earlier = earlier.and_then(begins);
        let at = match (lead, earlier) {
            (Some(lead), earlier) => {
                let at = last - lead.min(buffer);
                earlier.map_or(at, |earlier| earlier.min(at))
            }
            (None, Some(earlier)) => earlier,
            (None, None) => last - buffer,
        };
        let taken = earlier.unwrap_or(last);
        Some(at.min(taken - short))
    }

    /// Whether a plan that is as late as can be is so for a table that is sooner by some time as well: nothing that
    /// stands where it stands, and doesn't move with the table, lies between.
    fn can_shift(&self, latest: &Plan, of: &[usize], by: Minutes, beside: Option<&Plan>) -> bool {
        let firsts = of
            .iter()
            .map(|&bake| latest.first_of(bake).map(|(_, at)| at - by));
        let is_early = |at: Moment| {
            let from = of.iter().filter_map(|&bake| not_before(self.bakes[bake]));
            from.fold(self.now, Moment::max) <= at
        };
        let first = firsts.clone().flatten().min();
        let Some(first) =
            first.filter(|&first| firsts.clone().all(|at| at.is_some()) && is_early(first))
        else {
            return false;
        };
        let other = beside.into_iter().flat_map(|plan| &plan.items);
        let mut fixed = other
            .map(|item| (item.start, item.end))
            .chain(self.away.iter().copied());
        let stands = |&bake: &usize| {
            let state = self.bakes[bake];
            !state.pins.is_empty() || !state.retards.is_empty()
        };
        !of.iter().any(stands) && fixed.all(|(from, to)| to <= first || from >= latest.end.likely())
    }
}
