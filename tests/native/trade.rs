//! Facts of the trade against the model. None of them has a published source: each is common practice, no source.

mod rises;

use checks::{assert_close, starter};
use domain::formula::{Caution, Formula, Length, Step, StepKind};
use domain::kitchen::Kitchen;
use domain::thermal::cooling::cooling_window;
use domain::thermal::oven::{
    BakeForm, Baking, Dial, DialSetting, Fan, Heat, Today, Written, dial_setting, window_in,
    with_fan,
};
use domain::thermal::vessel::Surroundings;
use domain::units::{Moment, celsius, grams, metres, minutes};

const START: Moment = Moment::from_epoch_ms(1_700_000_000_000);

fn steps_of(formula: &Formula, kind: StepKind) -> impl Iterator<Item = &Step> {
    formula.steps.iter().filter(move |step| step.kind == kind)
}

fn after(moment: Moment) -> f64 {
    (moment - START).get()
}

/// A small filled bun bakes 20 to 25 min at 160 °C with a fan, 320 °F: common practice, no source. Without a fan that
/// is 180 °C, and the starter's buns bake 18 min at 190 °C. In the trade's oven the model has our 130 g bun at its 90 °C
/// after 18.5 min still and 17.7 min with a fan: the band's early end is missed by 1.5 and 2.3 min. A lighter bun is done
/// sooner still, one of 75 g after 13.0 min, so that ours isn't merely another bun than the trade's. The model asks for a
/// middle that is done, and the trade for colour, which comes later in a cooler oven and which the model leaves out.
/// Nor does the trade say how they stand: touching, ours take 24.2 min with a fan, within the band. The window of our
/// bun apart does reach into it.
#[test]
fn in_the_trade_s_oven_a_small_filled_bun_is_done_two_minutes_before_it_has_its_colour() {
    assert_eq!(with_fan(celsius(180.0)), celsius(160.0));
    assert_close("°F", celsius(160.0).to_fahrenheit(), 320.0, 1e-9);
    let set = dial_setting(celsius(180.0), Fan::On, Dial::Celsius);
    assert_eq!(set, Some(DialSetting::Celsius(160)));

    let formula = starter("plum-almond-buns");
    let bake = steps_of(&formula, StepKind::Bake)
        .next()
        .expect("buns are baked");
    let Length::Bake {
        range,
        piece,
        oven,
        core,
        ..
    } = &bake.length
    else {
        panic!("a bake has an oven");
    };
    assert_eq!((*piece, *oven), (grams(130.0), celsius(190.0)));
    let baking = Baking {
        piece: *piece,
        form: BakeForm::Round,
        dough: formula.reference,
        core: *core,
        altitude: metres(0.0),
    };
    let heat = |air, fan| Heat { air, fan };
    let own = heat(*oven, Fan::Off);
    let trade_from = 20.0;
    for (case, fan, takes, missed_by) in
        [("still", Fan::Off, 18.5, 1.5), ("fan", Fan::On, 17.7, 2.3)]
    {
        let air = match fan {
            Fan::Off => celsius(180.0),
            Fan::On => celsius(160.0),
        };
        let likely = range.likely().get() * baking.time_ratio(own, heat(air, fan));
        // What the figures are rounded to.
        assert_close(case, likely, takes, 0.05);
        assert_close(case, trade_from - likely, missed_by, 0.05);
    }
    let fan = heat(celsius(160.0), Fan::On);
    for (form, piece_g, takes) in [
        (BakeForm::Round, 75.0, 13.0),
        (BakeForm::Touching, 130.0, 24.2),
    ] {
        let other = Baking {
            piece: grams(piece_g),
            form,
            ..baking
        };
        let likely = range.likely().get() * other.longer_than(fan, &baking, own);
        assert_close(&format!("{piece_g} g, {form:?}"), likely, takes, 0.05);
        assert_eq!((20.0..=25.0).contains(&likely), form == BakeForm::Touching);
    }
    let ratio = baking.time_ratio(own, heat(celsius(180.0), Fan::Off));
    let range = range.map(|time| time * ratio);
    let unchecked = Kitchen::UNMEASURED.oven_spread();
    let window = window_in(
        &range,
        &baking,
        Written {
            form: BakeForm::Round,
            load: None,
            conventional: celsius(180.0),
        },
        Today {
            load: grams(1000.0),
            fan: Fan::On,
            off: unchecked,
        },
    );
    assert!(window.high() > minutes(22.5), "{window:?}");
    assert!(window.low() < minutes(17.0), "{window:?}");
}

/// A bun cools for at least 30 min before it can be glazed: common practice, no source. Glaze runs off above 30 to
/// 35 °C, as the starter says.
#[test]
fn a_bun_cools_for_half_an_hour_before_it_can_be_glazed() {
    let formula = starter("plum-almond-buns");
    let cool = steps_of(&formula, StepKind::Cool)
        .next()
        .expect("buns cool");
    let Length::Cool { to } = cool.length else {
        panic!("a cooling ends at a temperature");
    };
    assert!((30.0..=35.0).contains(&to.get()));
    let bun = BakeForm::Round.cooling(grams(130.0));
    for kitchen in [18.0, 22.0, 26.0] {
        let around = Surroundings::constant(celsius(kitchen));
        for to in [celsius(30.0), to] {
            let window = cooling_window(&bun, celsius(95.0), to, &around, START);
            let earliest = after(window.low());
            assert!(earliest >= 30.0, "{kitchen} °C, to {to:?}: {earliest} min");
        }
    }
}

/// A cream of starch and yolk cooks on low heat for about two minutes after it has thickened: common practice, no
/// source (Figoni and McGee, who print it, want it to boil, which thick cream does on low heat).
#[test]
fn a_cream_cooks_for_two_minutes_after_it_has_thickened() {
    let formula = starter("plum-almond-buns");
    let cook = steps_of(&formula, StepKind::Cook)
        .find(|step| step.cautions.contains(&Caution::HotCustard))
        .expect("the cream is cooked");
    let said = &cook.instruction;
    assert!(
        said.contains("thick") && said.contains("two minutes") && said.contains("low"),
        "{said}"
    );
    // To heat it takes longer than to cook it through.
    let Length::Hands(range) = &cook.length else {
        panic!("somebody stirs");
    };
    assert!(range.low() >= minutes(2.0) * 2.0);
}
