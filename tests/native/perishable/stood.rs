//! What food that spoils comes to by the rules, each with its source.

use domain::bake::{Intent, Keeps, Spoils, State, Stood};
use domain::formula::{Length, StepId};
use domain::kitchen::{Kitchen, Place};
use domain::thermal::vessel::Cooling;
use domain::units::{Minutes, celsius, minutes};

use super::{CHILL, COOL, Day, FILL, FILLING, SERVE, after, left_out::overnight, step};

const RISE: StepId = StepId(9);
const PROOF: StepId = StepId(16);

impl Day {
    fn state(&self) -> &State {
        self.bake.state()
    }

    /// How what stood out stands at a moment, of those of one kind.
    fn keeps(&self, is: impl Fn(&Stood) -> bool, at: f64) -> Option<Keeps> {
        let stood = self.state().stood(after(at));
        let stood = stood.iter().find(|&stood| is(stood))?;
        Some(stood.keeps(after(at)))
    }

    /// Whether anything in the bread is to be thrown away.
    fn bread_is_lost(&self, at: f64) -> bool {
        let stood = self.state().stood(after(at));
        stood
            .iter()
            .any(|stood| stood.is_in && stood.is_lost(after(at)))
    }

    fn lost(&self, at: f64) -> Vec<Spoils> {
        let stood = self.state().stood(after(at)).into_iter();
        let lost = stood.filter(|stood| stood.is_lost(after(at)));
        lost.map(|stood| stood.what).collect()
    }

    /// The buns, filled by 200 min past nine.
    fn filled() -> Self {
        let mut day = Self::of(|_| {});
        day.done([1, 2, 3], 10.0);
        day.done([4, 5], 60.0);
        day.done([6, 7, 8, 26], 90.0);
        day.done([9, 10, 11, 12, 13, 14], 180.0);
        day.done([15], 200.0);
        day
    }

    /// The same, baked by 295.
    fn baked() -> Self {
        let mut day = Self::filled();
        day.done([16, 17, 18, 19], 270.0);
        day.done([20], 275.0);
        day.done([21], 295.0);
        day
    }
}

fn is_filling(stood: &Stood) -> bool {
    stood.what == Spoils::Filling
}

fn is_bread(stood: &Stood) -> bool {
    stood.what == Spoils::Bread
}

/// Two hours: USDA FSIS. Four hours, after which food is thrown away also where it was to be cooked: FDA Food Code,
/// § 3-501.19(B). The warning comes a quarter of an hour before, as its alarm does.
#[test]
fn a_filling_in_an_unbaked_dough_has_two_hours_and_four_at_most() {
    let day = Day::filled();
    let out = 200.0 - FILLING;
    for (later, keeps) in [
        (15.0, Keeps::Fine),
        (104.0, Keeps::Fine),
        (106.0, Keeps::Soon),
        (119.0, Keeps::Soon),
        (121.0, Keeps::Past),
        (239.0, Keeps::Past),
        (241.0, Keeps::Unsafe),
        (1440.0, Keeps::Unsafe),
    ] {
        assert_eq!(day.keeps(is_filling, out + later), Some(keeps), "{later}");
        let lost = keeps >= Keeps::Past;
        assert_eq!(day.bread_is_lost(out + later), lost, "{later}");
    }
}

/// One hour above 90 °F (32.2 °C): USDA FSIS. It holds for the time out and not for what was over before.
#[test]
fn a_hot_kitchen_leaves_it_one_hour_also_where_it_was_hot_for_a_while() {
    let mut day = Day::filled();
    day.say(Intent::KitchenIs(celsius(33.0)), 210.0);
    day.say(Intent::KitchenIs(celsius(24.0)), 220.0);
    assert_eq!(day.lost(200.0 - FILLING + 59.0), []);
    assert_eq!(day.lost(200.0 - FILLING + 61.0), [Spoils::Filling]);
    // What was baked within two hours, in a kitchen that grew hot only later, was in time.
    let mut day = Day::baked();
    day.say(Intent::KitchenIs(celsius(33.0)), 300.0);
    assert_eq!(day.lost(310.0), []);
    assert_eq!(day.lost(295.0 + 61.0), [Spoils::Bread]);
}

/// What some bacteria leave isn't destroyed by baking (see the module in the domain), so nothing begins anew for it.
#[test]
fn what_was_lost_before_the_oven_is_lost_after_it_and_to_the_end() {
    let mut day = Day::filled();
    day.done([16, 17, 18, 19, 20], 200.0 + 360.0);
    assert_eq!(day.lost(570.0), [Spoils::Filling]);
    day.done([21, 27, 22, 23, 24], 600.0);
    assert_eq!(day.lost(600.0), [Spoils::Filling]);
    day.done([25], 610.0);
    assert!(day.state().all_ended() && day.bread_is_lost(610.0));
    // Nobody can be told so of what went into the oven in time.
    let mut day = Day::baked();
    day.done([27, 22, 23, 24, 25], 350.0);
    assert!(day.state().all_ended());
    assert_eq!(day.state().stood(after(9000.0)), []);
}

