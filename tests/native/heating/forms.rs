//! Other forms: their bodies against the series along all their directions, their times against each
//! other, and what follows when a baker chooses one.

use checks::{assert_close, starter};
use domain::bake::BakeId;
use domain::estimate::Estimate;
use domain::formula::{ComponentKind, Draft, Formula, Held, Length, StepKind};
use domain::kitchen::Kitchen;
use domain::notebook::{Note, lessons};
use domain::thermal::oven::altitude::boiling_point;
use domain::thermal::oven::{BakeForm, Baking};
use domain::thermal::reach::Solid;
use domain::thermal::transient::{Axis, Shape};
use domain::thermal::vessel::{Form, Material};
use domain::units::{
    Celsius, Millimetres, Minutes, WattsPerSquareMetreKelvin, celsius, grams, metres, minutes,
    watts_per_square_metre_kelvin,
};

use super::{START, bake_step, baking, begin, in_oven, still};

/// A form as a product along all its directions, for a volume of one litre, by the proportions that the
/// model's documentation states; a layer is endless, as its middle piece has it.
fn all_directions(form: BakeForm) -> Vec<(Shape, f64)> {
    use std::f64::consts::PI;
    match form {
        BakeForm::Round => vec![(Shape::Sphere, (0.75 / PI).cbrt())],
        BakeForm::Long => {
            let radius = (1.0 / (8.0 * PI)).cbrt();
            vec![(Shape::Cylinder, radius), (Shape::Slab, 4.0 * radius)]
        }
        BakeForm::Ring => vec![(Shape::Cylinder, (1.0 / (6.0 * PI * PI)).cbrt())],
        BakeForm::Tin => {
            let side = (1.0_f64 / (2.3 * 0.8)).cbrt();
            let half = [0.5, 1.15, 0.4].map(|part| (Shape::Slab, part * side));
            half.to_vec()
        }
        BakeForm::Touching => vec![(Shape::Slab, 0.5 * (1.0_f64 / 2.25).cbrt())],
    }
}

/// 2 % of the time: the ends that count for nothing, and a box that is taken for a ball.
#[test]
fn one_direction_serves_for_all_of_a_form_s() {
    let held = WattsPerSquareMetreKelvin::MAX;
    let (dough, core, boiling) = (celsius(25.0), celsius(92.0), boiling_point(metres(0.0)));
    for form in BakeForm::ALL {
        let taken = |axes: Vec<Axis>| {
            let solid = Solid {
                axes,
                material: Material::DOUGH,
                film: held,
            };
            let taken = solid.time_to(dough, boiling, core);
            taken.expect("it bakes through").get()
        };
        let litre = grams(Material::DOUGH.density.get());
        let body = form.body(litre, Material::DOUGH, held);
        let (shape, length) = match body.form {
            Form::Sphere { radius } => (Shape::Sphere, radius),
            Form::Stick { radius } => (Shape::Cylinder, radius),
            Form::Layer { depth } => (Shape::Slab, depth),
            other => panic!("{form:?} is {other:?}"),
        };
        let directions = all_directions(form).into_iter();
        let directions = directions.map(|(shape, decimetres)| Axis {
            shape,
            length: Millimetres::clamped(100.0 * decimetres),
        });
        let wanted = taken(directions.collect());
        let got = taken(vec![Axis { shape, length }]);
        assert_close(&format!("{form:?}"), got, wanted, 0.02 * wanted);
    }
}

/// Three formulas of ours, written apart from each other: from the buns' time follow the others'.
/// A quarter, for a braid is no stick, and tins and kneaders differ.
#[test]
fn the_starters_times_follow_from_one_another() {
    let bun = baking(130.0, 25.0, 92.0);
    for (name, form, piece_g, oven_c, minutes) in [
        ("loaf", BakeForm::Tin, 900.0, 200.0, 40.0),
        ("braid", BakeForm::Long, 750.0, 180.0, 32.0),
    ] {
        let bread = Baking {
            form,
            ..baking(piece_g, 25.0, 92.0)
        };
        let longer = bread.longer_than(still(oven_c), &bun, still(190.0));
        assert_close(name, 18.0 * longer, minutes, 0.25 * minutes);
    }
}

