//! Manuscripts of texts of our own.

use domain::formula::manuscript::{At, Open};
use domain::formula::{ComponentKind, Kept, Length, StepKind};

use super::*;

fn manuscript(text: &str) -> Manuscript {
    let found = crate::read(text.as_bytes()).expect("it is a formula");
    to_manuscript(&found, "test")
}

const BUNS: &str = "\
Cardamom buns

Makes 10 buns

Dough
500 g strong white flour
2-3 tsp sugar
250 ml milk
1 egg, beaten
75 g butter, softened
10 g salt
1 sachet instant yeast
a little flour for dusting

Filling
100 g cold butter
80 g sugar

1. Mix everything for the dough and knead for 10 minutes.
2. Cover and leave to rise for 90 minutes.
3. Divide into 10 pieces and shape into balls.
4. Leave to rise for 45 minutes.
5. Bake at 180 °C fan for 15 minutes.
";

fn part<'a>(manuscript: &'a Manuscript, name: &str) -> &'a manuscript::Ingredient {
    let all = manuscript
        .components
        .iter()
        .flat_map(|one| &one.ingredients);
    let mut all = all.filter(|part| part.name.contains(name));
    all.next()
        .unwrap_or_else(|| panic!("no {name}: {manuscript:?}"))
}

#[test]
fn masses_say_where_they_are_from() {
    let buns = manuscript(BUNS);
    assert_eq!(part(&buns, "strong").basis, MassBasis::Weighed);
    let MassBasis::Converted { rests_on, .. } = part(&buns, "milk").basis else {
        panic!("it is converted: {:?}", part(&buns, "milk"));
    };
    assert!(rests_on <= RestsOn::Density);
    let MassBasis::Converted { rests_on, .. } = part(&buns, "instant").basis else {
        panic!("it is converted: {:?}", part(&buns, "instant"));
    };
    assert_eq!(rests_on, RestsOn::Trade);
    assert!(part(&buns, "dusting").as_liked && part(&buns, "dusting").mass.is_none());
    assert_eq!(part(&buns, "strong").written, "500 g");
}

#[test]
fn what_spoils_waits_in_the_fridge_and_the_milk_is_tempered() {
    let buns = manuscript(BUNS);
    assert_eq!(part(&buns, "milk").kept, Kept::Fridge);
    assert_eq!(part(&buns, "egg").kept, Kept::Fridge);
    assert_eq!(part(&buns, "strong").kept, Kept::Kitchen);
    // Softened in the dough, cold in the filling.
    let butters: Vec<Kept> = buns
        .components
        .iter()
        .flat_map(|one| &one.ingredients)
        .filter(|part| part.food.is_some_and(|food| food.key == "butter"))
        .map(|part| part.kept)
        .collect();
    assert_eq!(butters, [Kept::Kitchen, Kept::Fridge]);
    let tempered = buns.components.iter().flat_map(|one| &one.ingredients);
    let tempered: Vec<_> = tempered
        .filter(|part| part.tempered)
        .map(|part| &part.name)
        .collect();
    assert_eq!(tempered, ["milk"]);
}

#[test]
fn steps_are_told_apart_and_marked() {
    let buns = manuscript(BUNS);
    let of = |kind| buns.steps.iter().find(move |line| line.step.kind == kind);
    let proof = of(StepKind::FinalProof).expect("it rises twice");
    assert!(proof.step.instruction.contains("45") && !proof.assumed.time);
    let bake = of(StepKind::Bake).expect("it is baked");
    // 20 K more without the fan (New South Wales Government, *Healthy Kids*).
    assert!(matches!(bake.step.length, Length::Bake { oven, .. } if oven.get() == 200.0));
    assert!(!bake.assumed.heat && !bake.assumed.time);
    assert!(of(StepKind::OvenOn).is_some_and(|line| line.assumed.whole));
    assert_eq!(
        (buns.pieces.count, buns.pieces.plural.as_str()),
        (Some(10), "buns")
    );
    assert_eq!(buns.pieces.noun, "bun");
}

#[test]
fn a_whole_text_is_a_formula_once_nothing_essential_is_open() {
    let buns = manuscript(BUNS);
    let formula = buns.formula();
    assert!(formula.is_ok(), "{formula:?}");
    let no_heat = manuscript(&BUNS.replace(" at 180 °C fan", ""));
    let Err(open) = no_heat.formula() else {
        panic!("nobody said how hot the oven is");
    };
    assert!(matches!(open[..], [Open::OvenHeat(_)]), "{open:?}");
    let no_salt = manuscript(&BUNS.replace("10 g salt", "salt"));
    let Err(open) = no_salt.formula() else {
        panic!("nobody said how much salt");
    };
    let component = ComponentId(1);
    assert_eq!(
        open,
        [Open::HowMuch(At {
            component,
            place: 5
        })]
    );
}

