//! Against published facts; the sources stand in the module above.

use checks::assert_close;
use domain::food::food;
use domain::formula::manuscript::{At, Edit, Manuscript};
use domain::formula::{Caution, ComponentId, Length, Link, Step, StepKind};
use domain::thermal::cooling::two_stage;
use domain::thermal::vessel::{Cooling, Surroundings, Vessel};
use domain::units::{Moment, bakers_percent, celsius, grams, minutes};

use super::{CUSTARD_BUNS, NIGHT_LOAF, ROLLS, formula};

fn only(formula: &domain::formula::Formula, kind: StepKind) -> &Step {
    let mut found = formula.steps.iter().filter(|step| step.kind == kind);
    let step = found.next().expect("there is one");
    assert!(found.next().is_none(), "{kind:?} stands twice");
    step
}

/// Gisslen's brioche, typed as its percentages, and the grams that he prints beside them.
#[test]
fn a_published_formula_is_weighed_out_from_its_percentages() {
    let brioche = [
        ("milk", 20.0, 60.0),
        ("yeast-fresh", 5.0, 15.0),
        ("bread-flour", 100.0, 300.0),
        ("egg", 50.0, 150.0),
        ("sugar", 5.0, 15.0),
        ("salt", 2.0, 6.0),
        ("butter", 70.0, 210.0),
    ];
    let mut typed = Manuscript::blank("brioche");
    let component = ComponentId(1);
    for (place, (key, percent, _)) in brioche.into_iter().enumerate() {
        let at = At { component, place };
        for edit in [
            Edit::AddIngredient(component, key.to_owned()),
            Edit::Food(at, food(key)),
            Edit::Percent(at, bakers_percent(percent)),
        ] {
            assert_eq!(typed.apply(&edit), Ok(()), "{edit:?}");
        }
    }
    assert_eq!(typed.apply(&Edit::Flour(grams(300.0))), Ok(()));
    for (place, (key, _, printed_g)) in brioche.into_iter().enumerate() {
        let at = At { component, place };
        let mass = typed.ingredient(at).and_then(|part| part.mass);
        let mass = mass.expect("it is weighed");
        assert_close(key, mass.get(), printed_g, 1e-9);
    }
}

#[test]
fn the_oven_is_twenty_degrees_hotter_without_its_fan() {
    let rolls = formula(ROLLS);
    let bake = only(&rolls, StepKind::Bake);
    let Length::Bake {
        oven, core, piece, ..
    } = bake.length
    else {
        panic!("it bakes: {:?}", bake.length);
    };
    assert_eq!(oven, celsius(220.0));
    // Lean bread 92 to 96 °C (Kleinwächter; J. Peterson), as the starters' check has it.
    assert!((92.0..=96.0).contains(&core.get()));
    // 840 g in 8.
    assert_close("piece", piece.get(), 105.0, 1e-9);
}

/// However it is told, what is cooked with milk and egg is cold in time and stays so.
#[test]
fn a_custard_of_which_no_text_says_that_it_is_cooled_is_cold_in_time() {
    let buns = formula(CUSTARD_BUNS);
    let chill = only(&buns, StepKind::Chill);
    let component = buns.component_of(chill).expect("checked when made");
    let Length::Chill {
        from,
        to,
        depth,
        cooling,
    } = chill.length
    else {
        panic!("it is chilled: {:?}", chill.length);
    };
    assert_eq!(cooling, Cooling::IceBath);
    let vessel = Vessel::filling(component.mass(), depth, cooling);
    // Melting ice is at 0 °C.
    let ice = Surroundings::constant(celsius(1.0));
    let cooled = two_stage(&vessel, from, &ice, Moment::from_epoch_ms(0));
    assert!(cooled.passes, "{cooled:?}");
    assert!(to <= celsius(5.0));
    let away = buns.steps.iter().find(|step| step.puts_perishable_away());
    let away = away.expect("it is put into the fridge");
    let fill = only(&buns, StepKind::Fill);
    assert!(fill.after.iter().any(|link| link.step == away.id));
    let serve = only(&buns, StepKind::Serve);
    let baked = only(&buns, StepKind::Bake).id;
    let eaten = |link: &&Link| link.step == baked;
    let eaten = serve
        .after
        .iter()
        .find(eaten)
        .and_then(|link| link.greatest);
    assert_eq!(eaten, Some(minutes(120.0)));
    assert!(serve.cautions.contains(&Caution::Perishable));
    let Length::Bake { core, .. } = only(&buns, StepKind::Bake).length else {
        panic!("it bakes");
    };
    assert!(core > celsius(71.1));
}

/// European law has cereals, eggs and milk in its list (Regulation (EU) No 1169/2011, Annex II).
#[test]
fn whoever_gathers_and_serves_is_told_of_allergens() {
    for text in [ROLLS, CUSTARD_BUNS, NIGHT_LOAF] {
        let formula = formula(text);
        for kind in [StepKind::Gather, StepKind::Serve] {
            assert!(only(&formula, kind).cautions.contains(&Caution::Allergens));
        }
    }
}
