//! Every unit as it is written, in lower case and without accents and points, in the order in which it is searched.
//!
//! Sources: [`domain::units::measures`] for ounces, pounds and pints. A `Pfund` is 500 g, as it is sold; a dessertspoon
//! of 10 ml is common practice, no source.

use super::Unit::{
    self, Bunch, Clove, Container, Cube, Cup, Grams, Handful, Knob, Leaf, Millilitres, Packet,
    Piece, Pinch, Slice, Sprig, Stick, Tablespoon, Teaspoon,
};
use domain::units::measures::{self, Measure};

/// A kilogram in g.
pub(super) const KILO: f64 = 1000.0;
const POUND: f64 = measures::POUND.get();
const OUNCE: f64 = measures::OUNCE.get();
const FLUID_OUNCE: f64 = Measure::UsFluidOunce.volume().get();
/// A US pint is two cups. ASSUMPTION: nothing in a text says which pint is meant.
const PINT: f64 = Measure::UsPint.volume().get();

#[rustfmt::skip]
pub(super) static UNITS: &[(&str, Unit)] = &[
    ("baton", Stick), ("beutel", Packet), ("blad", Leaf), ("blatt", Leaf), ("boks", Container), ("botte", Bunch),
    ("branche", Sprig), ("brin", Sprig), ("brins", Sprig), ("bunch", Bunch), ("bund", Bunch), ("bunt", Bunch),
    ("c", Cup), ("c a c", Teaspoon), ("c a cafe", Teaspoon), ("c a s", Tablespoon), ("c a soupe", Tablespoon),
    ("c c", Teaspoon), ("c s", Tablespoon), ("can", Container), ("cans", Container), ("cas", Tablespoon),
    ("cc", Millilitres(1.0)), ("cda", Tablespoon), ("cdas", Tablespoon), ("cdita", Teaspoon), ("cditas", Teaspoon),
    ("cdta", Teaspoon), ("cdtas", Teaspoon), ("centiliter", Millilitres(10.0)), ("centilitre", Millilitres(10.0)),
    ("centilitres", Millilitres(10.0)), ("cl", Millilitres(10.0)), ("clove", Clove), ("cloves", Clove),
    ("cs", Tablespoon), ("cube", Cube), ("cubes", Cube), ("cubo", Cube), ("cubos", Cube),
    ("cucharada", Tablespoon), ("cucharada sopera", Tablespoon), ("cucharadas", Tablespoon),
    ("cucharadas soperas", Tablespoon), ("cucharadita", Teaspoon), ("cucharaditas", Teaspoon),
    ("cuil a cafe", Teaspoon), ("cuil a soupe", Tablespoon), ("cuillere a cafe", Teaspoon),
    ("cuillere a soupe", Tablespoon), ("cuillere a the", Teaspoon), ("cuilleree a cafe", Teaspoon),
    ("cuilleree a soupe", Tablespoon), ("cuillerees a cafe", Teaspoon), ("cuillerees a soupe", Tablespoon),
    ("cuilleres a cafe", Teaspoon), ("cuilleres a soupe", Tablespoon), ("cuilleres a the", Teaspoon), ("cup", Cup),
    ("cups", Cup),
    ("dag", Grams(10.0)), ("dash", Pinch), ("dashes", Pinch), ("deciliter", Millilitres(100.0)),
    ("decilitre", Millilitres(100.0)), ("decilitres", Millilitres(100.0)), ("desiliter", Millilitres(100.0)),
    ("dessertspoon", Millilitres(10.0)), ("dessertspoons", Millilitres(10.0)), ("diente", Clove),
    ("dientes", Clove), ("dkg", Grams(10.0)), ("dl", Millilitres(100.0)), ("dose", Container),
    ("dosen", Container), ("dsp", Millilitres(10.0)), ("dsps", Millilitres(10.0)),
    ("el", Tablespoon), ("envelope", Packet), ("envelopes", Packet), ("essloffel", Tablespoon),
    ("fedd", Clove), ("fetta", Slice), ("feuille", Leaf), ("feuilles", Leaf), ("fl oz", Millilitres(FLUID_OUNCE)),
    ("floz", Millilitres(FLUID_OUNCE)), ("fluid ounce", Millilitres(FLUID_OUNCE)),
    ("fluid ounces", Millilitres(FLUID_OUNCE)),
    ("g", Grams(1.0)), ("gill", Millilitres(PINT / 4.0)), ("glas", Container), ("gm", Grams(1.0)),
    ("gms", Grams(1.0)), ("gousse", Clove), ("gousses", Clove), ("gr", Grams(1.0)), ("gram", Grams(1.0)),
    ("gramm", Grams(1.0)), ("gramme", Grams(1.0)), ("grammes", Grams(1.0)), ("gramo", Grams(1.0)),
    ("gramos", Grams(1.0)), ("grams", Grams(1.0)), ("grating", Pinch), ("grs", Grams(1.0)),
    ("hand voll", Handful), ("handful", Handful), ("handfuls", Handful), ("handvoll", Handful),
    ("hg", Grams(100.0)), ("hoja", Leaf), ("hojas", Leaf),
    ("jar", Container), ("jars", Container),
    ("kaffeeloffel", Teaspoon), ("kg", Grams(KILO)), ("kilo", Grams(KILO)), ("kilogram", Grams(KILO)),
    ("kilogramm", Grams(KILO)), ("kilogramme", Grams(KILO)), ("kilogrammes", Grams(KILO)),
    ("kilogramo", Grams(KILO)), ("kilogramos", Grams(KILO)), ("kilograms", Grams(KILO)), ("kilos", Grams(KILO)),
    ("kl", Teaspoon), ("klatt", Knob), ("klype", Pinch), ("knivsodd", Pinch), ("knob", Knob), ("knobs", Knob),
    ("kopp", Cup), ("kopper", Cup), ("kvist", Sprig), ("kvister", Sprig),
    ("l", Millilitres(1000.0)), ("lata", Container), ("lb", Grams(POUND)), ("lbs", Grams(POUND)), ("leaf", Leaf),
    ("leaves", Leaf), ("liter", Millilitres(1000.0)), ("liters", Millilitres(1000.0)),
    ("litre", Millilitres(1000.0)), ("litres", Millilitres(1000.0)), ("litro", Millilitres(1000.0)),
    ("litros", Millilitres(1000.0)),
    ("messerspitze", Pinch), ("messerspitzen", Pinch), ("mg", Grams(0.001)), ("mililitros", Millilitres(1.0)),
    ("milliliter", Millilitres(1.0)), ("milliliters", Millilitres(1.0)), ("millilitre", Millilitres(1.0)),
    ("millilitres", Millilitres(1.0)), ("ml", Millilitres(1.0)), ("mls", Millilitres(1.0)), ("msk", Tablespoon),
    ("msp", Pinch),
    ("neve", Handful), ("noix", Knob), ("nuez", Knob),
    ("ounce", Grams(OUNCE)), ("ounces", Grams(OUNCE)), ("oz", Grams(OUNCE)), ("ozs", Grams(OUNCE)),
    ("pack", Packet), ("package", Packet), ("packages", Packet), ("packchen", Packet), ("packerl", Packet),
    ("packet", Packet), ("packets", Packet), ("packs", Packet), ("packung", Packet), ("pakke", Packet),
    ("pakker", Packet), ("paquet", Packet), ("paquete", Packet), ("paquetes", Packet), ("paquets", Packet),
    ("pastilla", Cube), ("pck", Packet), ("pfund", Grams(500.0)), ("pincee", Pinch), ("pincees", Pinch),
    ("pinch", Pinch), ("pinches", Pinch), ("pint", Millilitres(PINT)), ("pints", Millilitres(PINT)),
    ("pizca", Pinch), ("pizcas", Pinch), ("pk", Packet), ("pkg", Packet), ("pkgs", Packet), ("pkt", Packet),
    ("pkts", Packet), ("poignee", Handful), ("poignees", Handful), ("pose", Packet), ("poser", Packet),
    ("pot", Container), ("pound", Grams(POUND)), ("pounds", Grams(POUND)), ("prise", Pinch), ("prisen", Pinch),
    ("pt", Millilitres(PINT)), ("punado", Handful),
    ("qt", Millilitres(2.0 * PINT)), ("quart", Millilitres(2.0 * PINT)), ("quarts", Millilitres(2.0 * PINT)),
    ("ramita", Sprig), ("ramitas", Sprig), ("rebanada", Slice), ("rebanadas", Slice),
    ("sachet", Packet), ("sachets", Packet), ("scheibe", Slice), ("scheiben", Slice), ("skive", Slice),
    ("skiver", Slice), ("slice", Slice), ("slices", Slice), ("sobre", Packet), ("sobres", Packet),
    ("spiseskje", Tablespoon), ("spiseskjeer", Tablespoon), ("sprig", Sprig), ("sprigs", Sprig),
    ("ss", Tablespoon), ("st", Piece), ("stick", Stick), ("sticks", Stick), ("stk", Piece), ("stuck", Piece),
    ("t", Teaspoon), ("tablespoon", Tablespoon), ("tablespoonful", Tablespoon), ("tablespoonfuls", Tablespoon),
    ("tablespoons", Tablespoon), ("tasse", Cup), ("tassen", Cup), ("tasses", Cup), ("taza", Cup), ("tazas", Cup),
    ("tb", Tablespoon), ("tbl", Tablespoon), ("tbs", Tablespoon), ("tbsp", Tablespoon), ("tbsps", Tablespoon),
    ("teaspoon", Teaspoon), ("teaspoonful", Teaspoon), ("teaspoonfuls", Teaspoon), ("teaspoons", Teaspoon),
    ("teeloffel", Teaspoon), ("terning", Cube), ("teskje", Teaspoon), ("teskjeer", Teaspoon), ("tin", Container),
    ("tins", Container), ("tl", Teaspoon), ("tranche", Slice), ("tranches", Slice), ("ts", Teaspoon),
    ("tsk", Teaspoon), ("tsp", Teaspoon), ("tsps", Teaspoon), ("tutchen", Packet), ("tute", Packet),
    ("unidad", Piece), ("unidades", Piece),
    ("wurfel", Cube),
    ("zehe", Clove), ("zehen", Clove), ("zweig", Sprig), ("zweige", Sprig),
];
