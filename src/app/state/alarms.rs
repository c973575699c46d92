//! Ringing: what is due and was not heard yet, told by every means this phone has.

use domain::bake::{Alarm, AlarmId, BakeId, Intent};
use domain::units::Moment;
use leptos::prelude::*;
use leptos::task::spawn_local;
use platform::{clock, notify, page, vibration};

use super::Oventide;
use crate::words;

/// An alarm that rings, and whose.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Ringing {
    /// The bake.
    pub(crate) bake: BakeId,
    /// What it is about.
    pub(crate) alarm: Alarm,
    /// What it says.
    pub(crate) title: String,
    /// What to do about it.
    pub(crate) body: String,
}

const BUZZ: [u32; 5] = [400, 200, 400, 200, 800];

impl Oventide {
    pub(super) fn watch_alarms(self) {
        Effect::new(move || {
            let now = self.beat.get();
            let views = self.views.read();
            let hearing = self.hearing.read();
            let mut ringing = Vec::new();
            for view in views.iter() {
                for alarm in view.alarms.iter().filter(|alarm| alarm.due <= now) {
                    let (title, body) = words::alarm(view.bake.state(), alarm);
                    ringing.push(Ringing {
                        bake: view.bake.id.clone(),
                        alarm: alarm.clone(),
                        title,
                        body,
                    });
                }
            }
            let next = views.iter().filter_map(|view| view.next_due).min();
            drop(views);
            self.expect_next(next);
            let heard = |one: &Ringing| hearing.contains(&(one.bake.clone(), one.alarm.id));
            let loud: Vec<Ringing> = ringing.iter().filter(|one| !heard(one)).cloned().collect();
            drop(hearing);
            self.sound_for(&loud);
            self.ringing.set(ringing);
        });
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
        if loud {
            for one in ringing {
                self.notify(one);
            }
        }
        if loud == inner.sounding.replace(loud) {
            return;
        }
        if loud {
            inner.sound.ring(settings.volume);
            if settings.vibrates {
                vibration::buzz(&BUZZ);
            }
        } else {
            inner.sound.stop();
            vibration::stop();
        }
    }

    /// A notification while the page is hidden; in front of the baker's eyes the screen is enough.
    fn notify(self, ringing: &Ringing) {
        if page::is_visible() || notify::permission() != notify::Permission::Granted {
            return;
        }
        let Ringing { title, body, .. } = ringing.clone();
        let tag = tag(&ringing.bake, ringing.alarm.id);
        spawn_local(async move { notify::show(&tag, &title, &body).await });
    }

    /// "I heard it." It is silent from now on, and gone from the screen once that is stored.
    pub(crate) fn hear(self, bake: &BakeId, alarm: AlarmId) {
        let tag = tag(bake, alarm);
        spawn_local(async move { notify::clear(&tag).await });
        let heard = (bake.clone(), alarm);
        self.hearing.update(|hearing| hearing.push(heard.clone()));
        self.ask(bake, Intent::Hear(alarm));
        self.in_turn(Box::pin(async move {
            self.hearing
                .update(|hearing| hearing.retain(|other| *other != heard));
        }));
    }
}

/// One notification an alarm: a second one with its tag takes the place of the first.
fn tag(bake: &BakeId, alarm: AlarmId) -> String {
    let BakeId(bake) = bake;
    match alarm {
        AlarmId::Check { step, round } => format!("{bake}/check/{}/{round}", step.0),
        AlarmId::Fold { step, fold } => format!("{bake}/fold/{}/{fold}", step.0),
        AlarmId::OvenOn { step } => format!("{bake}/oven-on/{}", step.0),
        AlarmId::CoolingStage { step } => format!("{bake}/cooling/{}", step.0),
        AlarmId::Perishable { step } => format!("{bake}/perishable/{}", step.0),
        AlarmId::Timer(timer) => format!("{bake}/timer/{}", timer.0),
    }
}
