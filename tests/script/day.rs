//! A script's day: its bakes, its clock, and how its lines are read.

use domain::bake::{Bake, BakeId, Entry, Event, Start};
use domain::formula::{ComponentId, Formula, StepId};
use domain::kitchen::Kitchen;
use domain::schedule::plan::Moved;
use domain::thermal::kneading::KneadingMethod;
use domain::units::{Celsius, Minutes, Moment};
use records::Record as _;
use records::bake::EntryRecord;
use records::starters;

use super::plan::Plans;

/// What a line is worth: nothing, or what was wrong with it.
pub(super) type Outcome = Result<(), String>;

const MINUTE_MS: i64 = 60_000;
const DAY_MS: i64 = 24 * 60 * MINUTE_MS;

/// The bakes of a script and how late it is.
pub(super) struct Day {
    pub(super) kitchen: Kitchen,
    pub(super) bakes: Vec<(String, Bake)>,
    pub(super) now: Moment,
    pub(super) plans: Plans,
    /// Every line that didn't hold, with why.
    pub(super) wrong: Vec<String>,
    /// Every sentence that is expected: its line, what moved, and its words.
    pub(super) said: Vec<(usize, Option<Moved>, String)>,
}

impl Day {
    /// Goes through a script.
    pub(super) fn run(text: &str, crash_after_every_line: bool) -> Self {
        let mut day = Self {
            kitchen: Kitchen::UNMEASURED,
            bakes: Vec::new(),
            now: Moment::from_epoch_ms(0),
            plans: Plans::default(),
            wrong: Vec::new(),
            said: Vec::new(),
        };
        for (number, line) in (1..).zip(text.lines()) {
            let code = line.split('#').next().unwrap_or_default().trim();
            if code.is_empty() {
                continue;
            }
            let mut outcome = day.line(code, number);
            if crash_after_every_line && outcome.is_ok() {
                outcome = day.crash();
            }
            if let Err(cause) = outcome {
                day.wrong
                    .push(format!("line {number}: {code}\n    {cause}"));
            }
        }
        day
    }

    fn line(&mut self, code: &str, number: usize) -> Outcome {
        let mut words: Vec<&str> = code.split_whitespace().collect();
        if let Some(clock) = clock_ms(words[0]) {
            let today = self.now.epoch_ms().div_euclid(DAY_MS) * DAY_MS;
            let mut at = today + clock;
            // Answers within the same minute come a little after it.
            if at + MINUTE_MS <= self.now.epoch_ms() {
                at += DAY_MS;
            }
            self.now = self.now.max(Moment::from_epoch_ms(at));
            words.remove(0);
            // As time goes by, a plan that is behind is made anew.
            self.replan()?;
        }
        match words.as_slice() {
            ["expect", "says", ..] => {
                let quoted = code
                    .split('"')
                    .nth(1)
                    .ok_or("a sentence stands in quotes")?;
                self.said.push((number, self.moved(), quoted.to_owned()));
                return Ok(());
            }
            ["expect", "plan" | "moved", ..] => return self.expect_of_plan(0, &words[1..]),
            ["expect", rest @ ..] => {
                let (bake, rest) = self.whose(rest)?;
                return self.expect(bake, rest);
            }
            _ => self.happens(code, &words)?,
        }
        self.replan()
    }

    fn happens(&mut self, code: &str, words: &[&str]) -> Outcome {
        match words {
            ["kitchen", "air", ..] => self.set_up_kitchen(code),
            ["bake", ..] => self.set_up_bake(words),
            ["wish", wish @ ..] => self.wish(wish),
            ["crash"] => self.crash(),
            // There is one kitchen, and every bake in it has its temperature.
            ["kitchen", ..] => (0..self.bakes.len()).try_for_each(|bake| self.act(bake, words)),
            _ => {
                let (bake, rest) = self.whose(words)?;
                self.act(bake, rest)
            }
        }
    }

    /// The phone dies: all that is left is the written log, and it must come to the same.
    fn crash(&mut self) -> Outcome {
        for (name, bake) in &mut self.bakes {
            let written: Vec<String> = bake
                .log()
                .iter()
                .map(|entry| EntryRecord::from(entry).write())
                .collect();
            let read = written.iter().map(|text| {
                let record = EntryRecord::read(text)?;
                Entry::try_from(record)
            });
            let log = read
                .collect::<Result<Vec<Entry>, _>>()
                .map_err(|cause| format!("{name}: {cause}"))?;
            let again = Bake::from_log(bake.id.clone(), log).ok_or("the log has no start")?;
            if again != *bake {
                return Err(format!("{name}: the log folds to another state"));
            }
            *bake = again;
        }
        Ok(())
    }

    fn set_up_kitchen(&mut self, code: &str) -> Outcome {
        for part in code.trim_start_matches("kitchen").split(',') {
            let words: Vec<&str> = part.split_whitespace().collect();
            match words.as_slice() {
                ["air", value] => self.kitchen.air = celsius(value)?,
                ["fridge", value] => self.kitchen.fridge = celsius(value)?,
                ["by", "hand"] => {}
                ["by", "mixer"] => self.kitchen.kneading = KneadingMethod::StandMixer,
                ["oven", "heats", "in", value] => self.kitchen.oven_heats_in = minutes(value)?,
                _ => return Err(format!("what is {part:?}?")),
            }
        }
        Ok(())
    }

