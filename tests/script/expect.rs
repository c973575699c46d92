//! What must hold at a moment of a script.

use domain::bake::{Forecast, alarms, due};
use domain::schedule::{Ask, focus, offers, outline, running};
use domain::thermal::liquid::liquid_temperature;
use domain::units::Moment;

use super::day::{Day, Outcome, clock, kebab, number};

impl Day {
    pub(super) fn expect(&self, bake: usize, words: &[&str]) -> Outcome {
        let state = self.bake(bake).state();
        match words {
            ["ask", wanted @ ..] => same(&self.ask(bake), &wanted.join(" ")),
            ["running", wanted @ ..] => {
                let running = running(state, self.now);
                let titles = running.iter().map(|now| self.title(bake, now.step));
                same(&listed(titles), &wanted.join(" "))
            }
            ["offers", wanted @ ..] => {
                let offers = offers(state, self.now);
                let titles = offers.into_iter().map(|step| self.title(bake, step));
                same(&listed(titles), &wanted.join(" "))
            }
            ["window", name, band, "likely", likely, "within", within] => {
                let forecast = self.forecast(bake, name)?;
                let (low, high) = self.band(band)?;
                let got = forecast.window;
                self.near("early end", got.low(), low, within)?;
                self.near("likely end", got.likely(), self.moment(likely)?, within)?;
                self.near("late end", got.high(), high, within)
            }
            ["progress", name, band, "%"] => {
                let (low, high) = band.split_once("..").ok_or("a band is LOW..HIGH")?;
                let got = self.forecast(bake, name)?.progress.get() * 100.0;
                between(got, number(low)?, number(high)?)
            }
            ["stalls", name] => holds(self.forecast(bake, name)?.stalls, "it goes on"),
            ["no", "alarm", what @ ..] => {
                let found = self.alarm(bake, what);
                holds(found.is_err(), "there is one")
            }
            ["alarm", what @ .., at, "within", within] => {
                let alarm = self.alarm(bake, what)?;
                self.near("alarm", alarm.due, self.moment(at)?, within)
            }
            ["alarms", ..] => self.expect_merged_alarms(&words[1..].join(" ")),
            ["due", "nothing"] => {
                let ringing = due(state, self.now);
                let names = ringing.iter().map(|alarm| self.name_of(bake, alarm));
                same(&listed(names), "nothing")
            }
            ["due", what @ .., "overdue", overdue, "within", within] => {
                let alarm = self.alarm(bake, what)?;
                holds(alarm.due <= self.now, "it isn't due")?;
                let overdue = number(overdue)?;
                let within = number(within)?;
                between(
                    alarm.overdue(self.now).get(),
                    overdue - within,
                    overdue + within,
                )
            }
            ["table", band] => {
                let (low, high) = self.band(band)?;
                let table = outline(state, self.now).table;
                let got = table.likely();
                let message = format!("the table is at {}", clock(got));
                holds(low <= got && got <= high, &message)
            }
            ["liquid", name, degrees, "within", within] => {
                let question = state.liquid_question(self.component(bake, name)?, self.now);
                let answer = question.as_ref().and_then(liquid_temperature);
                let got = answer.ok_or("nothing is tempered")?.temperature;
                let (degrees, within) = (number(degrees)?, number(within)?);
                between(got.get(), degrees - within, degrees + within)
            }
            ["perishable", "limit", limit] => {
                let limit = number(limit)?;
                between(state.perishable_limit().get(), limit, limit)
            }
            ["marks", name, count] => {
                let marks = &state.progress(self.step(bake, name)?).marks;
                same(&marks.len().to_string(), count)
            }
            ["open", name] => holds(state.is_open(self.step(bake, name)?), "it isn't open"),
            ["closed", name] => holds(!state.is_open(self.step(bake, name)?), "it is open"),
            ["begins" | "planned" | "plan" | "not", ..] => self.expect_of_plan(bake, words),
            ["over"] => holds(state.is_over(), "it goes on"),
            _ => Err(format!("nobody can expect {words:?}")),
        }
    }

    fn ask(&self, bake: usize) -> String {
        let ask = focus(self.bake(bake).state(), self.now);
        match ask {
            Ask::Idle | Ask::AllDone => kebab(&format!("{ask:?}")),
            Ask::Work(step) => format!("work {}", self.title(bake, step)),
            Ask::Fold(step) => format!("fold {}", self.title(bake, step)),
            Ask::Look(step) => format!("look {}", self.title(bake, step)),
            Ask::IntoFridge(step) => format!("into-fridge {}", self.title(bake, step)),
            Ask::OutOfFridge(step) => format!("out-of-fridge {}", self.title(bake, step)),
            Ask::Wait(step) => format!("wait {}", self.title(bake, step)),
        }
    }

    fn forecast(&self, bake: usize, name: &str) -> Result<Forecast, String> {
        let step = self.step(bake, name)?;
        let forecast = self.bake(bake).state().forecast(step, self.now);
        forecast.ok_or_else(|| format!("{name} isn't going on"))
    }

    /// Alarms of all bakes, soonest first, as "buns: fold first-rise, braid: check rest".
    fn expect_merged_alarms(&self, wanted: &str) -> Outcome {
        let mut all = Vec::new();
        for (bake, (name, _)) in self.bakes.iter().enumerate() {
            for alarm in alarms(self.bake(bake).state(), self.now) {
                all.push((alarm.due, format!("{name}: {}", self.name_of(bake, &alarm))));
            }
        }
        all.sort();
        let names: Vec<String> = all.into_iter().map(|(_, name)| name).collect();
        same(&names.join(", "), wanted)
    }

    pub(super) fn band(&self, band: &str) -> Result<(Moment, Moment), String> {
        let (low, high) = band.split_once("..").ok_or("a band is HH:MM..HH:MM")?;
        Ok((self.moment(low)?, self.moment(high)?))
    }

    pub(super) fn near(&self, what: &str, got: Moment, wanted: Moment, within: &str) -> Outcome {
        let off = (got - wanted).get().abs();
        let message = format!("the {what} is at {}, {off:.1} min off", clock(got));
        holds(off <= number(within)?, &message)
    }
}

pub(super) fn same(got: &str, wanted: &str) -> Outcome {
    holds(got == wanted, &format!("it is {got}"))
}

fn between(got: f64, low: f64, high: f64) -> Outcome {
    let holds_now = (low..=high).contains(&got);
    holds(holds_now, &format!("it is {got:.1}"))
}

pub(super) fn holds(holds: bool, otherwise: &str) -> Outcome {
    if holds {
        Ok(())
    } else {
        Err(otherwise.to_owned())
    }
}

fn listed(names: impl Iterator<Item = String>) -> String {
    let names: Vec<String> = names.collect();
    if names.is_empty() {
        "nothing".to_owned()
    } else {
        names.join(" ")
    }
}
