//! A preferment goes into the dough as warm as it is: where it stood, or as it was read, and not as the kitchen is.

use checks::{assert_close, begin, say, starter};
use domain::bake::{Bake, Intent};
use domain::estimate::Estimate;
use domain::formula::{ComponentId, ComponentKind, Formula, Step, StepKind};
use domain::kitchen::{Kitchen, Place};
use domain::thermal::constants as known;
use domain::thermal::kneading::KneadingMethod;
use domain::thermal::liquid::{LiquidQuestion, dough_with, liquid_temperature};
use domain::thermal::mixing::{Part, PartKind};
use domain::units::{Celsius, Minutes, Moment, celsius, celsius_delta, minutes};

const FIVE: Moment = Moment::from_epoch_ms(1_795_276_800_000);
const AIR: Celsius = celsius(22.0);
/// As much enriched dough has 82 min (2.56 J/(g K), 1222 kg/m³); half water it has 3.08 J/(g K) by Choi & Okos, and 0.94 of
/// the density, of which a sphere's lag has the power 2/3.
const LAG: Minutes = minutes(93.0);

fn loaf() -> Formula {
    starter("overnight-tin-loaf")
}

fn step(formula: &Formula, kind: StepKind) -> Step {
    let mut steps = formula.steps.iter();
    steps
        .find(|step| step.kind == kind)
        .expect("it has one")
        .clone()
}

/// The loaf with its poolish mixed at [`FIVE`].
fn ripening() -> Bake {
    let kitchen = Kitchen {
        air: AIR,
        kneading: KneadingMethod::StandMixer,
        ..Kitchen::UNMEASURED
    };
    let mut bake = begin(loaf(), kitchen, FIVE);
    for kind in [StepKind::Gather, StepKind::Mix] {
        say(&mut bake, Intent::Done(step(&loaf(), kind).id), FIVE);
    }
    bake
}

fn dough() -> ComponentId {
    loaf().dough().expect("it has a dough").id
}

fn asked(bake: &Bake, now: Moment) -> LiquidQuestion {
    let question = bake.state().liquid_question(dough(), now);
    question.expect("its milk is tempered")
}

fn poolish(question: &LiquidQuestion) -> Part {
    let mut parts = question.parts.iter();
    let found = parts.find(|part| part.kind == PartKind::Preferment);
    *found.expect("it has a poolish")
}

fn width_k(window: &Estimate<Celsius>) -> f64 {
    (window.high() - window.low()).get()
}

/// By hand: the poolish holds 150 g of flour at 1.80 and 150 of water at 4.18 J/(g K), 899 J/K with its yeast. The rest
/// is 350 g of flour, 186 of milk at 3.92, butter, honey, salt and yeast of 127 J/K together, and 500 g of glass at 0.83:
/// 1901 J/K. So a third of what the poolish is colder is in the mixture, and exp(−8/20) of that is left by a mixer.
#[test]
fn a_night_in_the_fridge_makes_a_colder_dough_or_takes_warmer_liquid() {
    let mut cold = ripening();
    let ripens = step(&loaf(), StepKind::Bulk).id;
    say(
        &mut cold,
        Intent::Move(ripens, Place::Fridge),
        FIVE + minutes(20.0),
    );
    let morning = FIVE + minutes(14.0 * 60.0);
    say(&mut cold, Intent::Done(ripens), morning);
    let (cold, stood) = (asked(&cold, morning), asked(&ripening(), morning));
    // Ten lags on, nothing is left of what it was mixed at.
    assert_close(
        "in the fridge",
        poolish(&cold).temperature.get(),
        known::FRIDGE.get(),
        0.1,
    );
    // It may be as far off as the fridge is.
    assert_close(
        "as sure as the fridge",
        poolish(&cold).off.get(),
        known::UNMEASURED_FRIDGE.get(),
        0.05,
    );
    assert_close(
        "in the kitchen",
        poolish(&stood).temperature.get(),
        AIR.get(),
        0.1,
    );

    let colder_k = (AIR - known::FRIDGE).get();
    let with = |question: &LiquidQuestion| dough_with(question, celsius(25.0)).expect("a dough");
    let (one, other) = (with(&stood), with(&cold));
    let share = 899.0 / (899.0 + 1901.0);
    let left = (-8.0_f64 / 20.0).exp();
    assert_close(
        "the dough",
        (one.likely() - other.likely()).get(),
        share * left * colder_k,
        0.1,
    );
    // In quadrature with all else that is open.
    let mut sure = cold.clone();
    for part in &mut sure.parts {
        part.off = celsius_delta(0.0);
    }
    let open = share * left * known::UNMEASURED_FRIDGE.get();
    assert_close(
        "the window",
        width_k(&other) / 2.0,
        (width_k(&with(&sure)) / 2.0).hypot(open),
        0.02,
    );
    // The milk makes up for all of it, where it may: 899 J/K of the poolish by 729 of the milk.
    let wanted = |question: &LiquidQuestion| {
        let answer = liquid_temperature(question).expect("there is milk");
        answer.wanted.get()
    };
    assert_close(
        "the milk",
        wanted(&cold) - wanted(&stood),
        899.0 / 729.0 * colder_k,
        0.7,
    );
}

