//! Formulas that bakers bring: from a text to a manuscript, to a formula, to a bake that is planned.
//!
//! All texts are our own. Sources:
//! - W. Gisslen, *Professional Baking* (2008), ch. 1 (baker's percentages) and ch. 9 (the brioche's: milk 20, fresh
//!   yeast 5, flour 100, eggs 50, sugar 5, salt 2, butter 70 % of flour, printed beside the grams for 300 g of flour),
//!   as `scaling` has it;
//! - New South Wales Government, *Healthy Kids*, conversion chart: with a fan 20 °C lower;
//! - FDA Food Code 3-501.14: cooked food from 57 to 21 °C within two hours, to 5 °C within six in all;
//! - USDA: egg dishes 71.1 °C (160 °F), and two hours at most outside the fridge.

mod any;
mod facts;
mod planned;

use domain::formula::Formula;
use domain::formula::manuscript::Manuscript;

/// What becomes of a text.
fn manuscript(text: &str) -> Manuscript {
    let found = reader::read(text.as_bytes()).expect("it is a formula");
    reader::to_manuscript(&found, "brought")
}

/// The formula of a text that leaves nothing essential open.
fn formula(text: &str) -> Formula {
    let manuscript = manuscript(text);
    let formula = manuscript.formula();
    formula.unwrap_or_else(|open| panic!("{open:?}: {manuscript:?}"))
}

const ROLLS: &str = "\
Evening rolls

Makes 8 rolls

500 g strong white flour
325 g water
10 g fine salt
5 g instant yeast

1. Stir everything together and knead for 10 minutes.
2. Leave to rise for 90 minutes.
3. Divide into 8 and shape into balls.
4. Leave to rise for 45 minutes.
5. Bake at 200 °C fan for 20 minutes.
";

const CUSTARD_BUNS: &str = "\
Custard buns

Makes 9 buns

For the dough
400 g bread flour
180 g whole milk
50 g egg
60 g soft butter
50 g sugar
8 g salt
6 g instant yeast

For the filling
300 g whole milk
60 g egg yolks
60 g sugar
25 g cornstarch

For the egg wash
30 g beaten egg

1. Filling: boil the milk, whisk in the egg yolks, sugar and cornstarch and cook for 3 minutes.
2. Mix the dough and knead for 12 minutes.
3. Leave to rise for 90 minutes.
4. Divide into 9 pieces and shape into rounds.
5. Fill with the custard and pinch shut.
6. Leave to rise for 50 minutes.
7. Brush with beaten egg.
8. Bake at 190 °C for 18 minutes.
";

const NIGHT_LOAF: &str = "\
Night loaf

Makes 1 loaf

500 g bread flour
350 g water
10 g salt
3 g instant yeast

1. Mix everything for 5 minutes.
2. Leave to rise for 1 hour.
3. Put into the fridge overnight.
4. Shape the loaf and put it into a greased loaf tin.
5. Leave to rise for 2 hours.
6. Bake at 220 °C for 40 minutes.
";
