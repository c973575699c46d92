//! How long a night in the fridge lasts that is a step of its formula: the plan chooses within the formula's hours, here a tin
//! loaf's 8 to 14, and all else follows that.

mod lies;

use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, Wishes};
use domain::formula::{Length, Step, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Item, Timetable, What, timetable};
use domain::units::{Celsius, Moment, minutes};
use proptest::prelude::*;

use super::NINE;

/// The moment of an hour by the clock of a day that begins three hours before that of the other tests.
pub(super) fn at(hour: f64) -> Moment {
    NINE + minutes((hour - 9.0) * 60.0)
}

/// A loaf that is started at an hour, for a table at another or for none, by somebody who sleeps from eleven to half past six.
pub(super) fn asked(id: &str, hour: f64, table: Option<f64>) -> Bake {
    let now = at(hour);
    let mut bake = begin(starter(id), Kitchen::UNMEASURED, now);
    let night = |day: f64| (at(day * 24.0 - 1.0), at(day * 24.0 + 6.5));
    let wishes = Wishes {
        table: table.map(at),
        away: vec![night(1.0), night(2.0)],
        ..Wishes::default()
    };
    say(&mut bake, Intent::Wish(Box::new(wishes)), now);
    bake
}

pub(super) fn only(bake: &Bake, now: Moment) -> Timetable {
    let planned = timetable(&[bake.state()], now, None, &mut || true);
    planned.expect("there is a plan")
}

pub(super) fn kind(bake: &Bake, kind: StepKind) -> &Step {
    let mut steps = bake.state().formula.steps.iter();
    steps.find(|step| step.kind == kind).expect("it has one")
}

pub(super) fn item(planned: &Timetable, step: &Step) -> Item {
    *planned
        .plan
        .item(What::Step(0, step.id))
        .expect("it is planned")
}

/// Steps of an hour, for messages.
pub(super) fn hour(of: Moment) -> f64 {
    (of - at(0.0)).get() / 60.0
}

/// The formula has its poolish in the evening, its dough in the fridge overnight for 8 to 14 h, and bread the next day.
/// The plan began at once, at eight in the morning, and had the dough in there for 18 h. From the fridge to the table it
/// takes six hours in this kitchen, since a cold dough rises for three of them: by half past twelve it can't be ready, by two
/// it can.
#[test]
fn a_loaf_for_the_next_day_has_its_own_evening() {
    let now = at(8.0);
    for (table, is_kept) in [(36.5, false), (38.5, true)] {
        let bake = asked("overnight-tin-loaf", 8.0, Some(table));
        let planned = only(&bake, now);
        let night = item(&planned, kind(&bake, StepKind::Retard));
        let stays = (night.end - night.start).get() / 60.0;
        let begins = hour(planned.begins[0].expect("it hasn't begun"));
        let margin = planned.margins[0];
        let said = format!(
            "begins {begins}, in {}, out {}, {stays} h, {margin:?}",
            hour(night.start),
            hour(night.end)
        );
        assert!((8.0..=14.0).contains(&stays), "{said}");
        assert!((18.0..23.0).contains(&hour(night.start)), "{said}");
        assert!(hour(night.end) >= 30.5 && hour(night.end) < 32.0, "{said}");
        assert!((12.0..19.0).contains(&begins), "{said}");
        // All that may come later than likely by the morning is no doubt of hours.
        assert!(margin.buffer < minutes(120.0), "{said}");
        assert_eq!(!margin.is_late(), is_kept, "{said}");
        assert!(margin.spare() > minutes(-20.0), "{said}");
        let turned_out = item(&planned, kind(&bake, StepKind::Divide));
        assert_eq!(turned_out.start, night.end);
        assert_eq!(turned_out.too_late_by, None);
    }
}

/// Begun in the afternoon it is on the table by the next noon: out of the fridge at half past six, and six hours more.
#[test]
fn a_loaf_that_is_begun_in_the_afternoon_is_ready_by_noon() {
    let bake = asked("overnight-tin-loaf", 15.0, None);
    let planned = only(&bake, at(15.0));
    let ready = hour(planned.plan.end.likely());
    assert!((36.0..37.0).contains(&ready), "{ready}");
    let night = item(&planned, kind(&bake, StepKind::Retard));
    assert_eq!(hour(night.end), 30.5);
}

/// Nobody is there to turn it out within fourteen hours, and that is told.
#[test]
fn a_night_that_has_to_be_longer_than_the_formula_says_is_told() {
    let (bake, now) = in_fridge(12.7, Some(38.5));
    let planned = only(&bake, now);
    let night = kind(&bake, StepKind::Retard).id;
    let since = bake
        .state()
        .progress(night)
        .open_since
        .expect("it lies there");
    let out = item(&planned, kind(&bake, StepKind::Divide));
    assert_eq!(hour(out.start), 30.5);
    let late = out.too_late_by.expect("that is too long");
    let beyond = out.start - since - minutes(14.0 * 60.0);
    assert!((late - beyond).get().abs() <= 1.5, "{late:?} {beyond:?}");
}

