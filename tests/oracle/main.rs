//! Answers questions about the model, so that `run.py` can check it against
//! general-purpose Python libraries.
//!
//! In: a JSON array of `{"topic": …, "inputs": …}` on standard input. Out: a
//! JSON array with one answer each, in the same order. Plain numbers, with the
//! unit in the name.

mod calendar;
mod heat;
mod kitchen;
mod ovens;
mod recipes;
mod schedules;
mod yeast;

use std::hint::black_box;
use std::time::Instant;

use serde::Deserialize;
use serde_json::{Value, json};

#[derive(Deserialize)]
#[serde(tag = "topic", content = "inputs", rename_all = "snake_case")]
enum Question {
    Series(heat::Series),
    Course(heat::CourseQuestion),
    Moved(heat::MovedQuestion),
    TwoStage(heat::TwoStageQuestion),
    CoolingWindow(heat::CoolingWindowQuestion),
    Deepest(heat::Deepest),
    Rate(yeast::Rate),
    Proof(yeast::ProofQuestion),
    Backwards(yeast::Backwards),
    Units(kitchen::Units),
    Water(kitchen::Water),
    Ice(kitchen::Ice),
    Boiling(kitchen::Boiling),
    Mixing(kitchen::Mixing),
    Liquid(kitchen::Liquid),
    Split(kitchen::Split),
    FrozenDough(kitchen::FrozenDough),
    Flour(kitchen::Flour),
    BakeRatio(ovens::BakeRatio),
    OvenCourse(ovens::OvenCourse),
    Mixture(ovens::Mixture),
    Plan(checks::plan::File),
    Hasty(schedules::Hasty),
    Calm(schedules::Calm),
    Calendar(calendar::Calendar),
    Recipe(recipes::Recipe),
    Timed(Timed),
}

/// Another question, and how long its answer takes.
#[derive(Deserialize)]
struct Timed {
    question: Box<Question>,
    times: u32,
}

impl Timed {
    fn answer(&self) -> Value {
        let start = Instant::now();
        for _ in 0..self.times {
            black_box(answer(black_box(&self.question)));
        }
        let whole = start.elapsed().as_secs_f64();
        json!({
            "seconds": whole / f64::from(self.times.max(1)),
            "answer": answer(&self.question),
        })
    }
}

fn answer(question: &Question) -> Value {
    match question {
        Question::Series(inputs) => inputs.answer(),
        Question::Calendar(inputs) => inputs.answer(),
        Question::Course(inputs) => inputs.answer(),
        Question::Moved(inputs) => inputs.answer(),
        Question::TwoStage(inputs) => inputs.answer(),
        Question::CoolingWindow(inputs) => inputs.answer(),
        Question::Deepest(inputs) => inputs.answer(),
        Question::Rate(inputs) => inputs.answer(),
        Question::Proof(inputs) => inputs.answer(),
        Question::Backwards(inputs) => inputs.answer(),
        Question::Units(inputs) => inputs.answer(),
        Question::Water(inputs) => inputs.answer(),
        Question::Ice(inputs) => inputs.answer(),
        Question::Boiling(inputs) => inputs.answer(),
        Question::Mixing(inputs) => inputs.answer(),
        Question::Liquid(inputs) => inputs.answer(),
        Question::Split(inputs) => inputs.answer(),
        Question::FrozenDough(inputs) => inputs.answer(),
        Question::Flour(inputs) => inputs.answer(),
        Question::BakeRatio(inputs) => inputs.answer(),
        Question::OvenCourse(inputs) => inputs.answer(),
        Question::Mixture(inputs) => inputs.answer(),
        Question::Plan(inputs) => schedules::plan(inputs),
        Question::Hasty(inputs) => inputs.answer(),
        Question::Calm(inputs) => inputs.answer(),
        Question::Recipe(inputs) => inputs.answer(),
        Question::Timed(inputs) => inputs.answer(),
    }
}

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let questions: Vec<Question> = serde_json::from_reader(std::io::stdin().lock())?;
    let answers: Vec<Value> = questions.iter().map(answer).collect();
    serde_json::to_writer(std::io::stdout().lock(), &answers)?;
    Ok(())
}