/// Half a lag takes it from the 24 °C it was mixed at to the kitchen's 22 by 1 − exp(−1/2).
#[test]
fn what_has_just_been_mixed_is_on_its_way_to_the_kitchen() {
    let mut bake = ripening();
    let now = FIVE + LAG * 0.5;
    say(
        &mut bake,
        Intent::Done(step(&loaf(), StepKind::Bulk).id),
        now,
    );
    let found = poolish(&asked(&bake, now));
    assert_close(
        "half a lag",
        found.temperature.get(),
        22.0 + 2.0 * (-0.5_f64).exp(),
        0.1,
    );
    // Of the two kelvin that nobody measured as much is left, along with as much of the kitchen as it followed.
    let followed = 1.0 - (-0.5_f64).exp();
    let off = (2.0 * (1.0 - followed)).hypot(known::UNMEASURED_AIR.get() * followed);
    assert_close("and as unsure", found.off.get(), off, 0.15);
}

#[test]
fn a_reading_of_it_counts_from_its_moment() {
    let mut bake = ripening();
    let preferment = step(&loaf(), StepKind::Bulk).component;
    let now = FIVE + minutes(150.0);
    say(&mut bake, Intent::DoughIs(preferment, celsius(12.0)), now);
    say(
        &mut bake,
        Intent::Done(step(&loaf(), StepKind::Bulk).id),
        now,
    );
    let found = poolish(&asked(&bake, now));
    assert_close("as read", found.temperature.get(), 12.0, 1e-9);
    assert_close("by a thermometer", found.off.get(), 0.5, 1e-9);
    // A lag later it has come most of the way.
    let later = poolish(&asked(&bake, now + LAG));
    assert_close(
        "a lag later",
        later.temperature.get(),
        22.0 - 10.0 * (-1.0_f64).exp(),
        0.2,
    );
}

/// While it ripens the dough is mixed when it is ripe, and before it is begun it is as the formula says.
#[test]
fn what_is_still_to_come_is_taken_as_it_will_be() {
    let bake = ripening();
    let found = poolish(&asked(&bake, FIVE + minutes(1.0)));
    assert_close("ripe", found.temperature.get(), AIR.get(), 0.5);
    let kitchen = Kitchen {
        air: AIR,
        ..Kitchen::UNMEASURED
    };
    let fresh = begin(loaf(), kitchen, FIVE);
    let by_formula = loaf().liquid_question(dough(), &kitchen);
    assert_eq!(
        fresh.state().liquid_question(dough(), FIVE),
        by_formula,
        "nothing is begun"
    );
    assert_eq!(
        poolish(&by_formula.expect("its milk is tempered")).temperature,
        AIR
    );
}

#[test]
fn a_formula_whose_preferment_ends_in_the_fridge_says_so() {
    let mut draft = loaf().into_draft();
    let preferment = draft.components.iter();
    let mut preferment = preferment.filter(|part| part.kind == ComponentKind::Preferment);
    let preferment = preferment.next().expect("it has a poolish").id;
    let mut steps = draft.steps.iter_mut();
    let ripens = steps.find(|step| step.kind == StepKind::Bulk && step.component == preferment);
    let ripens = ripens.expect("it ripens");
    ripens.kind = StepKind::Retard;
    let formula = Formula::new(draft).expect("only its place was changed");
    let question = formula.liquid_question(dough(), &Kitchen::UNMEASURED);
    let question = question.expect("its milk is tempered");
    assert_eq!(poolish(&question).temperature, known::FRIDGE);
}