/// Fifteen pieces of 52 g in a tin of 330 by 230 mm are as deep as the model has it, between as they rise,
/// at 2.07 mL/g, and as they have baked, at 4.5 mL/g: a pup loaf of 160 g comes to 720 mL (`reckoned.json`).
#[test]
fn pieces_that_touch_are_as_deep_as_a_tin_of_them() {
    let air = watts_per_square_metre_kelvin(21.0);
    let risen = Material {
        density: domain::units::kilograms_per_cubic_metre(484.0),
        ..Material::DOUGH
    };
    let Form::Layer { depth: half } = BakeForm::Touching.body(grams(52.0), risen, air).form else {
        panic!("it is a layer");
    };
    let deep_mm = 2.0 * half.get();
    let in_tin = |ml_per_g: f64| 15.0 * 52.0 * ml_per_g * 1000.0 / (330.0 * 230.0);
    assert!(in_tin(2.07) < deep_mm && deep_mm < in_tin(4.5), "{deep_mm}");
}

fn buns() -> Formula {
    starter("plum-almond-buns")
}

#[test]
fn the_starters_know_their_own_form() {
    for (name, form) in [
        ("plum-almond-buns", BakeForm::Round),
        ("orange-braid", BakeForm::Long),
        ("overnight-tin-loaf", BakeForm::Tin),
    ] {
        let formula = starter(name);
        assert_eq!((formula.pieces.form, formula.other_form()), (form, None));
        assert_eq!(formula.in_form(form), formula);
    }
}

/// Touching takes longer and a ring less; what isn't known of the form widens the window by a fifth to either side.
#[test]
fn the_time_in_the_oven_follows_the_form() {
    let kitchen = Kitchen::UNMEASURED;
    let own = in_oven(buns(), kitchen);
    let formula_bread = baking(130.0, 25.0, 90.0);
    for form in [BakeForm::Touching, BakeForm::Ring, BakeForm::Tin] {
        let changed = buns().in_form(form);
        assert_eq!(changed.other_form(), Some(form));
        let window = in_oven(changed.clone(), kitchen);
        let bread = Baking {
            form,
            ..formula_bread
        };
        let ratio = bread.form_ratio(BakeForm::Round, still(190.0));
        let case = format!("{form:?}");
        assert_close(&case, window.likely() / own.likely(), ratio, 1e-9);
        let wide = |window: Estimate<Minutes>| (window.high() / window.low()).ln();
        assert!(wide(window) > wide(own) + 0.1, "{case}");
        assert!(window.low() < window.likely() * (1.0 / 1.2), "{case}");
        assert!(window.high() > window.likely() * 1.2, "{case}");
        // There and back it is what it was.
        assert_eq!(in_oven(changed.in_form(BakeForm::Round), kitchen), own);
    }
    let touching = Baking {
        form: BakeForm::Touching,
        ..formula_bread
    };
    let longer = touching.form_ratio(BakeForm::Round, still(190.0));
    assert!((1.2..1.5).contains(&longer), "{longer}");
}

#[test]
fn a_formula_remembers_the_form_of_its_time() {
    let twice = buns().in_form(BakeForm::Tin).in_form(BakeForm::Ring);
    let Length::Bake { form, .. } = bake_step(&twice).length else {
        panic!("it bakes");
    };
    assert_eq!(form, Some(BakeForm::Round));
    let held = |formula: &Formula| {
        let mut steps = formula.steps.iter();
        let proof = steps.find(|step| step.kind == StepKind::FinalProof);
        match &proof.expect("it proofs").length {
            Length::Ferment { held, .. } => *held,
            other => panic!("{other:?}"),
        }
    };
    assert_eq!(held(&buns()), Held::Tray);
    assert_eq!(held(&buns().in_form(BakeForm::Tin)), Held::Tin);
    assert_eq!(held(&twice), Held::Tray);
    assert_eq!(held(&starter("overnight-tin-loaf")), Held::Tin);
    let free = starter("overnight-tin-loaf").in_form(BakeForm::Round);
    assert_eq!(held(&free), Held::Tray);
}

