//! Ringing: what is due and was not heard yet, told by every means this phone has.

use domain::bake::{self, Alarm, AlarmId, AlarmKind, BakeId, State, TimerId};
use domain::formula::StepKind;
use domain::units::Moment;
use leptos::prelude::*;
use leptos::task::spawn_local;
use platform::sound::SoundState;
use platform::vibration::Shaking;
use platform::{clock, notify, page};

use super::{Oventide, plan, states};
use crate::reactive::effect;
use crate::words;

/// An alarm that rings, and whose.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Ringing {
    /// The bake.
    pub(crate) bake: BakeId,
    /// What that is called beside the others.
    pub(crate) whose: String,
    /// What it is about.
    pub(crate) alarm: Alarm,
    /// What it says.
    pub(crate) title: String,
    /// What to do about it.
    pub(crate) body: String,
    /// Since when it is due, as every other page tells it: it may have been held, or call a second time.
    pub(crate) since: Moment,
    /// Whether it may have been held until somebody is back, as whatever calls then calls as one.
    is_held: bool,
    /// What calls with it.
    with: Vec<Heard>,
}

/// An alarm, and whose.
type Heard = (BakeId, AlarmId);

impl Oventide {
    /// Rings as an alarm would, by every means and from its beginning, until it is stopped.
    pub(crate) fn test_alarm(self) {
        self.inner().sound.unlock();
        self.testing.set(Some(clock::now()));
    }

    pub(super) fn watch_alarms(self) {
        effect(move || {
            let now = self.beat.get();
            let views = self.views.read();
            let hearing = self.hearing.read();
            let (mut loud, mut silent) = (Vec::new(), Vec::new());
            let states = states(&views);
            let plan = self.plan.read();
            let mut next = None;
            for view in views.iter() {
                let planned = plan.as_ref();
                let called = planned.map_or_else(Vec::new, |plan| {
                    plan::door_to_calls()(self, plan, &view.bake, now)
                });
                let mut alarms = view.alarms.clone();
                // An oven is wanted when the plan has it, which knows what else the hands and the oven are for.
                let oven_at = planned.and_then(|plan| plan.oven_at(&view.bake));
                for alarm in &mut alarms {
                    if let (AlarmKind::OvenOn, Some(at)) = (&alarm.kind, oven_at) {
                        alarm.due = alarm.due.max(at);
                    }
                }
                alarms.extend(called);
                let to_come = alarms.iter().map(|alarm| alarm.due);
                next = to_come.filter(|&due| due > now).chain(next).min();
                let state = view.bake.state();
                let due = alarms.iter().filter(|alarm| alarm.due <= now);
                for alarm in due.filter(|alarm| calls(alarm, state, &states)) {
                    let whose = words::full_name(state, &states);
                    let lost = view.has_lost().then(|| door()(state, alarm, view.at));
                    let own = || words::alarm(state, &whose, alarm);
                    let (title, body) = lost.flatten().unwrap_or_else(own);
                    let heard = (view.bake.id.clone(), alarm.id);
                    let all = if hearing.contains(&heard) {
                        &mut silent
                    } else {
                        &mut loud
                    };
                    let step = alarm.step.and_then(|step| state.formula.step(step));
                    let is_night = step.is_some_and(|step| step.kind == StepKind::Retard);
                    let one = Ringing {
                        bake: heard.0,
                        whose,
                        alarm: alarm.clone(),
                        // A night in the fridge goes on until somebody is up, and is late for nothing by then.
                        since: if is_night {
                            alarm.due
                        } else {
                            alarm.since(&view.running)
                        },
                        title,
                        body,
                        is_held: state.is_back_at(alarm.due),
                        with: Vec::new(),
                    };
                    one.join(all);
                }
            }
            // What really rings takes its place.
            if let Some(due) = self.testing.get()
                && loud.is_empty()
                && silent.is_empty()
            {
                loud.push(Ringing::test(due));
            }
            drop((views, plan, hearing));
            self.expect_next(next);
            self.sound_for(&loud);
            // What was heard and is being stored stays on the screen only while nothing else rings.
            self.ringing
                .set(if loud.is_empty() { silent } else { loud });
        });
        let could = Memo::new(move |_| self.could_ring());
        effect(move || {
            if could.get() {
                self.claim_lead();
            }
        });
    }

    fn could_ring(self) -> bool {
        self.sound.get() == SoundState::Ready && !self.ringing.read().is_empty()
    }

    /// The tab in front of the baker's eyes makes the noise, if it can: one behind may be frozen.
    pub(super) fn claim_lead(self) {
        if page::is_visible()
            && untrack(|| self.could_ring())
            && let Some(leader) = self.inner().leader.borrow().as_ref()
        {
            leader.claim();
        }
    }

    /// One timer for the next due moment: the ticking may be slowed in the background, this isn't.
    fn expect_next(self, next: Option<Moment>) {
        let once = next.map(|due| clock::at(due, move || self.renew()));
        *self.inner().next_due.borrow_mut() = once;
    }

    fn sound_for(self, ringing: &[Ringing]) {
        let inner = self.inner();
        // A second tab shows the alarm too, but only one of them makes a noise.
        let loud = !ringing.is_empty() && *inner.leads.borrow();
        let settings = self.settings.get_untracked().alarm;
        self.notify(ringing, loud);
        if loud == inner.sounding.replace(loud) {
            return;
        }
        if loud {
            inner.sound.ring(settings.volume);
        } else {
            inner.sound.stop();
        }
        let shaking = (loud && settings.vibrates).then(Shaking::start);
        *inner.shaking.borrow_mut() = shaking;
    }

