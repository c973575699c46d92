//! Rises and rests, by the trade.

use checks::baker::points;
use checks::{assert_close, starter};
use domain::bake::{Bake, BakeId, Entry, Event, Forecast, Intent, Start, decide};
use domain::estimate::{Basis, Estimate};
use domain::formula::{Formula, Length, StepId, StepKind};
use domain::kitchen::Kitchen;
use domain::schedule::running;
use domain::units::{celsius, minutes};
use domain::yeast::dose::pace;

use super::{START, after, steps_of};

/// The trade's rule: yeast doubles its pace with every 17 °F, which is 9.44 K.
fn slower_by_the_rule(at: f64, reference: f64) -> f64 {
    2_f64.powf((reference - at) / (17.0 / 1.8))
}

/// A made-up formula, to hold kitchens against one another: the bun dough with a first rise of 120 min at 25 °C and a fold half-way, measured at 25 °C as it begins.
fn first_rise(kitchen: f64) -> Forecast {
    let mut draft = starter("plum-almond-buns").into_draft();
    let mut rise = None;
    for step in &mut draft.steps {
        if step.kind == StepKind::Bulk
            && let Length::Ferment {
                reference_minutes,
                folds,
                ..
            } = &mut step.length
        {
            *reference_minutes = Estimate::new(
                minutes(100.0),
                minutes(120.0),
                minutes(145.0),
                Basis::Formula,
            );
            *folds = vec![minutes(60.0)];
            rise = Some(step.id);
        }
    }
    let (rise, formula) = (rise.expect("buns rise"), Formula::new(draft));
    let start = Start {
        formula: formula.expect("only a length was changed"),
        kitchen: Kitchen {
            air: celsius(kitchen),
            ..Kitchen::UNMEASURED
        },
    };
    let event = Event::Started(Box::new(start));
    let log = vec![Entry { at: START, event }];
    let mut bake = Bake::from_log(BakeId("rise".to_owned()), log).expect("it has its start");
    let mut say = |intent| {
        let entries = decide(&bake, intent, START).expect("it can be so");
        bake.append(entries);
    };
    for step in [1, 2, 3, 6, 7] {
        say(Intent::Done(StepId(step)));
    }
    let dough = starter("plum-almond-buns")
        .dough()
        .expect("buns have a dough")
        .id;
    say(Intent::DoughIs(dough, celsius(25.0)));
    for step in [8, 26] {
        say(Intent::Done(StepId(step)));
    }
    bake.state().forecast(rise, START).expect("it rises")
}

/// At 25 °C the first rise is an hour, a fold, and an hour: common practice, no source. The starters' is 30 and 25 min
/// shorter, with its fold at half its time as well, because they hold more yeast. What the trade's two hours are for
/// nobody says; 3 % of fresh yeast on the flour is taken for it, common practice, no source, and everything hangs on
/// that: with 2.5 or 3.5 % the buns would come to 74 or 99 min. With 3 % the model's pace leaves 87 and 82 min, 3 and
/// 12.5 less than was written for the two. 15 % are granted: 7 % for what the exponent of the dose leaves open this far
/// from the usual, and as much for what the rule doesn't say, of sugar (14 % in both) and of the braid's juice.
#[test]
fn the_starters_first_rise_is_shorter_than_the_trade_s_two_hours_by_their_yeast() {
    let (trade, usual_percent) = (120.0, 3.0);
    for (name, shorter, percent, longer_than_by_dose) in [
        ("plum-almond-buns", 30.0, 4.39, 3.2),
        ("orange-braid", 25.0, 4.66, 12.5),
    ] {
        let formula = starter(name);
        assert_eq!(formula.reference, celsius(25.0), "{name}");
        let rise = steps_of(&formula, StepKind::Bulk).next().expect("it rises");
        let Length::Ferment {
            reference_minutes,
            folds,
            ..
        } = &rise.length
        else {
            panic!("yeast works in it");
        };
        let written = reference_minutes.likely().get();
        assert_close(name, trade - written, shorter, 1e-9);
        assert_eq!(folds, &[minutes(45.0)], "{name}");
        let dose = formula.percent_of_flour(formula.fresh_yeast()).get();
        // What the figures are rounded to.
        assert_close(name, dose, percent, 0.005);
        let by_dose = trade / pace(dose / usual_percent).likely();
        assert_close(name, written - by_dose, longer_than_by_dose, 0.05);
        assert_close(name, by_dose, written, 0.15 * written);
        let own = (reference_minutes.low(), reference_minutes.high());
        assert!(own.0.get() < by_dose && by_dose < own.1.get(), "{name}");
    }
}

