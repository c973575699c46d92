//! The only place for text: quantities to and from words, and sentences.
//!
//! Plain sentences, a number with its unit, and where something is uncertain,
//! how much.

mod alarm;
mod answer;
mod ask;
mod bench;
mod caution;
mod cooling;
mod day;
mod desk;
mod earlier;
mod effect;
mod formula;
mod gather;
mod kitchen;
mod letters;
mod mixing;
mod notes;
mod phone;
mod places;
pub(crate) mod plan;
mod quantity;
mod refusal;
mod rise;
mod running;
mod stood;
mod storage;
mod today;
mod undo;
mod widgets;
mod wish;

pub(crate) use alarm::{ALARM_TEST, ALARM_TEST_NOTE, alarm, alarm_note, also_due, moves};
pub(crate) use answer::{answer, piece_advice};
pub(crate) use ask::{Prompt, comes_out, if_left_out, prompt};
pub(crate) use bench::*;
pub(crate) use caution::{allergen, caution, caution_in_short, keeps};
pub(crate) use cooling::*;
pub(crate) use day::{day, weekday, when};
pub(crate) use desk::*;
pub(crate) use earlier::*;
pub(crate) use formula::*;
pub(crate) use gather::*;
pub(crate) use kitchen::*;
pub(crate) use letters::{capital, listed, lower_first};
pub(crate) use mixing::{advice, liquid_sentence, reach_sentence};
pub(crate) use notes::*;
pub(crate) use phone::*;
pub(crate) use places::*;
pub(crate) use quantity::{
    amount, at, bare_mass, clock_face, mass, oven_runs, oven_setting, percent, short_window, span,
    temperature, tight, window,
};
pub(crate) use refusal::refusal;
pub(crate) use rise::*;
pub(crate) use running::*;
pub(crate) use stood::*;
pub(crate) use storage::{archive_outcome, health, persistence, sound, wake};
pub(crate) use today::*;
pub(crate) use undo::{TAKE_BACK, put_back, take_back, taken_back};
pub(crate) use widgets::*;
pub(crate) use wish::*;

/// The app's own name.
pub(crate) const NAME: &str = "Oventide";