    /// Notifications while the page is hidden, again at times until they are
    /// heard; in front of the baker's eyes the screen is enough.
    fn notify(self, ringing: &[Ringing], loud: bool) {
        let inner = self.inner();
        let mut told = inner.told.borrow_mut();
        told.retain(|(known, _)| {
            let rings = ringing.iter().any(|one| one.tag() == *known);
            if !rings {
                clear(known.clone());
            }
            rings
        });
        if !loud || notify::permission() != notify::Permission::Granted {
            return;
        }
        let now = clock::now();
        let seen = page::is_visible();
        // Of the test everything is to be seen at once.
        for one in ringing.iter().filter(|one| !seen || one.is_test()) {
            let tag = one.tag();
            let again = notify::times_again(one.alarm.overdue(now));
            let before = told.iter().position(|(known, _)| *known == tag);
            let before = before.map(|place| told.remove(place));
            told.push((tag.clone(), again));
            if before.is_none_or(|(_, before)| before < again) {
                let title = one.title.clone();
                let body = words::alarm_note(&one.body, one.since, now);
                spawn_local(async move { notify::show(&tag, &title, &body).await });
            }
        }
    }

    /// "I heard it." It is silent from now on, and gone from the screen once that is stored.
    pub(crate) fn hear(self, ringing: Ringing) {
        self.testing.set(None);
        clear(ringing.tag());
        if ringing.is_test() {
            return;
        }
        let mut all = ringing.with;
        all.push((ringing.bake, ringing.alarm.id));
        // In one go, or those that are left would ring by themselves for a moment.
        self.hearing
            .update(|hearing| hearing.extend_from_slice(&all));
        self.in_turn(Box::pin(async move {
            for (bake, alarm) in &all {
                // A bake that ended meanwhile rings no more, and whatever the baker is reading stays.
                let _ = self
                    .enter(bake, &|bake, now| bake::heard(bake, *alarm, now))
                    .await;
            }
            self.hearing
                .update(|hearing| hearing.retain(|other| !all.contains(other)));
        }));
    }
}

/// Whether an alarm of one of some bakes calls: in an oven that is on for another bread nobody has to turn it on.
fn calls(alarm: &Alarm, of: &State, all: &[&State]) -> bool {
    alarm.kind != AlarmKind::OvenOn || oven_of(of, all).is_none()
}

/// The bread for which the oven is on already, beside one of some.
pub(crate) fn oven_of<'a>(of: &State, all: &[&'a State]) -> Option<&'a State> {
    // Whose own is on needs no other.
    let mut all = all.iter().copied();
    all.find(|other| other.has_oven_on() && !of.has_oven_on())
}

/// Whose alarm a test is.
const NO_BAKE: BakeId = BakeId(String::new());

impl Ringing {
    /// What is shown while the alarm is being tested. It is in no log, so no bake knows of it.
    fn test(due: Moment) -> Self {
        Self {
            bake: NO_BAKE,
            whose: String::new(),
            alarm: Alarm {
                id: AlarmId::Timer(TimerId(0)),
                due,
                kind: AlarmKind::Timer(String::new()),
                step: None,
            },
            since: due,
            title: words::ALARM_TEST.to_owned(),
            body: words::ALARM_TEST_NOTE.to_owned(),
            is_held: false,
            with: Vec::new(),
        }
    }

    fn is_test(&self) -> bool {
        self.bake == NO_BAKE
    }

    /// Adds it to what rings: all that was held calls as one, which says what else is due.
    fn join(self, all: &mut Vec<Self>) {
        let mut others = all.iter_mut();
        let first = others.find(|first| first.is_held && self.is_held);
        let Some(first) = first else {
            all.push(self);
            return;
        };
        // That it is time to go on with a bread is said by whatever is due at it.
        let mut with = first.with.iter().map(|(bake, _)| bake);
        let is_known = self.bake == first.bake || with.any(|bake| *bake == self.bake);
        if !(is_known && self.alarm.id == AlarmId::Begin) {
            first.body += &words::also_due(&self.title, &self.whose);
        }
        first.with.push((self.bake, self.alarm.id));
    }

    fn tag(&self) -> String {
        tag(&self.bake, self.alarm.id)
    }
}

/// What an alarm says of food that is lost: late, as all that tells of that.
fn door() -> fn(&State, &Alarm, Moment) -> Option<(String, String)> {
    std::hint::black_box(words::alarm_of_lost)
}

fn clear(tag: String) {
    spawn_local(async move { notify::clear(&tag).await });
}

/// One notification an alarm: a second one with its tag takes the place of the first.
fn tag(bake: &BakeId, alarm: AlarmId) -> String {
    let BakeId(bake) = bake;
    match alarm {
        AlarmId::Check { step, round } => format!("{bake}/check/{}/{round}", step.0),
        AlarmId::Fold { step, fold } => format!("{bake}/fold/{}/{fold}", step.0),
        AlarmId::OvenOn { step } => format!("{bake}/oven-on/{}", step.0),
        AlarmId::CoolingStage { step } => format!("{bake}/cooling/{}", step.0),
        AlarmId::CoolingEnd { step } => format!("{bake}/cold/{}", step.0),
        AlarmId::Perishable { step } => format!("{bake}/perishable/{}", step.0),
        AlarmId::Timer(timer) => format!("{bake}/timer/{}", timer.0),
        AlarmId::Begin => format!("{bake}/begin"),
        AlarmId::Fixed { step } => format!("{bake}/fixed/{}", step.0),
        AlarmId::Retard { step } => format!("{bake}/put-away/{}", step.0),
        AlarmId::Waits { step } => format!("{bake}/waits/{}", step.0),
    }
}

#[cfg(test)]
mod tests;
