//! What the baker of a script says: every word becomes an intent, as it does in the app.

use domain::bake::{
    Alarm, AlarmId, AlarmKind, Entry, Event, Intent, TimerId, alarms, decide, due, marks_of,
};
use domain::formula::Held;
use domain::kitchen::Place;
use domain::units::{Grams, Metres, Share};

use super::day::{Day, Outcome, celsius, kebab, minutes, number};

impl Day {
    pub(super) fn act(&mut self, bake: usize, words: &[&str]) -> Outcome {
        if let ["refused", words @ ..] = words {
            return match self.act(bake, words) {
                Err(cause) if cause.starts_with("refused") => Ok(()),
                Err(cause) => Err(cause),
                Ok(()) => Err("it was allowed".to_owned()),
            };
        }
        if let ["clock-set", by] = words {
            self.now = self.now + minutes(by)?;
        }
        let intents = self.intents(bake, words)?;
        intents
            .into_iter()
            .try_for_each(|intent| self.say(bake, intent))
    }

    pub(super) fn say(&mut self, bake: usize, intent: Intent) -> Outcome {
        let entries = decide(self.bake(bake), intent, self.now)
            .map_err(|refusal| format!("refused: {refusal}"))?;
        self.bakes[bake].1.append(entries);
        self.now = self.now.max(self.bake(bake).state().newest);
        Ok(())
    }

    fn intents(&self, bake: usize, words: &[&str]) -> Result<Vec<Intent>, String> {
        let step = |name: &str| self.step(bake, name);
        let state = self.bake(bake).state();
        let one = match words {
            ["done", name] => Intent::Done(step(name)?),
            ["since", name, at] => {
                let step = step(name)?;
                let is_end = |entry: &Entry| entry.event == Event::Done { step };
                let place = self.bake(bake).log().iter().rposition(is_end);
                let place = place.and_then(|place| u32::try_from(place).ok());
                Intent::Since(place.ok_or("it hasn't ended")?, self.moment(at)?)
            }
            ["pick", name] => Intent::Pick(step(name)?),
            ["pin", name, at] => Intent::Pin(step(name)?, Some(self.moment(at)?)),
            ["retard", name, band] => Intent::PlanRetard(step(name)?, Some(self.band(band)?)),
            ["no-retard", name] => Intent::PlanRetard(step(name)?, None),
            ["unpin", name] => Intent::Pin(step(name)?, None),
            ["skip", name] => Intent::Skip(step(name)?),
            ["back-to", name] => Intent::GoBack(step(name)?),
            ["not-yet", name, by] => Intent::NotYet(step(name)?, minutes(by)?),
            ["folded", name] => Intent::Folded(step(name)?),
            ["fold-not-yet", name, by] => Intent::FoldNotYet(step(name)?, minutes(by)?),
            ["skip-fold", name] => Intent::SkipFold(step(name)?),
            ["kitchen", what, value] => {
                let mut kitchen = state.kitchen;
                match *what {
                    "fridge" => kitchen.fridge = celsius(value)?,
                    "flour" => kitchen.flour = Some(celsius(value)?),
                    "oven-heats-in" => kitchen.oven_heats_in = minutes(value)?,
                    "height" => kitchen.altitude = Metres::clamped(number(value)?),
                    _ => return Err(format!("a kitchen has no {what:?}")),
                }
                Intent::KitchenChanged(Box::new(kitchen))
            }
            ["marked", name] => Intent::MarkNext(step(name)?),
            ["marked", name, "all"] => {
                let step = step(name)?;
                let marks = marks_of(state, step).into_iter();
                return Ok(marks.map(|mark| Intent::Mark(step, mark, true)).collect());
            }
            ["kitchen", value] => Intent::KitchenIs(celsius(value)?),
            ["dough", value] => {
                let dough = state.formula.dough().ok_or("the formula has no dough")?;
                Intent::DoughIs(dough.id, celsius(value)?)
            }
            ["dough-of", name, value] => {
                Intent::DoughIs(self.component(bake, name)?, celsius(value)?)
            }
            ["core", name, value] => Intent::CoreIs(step(name)?, celsius(value)?),
            ["move", name, "warm", value] => {
                Intent::Move(step(name)?, Place::Warm(celsius(value)?))
            }
            ["move", name, "water", value] => {
                Intent::Move(step(name)?, Place::Water(celsius(value)?))
            }
            ["move", name, "kitchen"] => Intent::Move(step(name)?, Place::Kitchen),
            ["move", name, "fridge"] => Intent::Move(step(name)?, Place::Fridge),
            ["pour", name, "bowl"] => Intent::Pour(step(name)?, Held::Bowl),
            ["pour", name, "jar"] => Intent::Pour(step(name)?, Held::Jar),
            ["pour", name, "bag"] => Intent::Pour(step(name)?, Held::Bag),
            ["risen", name, percent, "ago", ago] => {
                let share = Share::clamped(number(percent)? / 100.0);
                Intent::RiseIs(step(name)?, share, minutes(ago)?)
            }
            ["piece", piece, value] => {
                let piece: u16 = piece.parse().map_err(|_| "pieces have numbers")?;
                let mass = Grams::new(number(value)?).map_err(|cause| cause.to_string())?;
                Intent::PieceWeighs(piece - 1, mass)
            }
            ["timer", name, length] => Intent::SetTimer((*name).to_owned(), minutes(length)?),
            ["stop-timer", name] => Intent::StopTimer(self.timer(bake, name)?),
            ["hear", "everything"] => {
                let ringing = due(state, self.now).into_iter();
                return Ok(ringing.map(|alarm| Intent::Hear(alarm.id)).collect());
            }
            // When that is due only the plan knows.
            ["hear", "begin"] => Intent::Hear(AlarmId::Begin),
            ["hear", what @ ..] => {
                let alarm = self.alarm(bake, what)?;
                if alarm.due > self.now {
                    return Err("it doesn't ring yet".to_owned());
                }
                Intent::Hear(alarm.id)
            }
            ["pause"] => Intent::Pause,
            ["resume"] => Intent::Resume,
            ["finish"] => Intent::Finish,
            ["abandon"] => Intent::Abandon,
            ["clock-set", by] => Intent::ClockWasSet(minutes(by)?),
            ["undo"] => Intent::Undo,
            _ => return Err(format!("nobody says {words:?}")),
        };
        Ok(vec![one])
    }