    fn set_up_bake(&mut self, words: &[&str]) -> Outcome {
        let ["bake", name, formula, "from", clock] = words else {
            return Err("write: bake NAME: FORMULA from HH:MM".to_owned());
        };
        let at = clock_ms(clock).ok_or("a bake starts at HH:MM")?;
        let at = Moment::from_epoch_ms(at);
        let start = Start {
            formula: starter(formula)?,
            kitchen: self.kitchen,
        };
        let entry = Entry {
            at,
            event: Event::Started(Box::new(start)),
        };
        let name = name.trim_end_matches(':').to_owned();
        let bake = Bake::from_log(BakeId(name.clone()), vec![entry]).ok_or("no start")?;
        self.bakes.push((name, bake));
        self.now = self.now.max(at);
        Ok(())
    }

    /// Which bake a line is about, and the rest of it.
    fn whose<'a>(&self, words: &'a [&'a str]) -> Result<(usize, &'a [&'a str]), String> {
        let first = words.first().ok_or("the line says nothing")?;
        if let Some(name) = first.strip_suffix(':') {
            return Ok((self.named(name)?, &words[1..]));
        }
        match self.bakes.len() {
            1 => Ok((0, words)),
            _ if *first == "alarms" => Ok((0, words)),
            _ => Err("say whose step it is: \"buns: ...\"".to_owned()),
        }
    }

    pub(super) fn named(&self, name: &str) -> Result<usize, String> {
        let found = self.bakes.iter().position(|(bake, _)| bake == name);
        found.ok_or_else(|| format!("there is no bake {name:?}"))
    }

    pub(super) fn bake(&self, bake: usize) -> &Bake {
        &self.bakes[bake].1
    }

    /// The step whose title or kind is so written.
    pub(super) fn step(&self, bake: usize, name: &str) -> Result<StepId, String> {
        let steps = &self.bake(bake).state().formula.steps;
        let titled = steps.iter().filter(|step| slug(&step.title) == name);
        let of_kind = steps
            .iter()
            .filter(|step| kebab(&format!("{:?}", step.kind)) == name);
        for mut found in [titled.collect::<Vec<_>>(), of_kind.collect()] {
            match (found.pop(), found.is_empty()) {
                (Some(step), true) => return Ok(step.id),
                (Some(_), false) => return Err(format!("several steps are called {name:?}")),
                (None, _) => {}
            }
        }
        Err(format!("no step is called {name:?}"))
    }

    /// The component whose name is so written.
    pub(super) fn component(&self, bake: usize, name: &str) -> Result<ComponentId, String> {
        let mut components = self.bake(bake).state().formula.components.iter();
        let found = components.find(|component| slug(&component.name) == name);
        found
            .map(|component| component.id)
            .ok_or_else(|| format!("nothing is called {name:?}"))
    }

    pub(super) fn title(&self, bake: usize, step: StepId) -> String {
        let formula = &self.bake(bake).state().formula;
        formula
            .step(step)
            .map_or_else(|| format!("step {}", step.0), |step| slug(&step.title))
    }

    /// The moment nearest ahead that the clock so shows, or up to two hours ago.
    pub(super) fn moment(&self, clock: &str) -> Result<Moment, String> {
        let clock = clock_ms(clock).ok_or_else(|| format!("{clock:?} is no clock time"))?;
        let earliest = self.now.epoch_ms() - DAY_MS / 12;
        let ahead = (clock - earliest).rem_euclid(DAY_MS);
        Ok(Moment::from_epoch_ms(earliest + ahead))
    }
}

fn starter(id: &str) -> Result<Formula, String> {
    let mut starters = starters::all().into_iter();
    let found = starters.find(|formula| formula.id.0 == id);
    found.ok_or_else(|| format!("no starter is called {id:?}"))
}

pub(super) fn number(text: &str) -> Result<f64, String> {
    text.parse().map_err(|_| format!("{text:?} is no number"))
}

pub(super) fn celsius(text: &str) -> Result<Celsius, String> {
    Celsius::new(number(text)?).map_err(|cause| cause.to_string())
}

pub(super) fn minutes(text: &str) -> Result<Minutes, String> {
    Minutes::new(number(text)?).map_err(|cause| cause.to_string())
}

/// As a kitchen clock shows it.
pub(super) fn clock(moment: Moment) -> String {
    let minutes = moment.epoch_ms().rem_euclid(DAY_MS) / MINUTE_MS;
    format!("{:02}:{:02}", minutes / 60, minutes % 60)
}

fn clock_ms(text: &str) -> Option<i64> {
    let (hours, minutes) = text.split_once(':')?;
    let (hours, minutes): (i64, i64) = (hours.parse().ok()?, minutes.parse().ok()?);
    Some((hours * 60 + minutes) * MINUTE_MS)
}

pub(super) fn slug(title: &str) -> String {
    let words = title.to_lowercase();
    let words: Vec<&str> = words
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    words.join("-")
}

/// "FinalProof" as "final-proof".
pub(super) fn kebab(name: &str) -> String {
    let mut kebab = String::new();
    for letter in name.chars() {
        if letter.is_uppercase() && !kebab.is_empty() {
            kebab.push('-');
        }
        kebab.extend(letter.to_lowercase());
    }
    kebab
}