/// Hands that are floury press late: what counts as lost by that can be told to have been in time.
#[test]
fn what_went_into_the_oven_before_it_was_said_is_not_lost() {
    let mut day = Day::filled();
    day.done([16, 17, 18, 19], 300.0);
    assert_eq!(day.bake.press_that_lost(after(300.0)), None);
    day.done([20], 200.0 - FILLING + 125.0);
    let now = after(330.0);
    assert!(day.bread_is_lost(330.0));
    let place = day.bake.press_that_lost(now).expect("it was said");
    let pressed = day.bake.pressed(place).expect("it can have been earlier");
    assert_eq!(pressed.step, Some(StepId(20)));
    day.say(Intent::Since(place, after(305.0)), 330.0);
    assert!(!day.bread_is_lost(330.0));
    assert_eq!(day.bake.press_that_lost(now), None);
    // What stands out still was ended by nothing.
    let day = Day::filled();
    assert!(day.bread_is_lost(340.0));
    assert_eq!(day.bake.press_that_lost(after(340.0)), None);
}

#[test]
fn baked_bread_has_its_own_two_hours_and_a_late_serving_gives_none_back() {
    let mut day = Day::baked();
    day.done([27, 22, 23, 24], 340.0);
    for (at, keeps) in [
        (340.0, Keeps::Fine),
        (295.0 + 110.0, Keeps::Soon),
        (295.0 + 130.0, Keeps::Past),
        (295.0 + 1440.0, Keeps::Unsafe),
    ] {
        assert_eq!(day.keeps(is_bread, at), Some(keeps), "{at}");
    }
    day.done([25], 295.0 + 1440.0);
    assert_eq!(day.lost(295.0 + 1441.0), [Spoils::Bread]);
    let serve = day.state().formula.step(SERVE).expect("it is served");
    let cool = day.state().formula.step(COOL).expect("it cools");
    for stood in day.state().stood(after(295.0 + 1441.0)) {
        assert!(stood.concerns(serve) && stood.concerns(cool));
    }
}

/// Whoever makes it anew, or does without it, has answered.
#[test]
fn a_filling_made_anew_or_left_out_is_told_no_more() {
    let mut day = Day::of(|_| {});
    day.done([1, 2, 3, 4], 60.0);
    assert_eq!(day.lost(60.0 + 121.0), [Spoils::Filling]);
    // It is in no bread yet, so the bread isn't lost.
    assert!(!day.bread_is_lost(60.0 + 121.0));
    let mut anew = Day::of(|_| {});
    anew.done([1, 2, 3, 4], 60.0);
    anew.say(Intent::GoBack(StepId(2)), 190.0);
    assert_eq!(anew.lost(191.0), []);
    day.done([6, 7, 8, 26, 9, 10, 11, 12, 13, 14, 5], 200.0);
    assert_eq!(day.lost(200.0), [Spoils::Filling], "a fridge mends nothing");
    day.say(Intent::Skip(FILL), 201.0);
    assert_eq!(day.lost(201.0), []);
}

/// FDA Food Code, § 3-501.14(A): from 57 to 21 °C within 2 h and to 5 °C within 6 h. Ice that nobody replaces melts, so
/// after those six hours only a fridge is known to hold it.
#[test]
fn a_cream_nobody_says_was_cold_within_six_hours_is_lost_but_in_a_fridge() {
    let cooled = |cooling: Cooling, fridge: f64| {
        let kitchen = Kitchen {
            fridge: celsius(fridge),
            ..Kitchen::UNMEASURED
        };
        let mut day = Day::in_kitchen(kitchen, |draft| {
            if let Length::Chill { cooling: of, .. } = &mut step(draft, CHILL).length {
                *of = cooling;
            }
        });
        day.done([1, 2, 3], 10.0);
        day
    };
    let read = |cooling, fridge, warmth: f64, at: f64| {
        let mut day = cooled(cooling, fridge);
        day.say(Intent::CoreIs(CHILL, celsius(warmth)), 10.0 + at);
        day
    };
    let ice = || cooled(Cooling::IceBath, 5.0);
    assert_eq!(ice().lost(10.0 + 359.0), []);
    assert_eq!(ice().lost(10.0 + 361.0), [Spoils::Warm]);
    let mut too_late = ice();
    too_late.say(Intent::Move(CHILL, Place::Fridge), 10.0 + 720.0);
    assert_eq!(too_late.lost(10.0 + 725.0), [Spoils::Warm]);
    let mut moved = ice();
    moved.say(Intent::Move(CHILL, Place::Fridge), 10.0 + 30.0);
    assert_eq!(moved.lost(10.0 + 725.0), []);
    // Up to 8 °C, the most that UK law allows, a fridge holds it.
    assert_eq!(cooled(Cooling::Fridge, 8.0).lost(10.0 + 1440.0), []);
    assert_eq!(
        cooled(Cooling::Fridge, 9.0).lost(10.0 + 1440.0),
        [Spoils::Warm]
    );
    // The press that it is cold answers within the six hours, and not after them.
    let mut in_time = ice();
    in_time.done([4, 5], 10.0 + 350.0);
    assert_eq!(in_time.lost(10.0 + 1000.0), []);
    let mut late = ice();
    late.done([4, 5], 10.0 + 1440.0);
    assert_eq!(late.lost(10.0 + 1440.0), [Spoils::Warm]);
    // So does a thermometer, in time or too late for either stage.
    let ice = |warmth, at| read(Cooling::IceBath, 5.0, warmth, at);
    assert_eq!(ice(4.0, 100.0).lost(10.0 + 1440.0), []);
    assert_eq!(ice(25.0, 119.0).lost(10.0 + 130.0), []);
    assert_eq!(ice(25.0, 125.0).lost(10.0 + 130.0), [Spoils::Hot]);
    assert_eq!(ice(20.0, 125.0).lost(10.0 + 130.0), []);
    let fridge = |warmth, at| read(Cooling::Fridge, 4.0, warmth, at);
    assert_eq!(fridge(9.0, 365.0).lost(10.0 + 370.0), [Spoils::Warm]);
    assert_eq!(fridge(4.5, 365.0).lost(10.0 + 370.0), []);
}