    fn timer(&self, bake: usize, name: &str) -> Result<TimerId, String> {
        let mut timers = self.bake(bake).state().timers.iter();
        let found = timers.find(|(_, timer)| timer.name == name);
        found
            .map(|(id, _)| *id)
            .ok_or_else(|| format!("no timer is called {name:?}"))
    }

    /// The one alarm, due or still to come, that the words mean: a kind, and a step or timer.
    pub(super) fn alarm(&self, bake: usize, words: &[&str]) -> Result<Alarm, String> {
        let all = alarms(self.bake(bake).state(), self.now);
        let names: Vec<String> = all.iter().map(|alarm| self.name_of(bake, alarm)).collect();
        let wanted = words.join(" ");
        let mut found = std::iter::zip(all, &names)
            .filter(|(_, name)| **name == wanted || name.split(' ').next() == Some(&wanted))
            .map(|(alarm, _)| alarm);
        match (found.next(), found.next()) {
            (Some(alarm), None) => Ok(alarm),
            (Some(_), Some(_)) => Err(format!("several alarms are {wanted:?}: {names:?}")),
            (None, _) => Err(format!("no alarm is {wanted:?}, only {names:?}")),
        }
    }

    /// As scripts call it: "fold first-rise", "timer tea".
    pub(super) fn name_of(&self, bake: usize, alarm: &Alarm) -> String {
        if let AlarmKind::Timer(name) = &alarm.kind {
            return format!("timer {name}");
        }
        let kind = kebab(&format!("{:?}", alarm.kind));
        match alarm.step {
            Some(step) => format!("{kind} {}", self.title(bake, step)),
            None => kind,
        }
    }
}