/// In its tin a piece rises as one body with its filling, in the form in which it bakes; and a log from before forms
/// were known, where a tin loaf has the form of a bun, says the same.
#[test]
fn the_last_rise_in_a_tin_is_the_tins_with_all_that_is_in_it() {
    let cold = Kitchen {
        air: celsius(12.0),
        ..Kitchen::UNMEASURED
    };
    let rises = |formula: &Formula| {
        let bake = begin(formula.clone(), cold);
        let state = bake.state();
        let mut steps = state.formula.steps.iter();
        let proof = steps.find(|step| step.kind == StepKind::FinalProof);
        state.length_if_started(proof.expect("it proofs"), START)
    };
    let changed = |formula: &Formula, change: &dyn Fn(&mut Draft)| {
        let mut draft = formula.clone().into_draft();
        change(&mut draft);
        Formula::new(draft).expect("it stays possible")
    };
    let tin = buns().in_form(BakeForm::Tin);
    let without_form = changed(&tin, &|draft| draft.pieces.form = BakeForm::Round);
    assert_eq!(rises(&without_form), rises(&tin));
    // A cold kitchen takes longer to cool what is larger.
    let more_filling = changed(&tin, &|draft| {
        let components = draft.components.iter_mut();
        for component in components.filter(|one| one.kind == ComponentKind::Filling) {
            for part in &mut component.ingredients {
                part.mass = part.mass * 3.0;
            }
        }
    });
    assert!(more_filling.oven_piece() > tin.oven_piece() * 1.5);
    assert!(rises(&more_filling).likely() < rises(&tin).likely() - minutes(1.0));
}

/// What is cooled through less of its surface takes longer, and a thin ring doesn't.
#[test]
fn the_cooling_follows_the_form() {
    let cools = |form: BakeForm| {
        let bake = begin(buns().in_form(form), Kitchen::UNMEASURED);
        let state = bake.state();
        let mut steps = state.formula.steps.iter();
        let cool = steps.find(|step| matches!(step.length, Length::Cool { .. }));
        state
            .length_if_started(cool.expect("buns cool"), START)
            .likely()
    };
    let apart = cools(BakeForm::Round);
    assert!(cools(BakeForm::Touching) > apart * 1.2);
    assert!(cools(BakeForm::Ring) < apart);
    assert!(cools(BakeForm::Ring) > minutes(10.0));
}

/// A layer's middle warms sooner on the way than a ball's, when both are done at once.
#[test]
fn the_course_of_the_middle_follows_the_form() {
    let half_way = |form: BakeForm| {
        let bread = Baking {
            form,
            ..baking(130.0, 25.0, 90.0)
        };
        let likely = minutes(20.0);
        let course = domain::thermal::oven::oven_course(&bread, still(190.0), START, likely);
        let at_end: Celsius = course.core_at(START + likely);
        assert_close("done", at_end.get(), 90.0, 1e-3);
        course.core_at(START + likely * 0.5)
    };
    assert!(half_way(BakeForm::Touching).get() > half_way(BakeForm::Round).get() + 3.0);
}

/// What somebody wrote at the oven about buns that touched says nothing of buns that stand free, and the
/// other way round; what was written at the kneading holds for both.
#[test]
fn what_was_written_at_the_oven_is_remembered_for_the_same_form() {
    let step = |kind| {
        let formula = buns();
        let found = formula.steps.iter().find(|step| step.kind == kind);
        found.expect("it has one").clone()
    };
    let (knead, bake) = (step(StepKind::Knead), step(StepKind::Bake));
    let note = |form, minute: f64, text: &str| Note {
        bake: BakeId(text.to_owned()),
        formula: buns().id.clone(),
        form,
        at: START + minutes(minute),
        text: String::new(),
        differently: vec![(knead.id, text.to_owned()), (bake.id, text.to_owned())],
    };
    let notes = [
        note(None, 1.0, "free"),
        note(Some(BakeForm::Touching), 2.0, "touching"),
    ];
    let touching = buns().in_form(BakeForm::Touching);
    assert_eq!(lessons(&notes, &buns(), &bake), ["free"]);
    assert_eq!(lessons(&notes, &touching, &bake), ["touching"]);
    assert_eq!(lessons(&notes, &touching, &knead), ["touching", "free"]);
}