/// A loaf whose dough was put into the fridge at an hour, and the moment.
pub(super) fn in_fridge(hour: f64, table: Option<f64>) -> (Bake, Moment) {
    let mut bake = asked("overnight-tin-loaf", hour - 5.0, table);
    let night = kind(&bake, StepKind::Retard).id;
    let start = at(hour - 5.0);
    let mut past = 0.0;
    while bake.state().progress(night).open_since.is_none() {
        let state = bake.state();
        let step = state
            .formula
            .steps
            .iter()
            .find(|step| state.is_open(step.id));
        let step = step.expect("something is open").clone();
        past += match step.length {
            Length::Ferment { .. } if step.component.0 == 1 => 180.0,
            Length::Ferment { .. } => 70.0,
            _ => 5.0,
        };
        say(&mut bake, Intent::Done(step.id), start + minutes(past));
    }
    let now = bake.state().newest;
    (bake, now)
}

/// Of a table that would be missed by the likely nine and a half hours the dough comes out sooner, but never before eight
/// are over, and no sooner than that asks.
#[test]
fn a_night_is_shorter_for_a_table_but_not_too_short() {
    let (mut bake, now) = in_fridge(21.0, None);
    let awake = |bake: &mut Bake, table: f64| {
        let wishes = Wishes {
            table: Some(at(table)),
            ..Wishes::default()
        };
        say(bake, Intent::Wish(Box::new(wishes)), now);
    };
    let stays = |bake: &Bake| {
        let planned = only(bake, now);
        let night = item(&planned, kind(bake, StepKind::Retard));
        (night.end - night.start, planned.margins[0])
    };
    awake(&mut bake, 44.0);
    let (likely, margin) = stays(&bake);
    assert!((likely.get() - 570.0).abs() <= 1.0, "{likely:?}");
    // An hour less than that leaves.
    let ready = hour(margin.ready.likely());
    awake(&mut bake, ready - 1.0);
    let (shorter, margin) = stays(&bake);
    assert!((shorter.get() - 510.0).abs() <= 8.0, "{shorter:?}");
    assert!(margin.spare().get().abs() <= 8.0, "{margin:?}");
    awake(&mut bake, ready - 4.0);
    let (least, margin) = stays(&bake);
    assert!((least.get() - 480.0).abs() <= 1.0, "{least:?}");
    assert!(margin.is_late());
}

/// A braid for nine in the morning, asked for in the evening, was to be weighed there and then, and its butter to stand out
/// for eleven hours, to save a quarter of an hour of a table that is missed by four.
#[test]
fn nobody_begins_in_the_evening_only_to_weigh() {
    for table in [33.0, 36.9, 38.0] {
        let bake = asked("orange-braid", 19.5, Some(table));
        let planned = only(&bake, at(19.5));
        let begins = hour(planned.begins[0].expect("it hasn't begun"));
        assert!(begins >= 30.5, "{table}: {begins}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever is wished, a night lasts as long as its formula says, unless it is told by how much it is longer.
    #[test]
    fn a_night_lasts_as_its_formula_says_or_that_is_told(
        air in 17.0..27.0_f64,
        fridge in 1.0..8.0_f64,
        begun in 0.0..24.0_f64,
        table in proptest::option::of(12.0..40.0_f64),
        night in proptest::option::of((20.0..26.0_f64, 5.0..10.0_f64)),
        far in 0_usize..14,
    ) {
        let now = at(begun);
        let kitchen = Kitchen {
            air: Celsius::clamped(air),
            fridge: Celsius::clamped(fridge),
            ..Kitchen::UNMEASURED
        };
        let mut bake = begin(starter("overnight-tin-loaf"), kitchen, now);
        let nights = night.iter().flat_map(|&(bed, long)| {
            [0.0, 24.0, 48.0].map(|day| (at(day + bed), at(day + bed + long)))
        });
        let wishes = Wishes {
            table: table.map(|table| at(begun + table)),
            away: nights.filter(|&(_, to)| to > now).collect(),
            ..Wishes::default()
        };
        say(&mut bake, Intent::Wish(Box::new(wishes)), now);
        let mut planned = only(&bake, now);
        let mut now = now;
        // Some way into it, by the plan.
        for _ in 0..far {
            let state = bake.state();
            let items = planned.plan.items.iter();
            let next = items.filter_map(|item| match item.what {
                What::Step(_, step) if state.is_open(step) => Some((step, item.end)),
                _ => None,
            });
            let Some((step, end)) = next.min_by_key(|&(_, end)| end) else { break };
            now = now.max(end);
            say(&mut bake, Intent::Done(step), now);
            now = bake.state().newest;
            let again = timetable(&[bake.state()], now, Some(&planned), &mut || true);
            planned = again.expect("there is a plan");
        }
        let night = kind(&bake, StepKind::Retard).id;
        if let (Some(night), Some(out)) = (
            planned.plan.item(What::Step(0, night)),
            planned.plan.item(What::Step(0, kind(&bake, StepKind::Divide).id)),
        ) {
            let stays = (night.end - night.start).get();
            prop_assert_eq!(night.end, out.start);
            prop_assert!(stays >= 479.0, "{} min", stays);
            let told = out.too_late_by.map_or(0.0, |late| late.get());
            prop_assert!((stays - 840.0).max(0.0) <= told + 1.5, "{} min, told {}", stays, told);
            prop_assert!(told <= (stays - 840.0).max(0.0) + 1.5, "{} min, told {}", stays, told);
        }
    }
}