/// For a dough no source gives a limit: four hours in one step is judgement, and so is that it is lost after eight.
#[test]
fn a_dough_with_egg_and_milk_is_past_its_time_after_four_hours_and_lost_after_eight() {
    let mut day = Day::of(|_| {});
    day.done([1, 2, 3], 10.0);
    day.done([4, 5], 60.0);
    day.done([6, 7, 8, 26], 90.0);
    let is_dough = |stood: &Stood| stood.what == Spoils::Dough;
    // An hour over its rise it is a dough like any other.
    for (hours, keeps) in [
        (2.5, None),
        (3.9, None),
        (4.1, Some(Keeps::Past)),
        (7.9, Some(Keeps::Past)),
        (8.1, Some(Keeps::Unsafe)),
        (24.0, Some(Keeps::Unsafe)),
    ] {
        let at = 90.0 + 60.0 * hours;
        assert_eq!(day.keeps(is_dough, at), keeps, "{hours} h");
        let lost = keeps == Some(Keeps::Unsafe);
        assert_eq!(day.bread_is_lost(at), lost, "{hours} h");
    }
    // In the fridge it isn't out.
    let mut cold = Day::of(|_| {});
    cold.done([1, 2, 3], 10.0);
    cold.done([4, 5], 60.0);
    cold.done([6, 7, 8, 26], 90.0);
    cold.say(Intent::Move(RISE, Place::Fridge), 120.0);
    assert_eq!(cold.lost(90.0 + 60.0 * 12.0), []);
    // Pieces that nobody goes on with stand as well.
    day.done([9, 10, 11], 200.0);
    assert_eq!(day.keeps(is_dough, 200.0 + 200.0), None);
    assert_eq!(day.lost(200.0 + 500.0), [Spoils::Dough]);
    // It stays so whatever is done with it.
    day.done([12, 13, 14, 15], 800.0);
    assert!(day.bread_is_lost(810.0));
}

/// A night in the fridge keeps what it should.
#[test]
fn a_night_in_the_fridge_loses_nothing() {
    let mut day = Day::of(overnight);
    day.done([1, 2, 3], 10.0);
    day.done([4, 5], 60.0);
    day.done([6, 7, 8, 26], 90.0);
    day.done([9, 10, 11, 12, 13, 14], 180.0);
    day.done([15], 190.0);
    assert_eq!(day.lost(190.0 + 600.0), []);
    day.done([PROOF.0], 190.0 + 600.0);
    assert_eq!(day.lost(190.0 + 600.0 + 30.0), []);
    assert_eq!(day.lost(190.0 + 600.0 + 125.0), [Spoils::Filling]);
}

/// The same steps done as they are likely to take: nothing is near a limit at any moment of an ordinary bake.
#[test]
fn no_orderly_bake_of_a_starter_is_ever_past_a_limit() {
    for id in ["plum-almond-buns", "orange-braid", "overnight-tin-loaf"] {
        let formula = checks::starter(id);
        let mut bake = checks::begin(formula, Kitchen::UNMEASURED, super::NINE);
        let plan = domain::schedule::outline(bake.state(), super::NINE);
        let mut ends: Vec<_> = plan
            .steps
            .iter()
            .map(|step| (step.end, step.step))
            .collect();
        ends.sort_by_key(|&(end, _)| end);
        for (end, step) in ends {
            let now = end.max(bake.state().newest + minutes(0.1));
            for stood in bake.state().stood(now) {
                assert!(
                    stood.keeps(now) < Keeps::Past,
                    "{id}: {stood:?} at {step:?}"
                );
            }
            checks::say(&mut bake, Intent::Done(step), now);
        }
        assert!(bake.state().all_ended());
        let none: Minutes = minutes(0.0);
        assert_eq!(bake.state().stood(bake.state().newest + none), []);
    }
}
