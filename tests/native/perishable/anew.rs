//! A filling that is lost before it is in the bread is made once more, and nothing else is.

use checks::{begin, say, starter};
use domain::bake::{Bake, Intent};
use domain::formula::StepId;
use domain::kitchen::Kitchen;
use domain::units::{Moment, minutes};

const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);
const COOK: StepId = StepId(2);
const FILL: StepId = StepId(15);

/// Shaped buns whose cream stood out for four hours before it came into the fridge; and the moment.
fn shaped() -> (Bake, Moment) {
    let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
    let done: [(&[u16], f64); 4] = [
        (&[1, 2, 3, 4], 50.0),
        (&[6, 7, 8, 26], 70.0),
        (&[9, 11, 12, 13, 14], 200.0),
        (&[5], 300.0),
    ];
    for (steps, at) in done {
        for &step in steps {
            say(&mut bake, Intent::Done(StepId(step)), START + minutes(at));
        }
    }
    (bake, START + minutes(301.0))
}

fn ended(bake: &Bake) -> Vec<u16> {
    let steps = (1..=15).filter(|&step| bake.state().progress(StepId(step)).ended.is_some());
    steps.collect()
}

/// The dough is mixed after the cream is spread, so going back to the cream would have it mixed again.
#[test]
fn only_the_filling_is_made_anew_and_undo_gives_it_back() {
    let (mut bake, now) = shaped();
    assert_eq!(bake.state().to_make_anew(now, None), Some((COOK, false)));
    assert_eq!(
        bake.state().to_make_anew(now, Some(FILL)),
        Some((COOK, true))
    );
    let was = ended(&bake);
    say(&mut bake, Intent::MakeAnew(COOK), now);
    assert_eq!(ended(&bake), [1, 6, 7, 8, 9, 11, 12, 13, 14]);
    assert!(bake.state().is_open(COOK) && !bake.state().is_open(FILL));
    assert_eq!(bake.state().to_make_anew(now, Some(FILL)), None);
    say(&mut bake, Intent::Undo, now + minutes(1.0));
    assert_eq!(ended(&bake), was);
    // Made well, it can be filled in.
    let (mut bake, mut now) = shaped();
    say(&mut bake, Intent::MakeAnew(COOK), now);
    for step in [2, 3, 4, 5] {
        now = now + minutes(10.0);
        say(&mut bake, Intent::Done(StepId(step)), now);
    }
    assert!(bake.state().is_open(FILL));
    assert_eq!(bake.state().to_make_anew(now, Some(FILL)), None);
}

#[test]
fn what_is_left_out_or_in_the_bread_is_not_made_anew() {
    let (bake, now) = shaped();
    for intent in [Intent::Skip(FILL), Intent::Done(FILL)] {
        let mut after = bake.clone();
        say(&mut after, intent, now);
        assert_eq!(after.state().to_make_anew(now, None), None);
    }
}

/// The buns of before are forgotten with it: whoever goes back to the cream has none out.
#[test]
fn cream_that_is_cooked_again_is_out_since_no_bun_of_before() {
    let (mut bake, now) = shaped();
    say(&mut bake, Intent::MarkNext(FILL), now);
    let later = now + minutes(100.0);
    assert!(!bake.state().stood(later).is_empty());
    say(&mut bake, Intent::GoBack(COOK), later);
    assert_eq!(bake.state().stood(later), []);
}