#[test]
fn percentages_follow_the_flour() {
    let text = "Loaf\n\n1000 g bread flour 100%\nwater 65%\nsalt 2%\nyeast 1%\n\nKnead 10 minutes. Bake at 230 °C for 40 minutes.";
    let mut loaf = manuscript(text);
    assert!(
        matches!(part(&loaf, "water").basis, MassBasis::Percentage(_)),
        "{loaf:?}"
    );
    let at = At {
        component: ComponentId(1),
        place: 0,
    };
    let edit = manuscript::Edit::Mass(at, Some(domain::units::grams(500.0)));
    assert_eq!(loaf.apply(&edit), Ok(()));
    assert_eq!(
        part(&loaf, "water").mass.map(|mass| mass.get().round()),
        Some(325.0)
    );
}

#[test]
fn plain_yeast_by_the_cube_is_fresh() {
    let text = "Brot\n\n500 g Mehl\n300 ml Wasser\n10 g Salz\n1 Würfel Hefe\n\n10 Minuten kneten. Bei 220 °C 40 Minuten backen.";
    let brot = manuscript(text);
    let yeast = part(&brot, "Hefe");
    assert_eq!(yeast.food.map(|food| food.key), Some("yeast-fresh"));
    assert!(yeast.kept == Kept::Fridge);
}

#[test]
fn a_night_in_the_fridge_is_a_retard_whatever_it_is_called() {
    let text = "Bread\n\n500 g flour\n350 g water\n10 g salt\n2 g instant yeast\n\n\
        1. Mix for 5 minutes.\n2. Leave to rise overnight in the fridge.\n3. Shape into a loaf in a loaf tin.\n\
        4. Leave to rise for 2 hours.\n5. Bake at 220 °C for 35 minutes.";
    let bread = manuscript(text);
    let kinds: Vec<_> = bread.steps.iter().map(|line| line.step.kind).collect();
    assert!(kinds.contains(&StepKind::Retard), "{kinds:?}");
    assert!(kinds.contains(&StepKind::FinalProof), "{kinds:?}");
    assert_eq!(bread.pieces.form, BakeForm::Tin);
}

#[test]
fn a_text_without_steps_has_none() {
    let found = Found {
        name: "List".to_owned(),
        ..Found::default()
    };
    let list = to_manuscript(&found, "list");
    assert!(list.steps.is_empty() && list.components.is_empty());
    assert!(list.open().contains(&Open::NoSteps));
}

const SWIRLS: &str = "\
Apple swirls

For the sponge:
100 g strong white flour
100 ml warm water
1 tsp dried yeast

For the dough:
400 g strong white flour
200 ml milk, lukewarm
60 g caster sugar
8 g salt
75 g unsalted butter, very soft

For the filling:
3 apples, peeled and diced
50 g brown sugar
20 g butter

Method
1. The night before, mix the sponge ingredients, cover and leave at room temperature overnight.
2. Add the remaining dough ingredients except the butter and mix to a soft dough. Knead for 10 minutes.
3. Cover and leave to rise for 1 hour.
4. Meanwhile, cook the apples for 10 minutes until soft. Leave to cool completely.
5. Roll out the dough to a rectangle. Spread with the apples, roll up and cut into 12 slices. Place on a lined baking tray.
6. Cover and leave to prove for 40 minutes. Preheat the oven to 200 C.
7. Bake for 20-25 minutes until golden.
";

/// Told in one breath and out of order, as people write.
#[test]
fn a_text_as_people_write_it_keeps_its_parts_apart() {
    let swirls = manuscript(SWIRLS);
    let of = |kind: ComponentKind| {
        let component = swirls.components.iter().find(|one| one.kind == kind);
        let id = component.map(|one| one.id);
        let own = swirls
            .steps
            .iter()
            .filter(|line| Some(line.step.component) == id);
        own.map(|line| line.step.kind).collect::<Vec<_>>()
    };
    use StepKind::{Bulk, Chill, Cook, Fill, Mix};
    assert_eq!(of(ComponentKind::Preferment), [Mix, Bulk]);
    assert_eq!(of(ComponentKind::Filling), [Cook, Chill, Fill]);
    let dough = of(ComponentKind::Dough);
    let count = |kind| dough.iter().filter(|&&other| other == kind).count();
    assert_eq!(
        (
            count(StepKind::Bake),
            count(StepKind::FinalProof),
            count(Bulk)
        ),
        (1, 1, 1)
    );
    assert_eq!(count(StepKind::Divide), 0);
}

#[test]
fn a_second_dough_of_flour_water_and_yeast_is_fermented_ahead() {
    let text = "Brot\n\nVorteig\n150 g Mehl\n150 g Wasser\n1 g frische Hefe\n\nHauptteig\n350 g Mehl\n150 g Wasser\n10 g Salz\n\n\
        Zubereitung\nFür den Vorteig alles verrühren und 12 Stunden reifen lassen.\nAlles 8 Minuten kneten.\nBei 220 °C 40 Minuten backen.";
    let brot = manuscript(text);
    let plays: Vec<_> = brot.components.iter().map(|one| one.kind).collect();
    assert_eq!(plays, [ComponentKind::Preferment, ComponentKind::Dough]);
    let ripe = brot
        .steps
        .iter()
        .find(|line| line.step.kind == StepKind::Bulk);
    assert_eq!(ripe.map(|line| line.step.component), Some(ComponentId(1)));
}
