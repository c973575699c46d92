//! What one press asks of several bakes, and that it is taken back at all of them.

use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, Wishes, moment_of_press};
use domain::kitchen::Kitchen;
use domain::schedule::plan::What;
use domain::units::{Minutes, Moment, minutes};

use super::NINE;
use super::asked::planned;
use super::tables::{HOUR, for_table};

fn take_back(bakes: &mut [Bake], at: usize, now: Moment) {
    let wished_at = bakes[at].newest_wish().expect("it was wished");
    say(&mut bakes[at], Intent::Undo, now);
    let away = bakes[at].state().wishes.away.clone();
    for (place, bake) in bakes.iter_mut().enumerate() {
        if place != at {
            let away = away.clone();
            say(bake, Intent::WishUndone { wished_at, away }, now);
        }
    }
}

fn press(bakes: &[Bake], now: Moment) -> Moment {
    moment_of_press(&bakes.iter().collect::<Vec<_>>(), now)
}

/// However long storing it takes, and whatever the clock shows: what one press wishes has a moment that is its own.
#[test]
fn what_one_press_wished_of_all_breads_goes_together_and_nothing_else_does() {
    let mut bakes = [
        for_table("plum-almond-buns", 30.0),
        for_table("orange-braid", 30.0),
        for_table("overnight-tin-loaf", 36.0),
    ];
    let tables = |bakes: &[Bake]| -> Vec<Option<Moment>> {
        bakes.iter().map(|bake| bake.state().wishes.table).collect()
    };
    let first = tables(&bakes);
    // One log is ahead of a clock that was put back.
    say(&mut bakes[1], Intent::Pause, NINE + minutes(30.0));
    let now = NINE + minutes(1.0);
    let wish = |bake: &mut Bake, later: Minutes, at: Moment| {
        let wishes = bake.state().wishes.clone();
        let table = wishes.table.map(|table| table + later);
        say(bake, Intent::Wish(Box::new(Wishes { table, ..wishes })), at);
    };
    let together = press(&bakes, now);
    assert!(together > bakes[1].state().newest);
    for bake in &mut bakes {
        wish(bake, minutes(15.0), together);
        assert_eq!(bake.newest_wish(), Some(together));
    }
    let all = tables(&bakes);
    // Two presses within a second, each for one bread.
    for which in [0, 2] {
        let at = press(&bakes, now + minutes(0.01));
        wish(&mut bakes[which], minutes(30.0), at);
    }
    let apart = tables(&bakes);
    take_back(&mut bakes, 2, now);
    assert_eq!(tables(&bakes), [apart[0], apart[1], all[2]]);
    take_back(&mut bakes, 0, now);
    assert_eq!(tables(&bakes), all);
    take_back(&mut bakes, 1, now);
    assert_eq!(tables(&bakes), first);
}

/// A kitchen is empty for all that is baked in it.
#[test]
fn a_time_away_counts_for_every_bread_and_is_taken_back_at_every_one() {
    let mut bakes = [
        for_table("plum-almond-buns", 9.0),
        for_table("orange-braid", 9.0),
        begin(starter("overnight-tin-loaf"), Kitchen::UNMEASURED, NINE),
    ];
    let away = (NINE + HOUR, NINE + HOUR * 4.0);
    let works = |bakes: &[Bake]| {
        let plan = planned(bakes, NINE).expect("there is a plan").plan;
        let at_work = plan.items.iter().filter(|item| {
            let hands = match item.what {
                What::Step(bake, step) => {
                    let step = bakes[bake].state().formula.step(step);
                    step.is_some_and(domain::formula::Step::is_hands)
                }
                other => other.is_in_passing(),
            };
            hands && item.start < away.1 && item.end > away.0
        });
        at_work.count()
    };
    assert!(works(&bakes) > 0);
    let wish_at = |bakes: &mut [Bake], which: usize, at: Moment| {
        let wishes = Wishes {
            away: vec![away],
            ..bakes[which].state().wishes.clone()
        };
        say(&mut bakes[which], Intent::Wish(Box::new(wishes)), at);
    };
    // Said of one, it holds for what the others want of the hands as well.
    for which in 0..bakes.len() {
        let mut said = bakes.clone();
        wish_at(&mut said, which, NINE + minutes(1.0));
        assert_eq!(works(&said), 0, "{which}");
    }
    let at = press(&bakes, NINE + minutes(1.0));
    for which in 0..bakes.len() {
        wish_at(&mut bakes, which, at);
    }
    // Something else is done at one of them meanwhile.
    let first = bakes[2].state().formula.steps[0].id;
    say(&mut bakes[2], Intent::Done(first), NINE + minutes(10.0));
    take_back(&mut bakes, 0, NINE + minutes(11.0));
    let left: Vec<_> = bakes
        .iter()
        .flat_map(|bake| &bake.state().wishes.away)
        .collect();
    assert!(left.is_empty(), "{left:?}");
}