/// Two hours and a fold at one hour, as the made-up formula has them at 25 °C, are what other kitchens are held against.
/// The dough of 25 °C drifts towards the kitchen, so at 22 °C it takes longer than two hours, and less than the
/// rule has for a dough of 22 °C throughout; the fold comes later along with it.
#[test]
fn in_a_cooler_kitchen_it_takes_longer_but_no_longer_than_the_rule_says() {
    let usual = first_rise(25.0);
    // Moments are whole milliseconds.
    assert_close("at 25 °C", after(usual.window.likely()), 120.0, 1e-3);
    for kitchen in [16.0, 19.0, 22.0] {
        let rise = first_rise(kitchen);
        let likely = after(rise.window.likely());
        let fold = after(rise.next_fold().expect("it is folded"));
        let most = slower_by_the_rule(kitchen, 25.0);
        // 680 g of dough follow with a lag of less than two hours, and so are more than a third of the way to the
        // kitchen on average: 1 / e is left of 1 after one lag, 1 - 1 / e meanwhile.
        let least = slower_by_the_rule(25.0 - (25.0 - kitchen) / 3.0, 25.0);
        assert!(
            likely > 120.0 * least && likely < 120.0 * most,
            "{kitchen} °C: {likely} min"
        );
        assert!(
            fold > 60.0 && fold < 60.0 * most,
            "{kitchen} °C: fold after {fold} min"
        );
        assert!(fold < 0.5 * likely, "the dough is warmest at first");
    }
}

/// Bench rest takes a quarter of an hour: common practice, no source.
#[test]
fn shaped_dough_rests_for_a_quarter_of_an_hour() {
    for (name, likely) in [
        ("plum-almond-buns", 15.0),
        ("orange-braid", 15.0),
        // It comes out of the fridge, and cold dough is stiff.
        ("overnight-tin-loaf", 20.0),
    ] {
        let formula = starter(name);
        let rest = steps_of(&formula, StepKind::BenchRest)
            .next()
            .expect("it rests");
        let Length::Wait(range) = &rest.length else {
            panic!("a rest is waited for");
        };
        assert_eq!(range.likely(), minutes(likely), "{name}");
        assert!(
            range.low() <= minutes(15.0) && minutes(15.0) <= range.high(),
            "{name}"
        );
    }
}

/// The final proof takes 60 to 90 min: common practice, no source. In a kitchen of 22 to 24 °C, with a dough that came
/// off the bench at 25 °C and was never in the fridge.
#[test]
fn a_final_proof_takes_an_hour_to_an_hour_and_a_half() {
    for (name, air) in [
        ("plum-almond-buns", 22.0),
        ("plum-almond-buns", 24.0),
        ("orange-braid", 22.0),
        ("orange-braid", 24.0),
    ] {
        let formula = starter(name);
        let proof = steps_of(&formula, StepKind::FinalProof)
            .next()
            .expect("it proofs")
            .id;
        let kitchen = Kitchen {
            air: celsius(air),
            ..Kitchen::UNMEASURED
        };
        let likely = points(formula, kitchen, START)
            .into_iter()
            .find_map(|point| {
                let mut running = running(point.bake.state(), point.now).into_iter();
                let forecast = running.find(|forecast| forecast.step == proof)?;
                Some((forecast.window.likely() - forecast.start).get())
            });
        let likely = likely.expect("its proof is waited for");
        assert!(
            (60.0..=90.0).contains(&likely),
            "{name}, {air} °C: {likely} min"
        );
    }
}
