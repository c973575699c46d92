//! Defaults of every kind on every component: what the starters' own checks ask of steps.

use super::*;
use crate::formula::{ComponentId, Length};
use crate::units::{celsius, grams, minutes};

const KINDS: [StepKind; 22] = [
    StepKind::Gather,
    StepKind::Cook,
    StepKind::Chill,
    StepKind::Mix,
    StepKind::Knead,
    StepKind::TakeTemperature,
    StepKind::Bulk,
    StepKind::Retard,
    StepKind::Divide,
    StepKind::PreShape,
    StepKind::BenchRest,
    StepKind::Shape,
    StepKind::Fill,
    StepKind::FinalProof,
    StepKind::OvenOn,
    StepKind::OvenHeats,
    StepKind::Wash,
    StepKind::Bake,
    StepKind::Cool,
    StepKind::Prepare,
    StepKind::Finish,
    StepKind::Serve,
];
const PLAYS: [ComponentKind; 6] = [
    ComponentKind::Preferment,
    ComponentKind::Dough,
    ComponentKind::Filling,
    ComponentKind::Wash,
    ComponentKind::Glaze,
    ComponentKind::Coating,
];
const PREPARED: [Preparing; 5] = [
    Preparing::Cover,
    Preparing::IntoFridge,
    Preparing::IntoOven,
    Preparing::OutOfOven,
    Preparing::FillingAway,
];

fn setting(kind: ComponentKind) -> Setting<'static> {
    let holds = Holds {
        flour: true,
        egg: true,
        milk: true,
        allergens: true,
    };
    Setting {
        component: ComponentId(1),
        kind,
        name: "almond cream",
        holds,
        all: holds,
        filling_spoils: true,
        piece: Some(grams(130.0)),
        form: BakeForm::Round,
        is_rich: true,
    }
}

fn each(check: impl Fn(&Step)) {
    for plays in PLAYS {
        for form in BakeForm::ALL {
            let at = Setting {
                form,
                ..setting(plays)
            };
            KINDS.iter().for_each(|&kind| check(&step(kind, &at)));
            PREPARED
                .iter()
                .for_each(|&what| check(&preparing(what, &at)));
        }
    }
}

#[test]
fn words_are_few() {
    each(|step| {
        let words = |text: &str| text.split_whitespace().count();
        assert!(
            (1..=Step::MOST_WORDS).contains(&words(&step.instruction)),
            "{step:?}"
        );
        assert!((1..=4).contains(&words(&step.title)), "{step:?}");
        assert!(
            words(&step.detail) <= 60 && words(&step.why) <= 40,
            "{step:?}"
        );
    });
}

#[test]
fn what_goes_on_by_itself_needs_no_hands() {
    each(|step| {
        assert_eq!(step.is_hands(), step.needs.hands, "{step:?}");
        assert!(step.is_hands() || step.checklist.is_none(), "{step:?}");
    });
}

#[test]
fn temperatures_in_both_scales_agree() {
    for is_rich in [true, false] {
        let at = Setting {
            is_rich,
            ..setting(ComponentKind::Dough)
        };
        let bake = step(StepKind::Bake, &at);
        let Length::Bake { core, .. } = bake.length else {
            panic!("a bake bakes: {:?}", bake.length);
        };
        // Egg wants 71.1 °C (USDA).
        assert!(core > celsius(71.1));
        let said = format!(
            "{} °C ({} °F)",
            core.get(),
            (core.get() * 1.8 + 32.0).round()
        );
        assert!(bake.cue.contains(&said), "{}", bake.cue);
    }
}

/// The European list of allergens, Regulation (EU) No 1169/2011, Annex II, has wheat, egg and milk.
#[test]
fn cautions_stand_where_the_hand_is() {
    let warns = |step: &Step, caution| assert!(step.cautions.contains(&caution), "{step:?}");
    let of = |kind, plays| step(kind, &setting(plays));
    warns(
        &of(StepKind::Gather, ComponentKind::Dough),
        Caution::Allergens,
    );
    warns(
        &of(StepKind::Serve, ComponentKind::Dough),
        Caution::Allergens,
    );
    warns(
        &of(StepKind::Serve, ComponentKind::Dough),
        Caution::Perishable,
    );
    warns(&of(StepKind::Mix, ComponentKind::Dough), Caution::RawFlour);
    warns(&of(StepKind::Mix, ComponentKind::Dough), Caution::RawEgg);
    warns(&of(StepKind::Wash, ComponentKind::Wash), Caution::RawEgg);
    warns(
        &of(StepKind::Cook, ComponentKind::Filling),
        Caution::HotCustard,
    );
    warns(&of(StepKind::Cook, ComponentKind::Glaze), Caution::HotSugar);
    warns(
        &of(StepKind::Chill, ComponentKind::Filling),
        Caution::CoolQuickly,
    );
    warns(
        &of(StepKind::Fill, ComponentKind::Filling),
        Caution::Perishable,
    );
    let away = preparing(Preparing::FillingAway, &setting(ComponentKind::Filling));
    assert!(away.puts_perishable_away());
    for what in [Preparing::IntoOven, Preparing::OutOfOven] {
        warns(
            &preparing(what, &setting(ComponentKind::Dough)),
            Caution::HotOven,
        );
    }
}

/// The starters' own times at their own pieces: a palette that follows them gives them back.
#[test]
fn a_larger_piece_bakes_longer() {
    let likely = |form, piece| bake_minutes(form, piece).likely().get();
    assert_eq!(likely(BakeForm::Tin, Some(grams(900.0))), 40.0);
    assert_eq!(likely(BakeForm::Round, None), 18.0);
    // t = t0 (m / m0)^(2/3): 18 × (8)^(2/3) = 72.
    let eightfold = likely(BakeForm::Round, Some(grams(1040.0)));
    assert!((eightfold - 72.0).abs() < 1e-9);
}

#[test]
fn a_time_that_is_told_is_the_likely_one() {
    let told = spread(StepKind::Bake, minutes(20.0), minutes(20.0));
    assert_eq!(told.likely().get(), 20.0);
    assert!(told.low() < told.likely() && told.likely() < told.high());
    let turned = spread(StepKind::Bulk, minutes(90.0), minutes(60.0));
    assert_eq!(turned, spread(StepKind::Bulk, minutes(60.0), minutes(90.0)));
    let range = spread(StepKind::Bulk, minutes(60.0), minutes(90.0));
    assert_eq!(
        (range.low().get(), range.likely().get(), range.high().get()),
        (60.0, 75.0, 90.0)
    );
}
