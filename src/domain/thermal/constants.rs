//! The numbers that the heat models of mixing, kneading and baking rest on.
//!
//! Each has its unit in its type, and beside it its source and how far off it
//! may be. "Uncertain by" is half the width of the window that holds it nine
//! times in ten at either end. What no source gives is marked ASSUMPTION.

use crate::units::{
    Celsius, CelsiusDelta, JoulesPerGram, JoulesPerGramKelvin, Share, celsius, celsius_delta,
    joules_per_gram, joules_per_gram_kelvin, share,
};

/// Heat set free when a gram of flour of 11 to 12 % water takes up water.
///
/// 6.5 BTU/lb of flour: bakers' dictionary of *Baking Business*, "Heat of hydration".
/// Çengel and Boles, *Thermodynamics*, 8th ed., ch. 5 prob. 157, take 15 kJ per
/// kg of dough, about 22 J per gram of flour. We follow the first.
pub const HEAT_OF_HYDRATION: JoulesPerGram = joules_per_gram(15.1);

/// [`HEAT_OF_HYDRATION`] is uncertain by this: half-way to the other source.
pub const HEAT_OF_HYDRATION_SPREAD: JoulesPerGram = joules_per_gram(4.0);

/// Heat taken up when a gram of sucrose crystals dissolves.
///
/// 5.4 kJ/mol over 342.3 g/mol, from the compilation "Heat of solution data", seen at second hand.
pub const SUCROSE_HEAT_OF_SOLUTION: JoulesPerGram = joules_per_gram(15.8);

/// [`SUCROSE_HEAT_OF_SOLUTION`] is uncertain by this; the published values seen range from 15 to 17.
pub const SUCROSE_HEAT_OF_SOLUTION_SPREAD: JoulesPerGram = joules_per_gram(1.5);

/// Heat taken up when a gram of salt dissolves.
///
/// 3.88 kJ/mol at infinite dilution over 58.44 g/mol, *CRC Handbook of Chemistry
/// and Physics*, from memory. A dough's brine is stronger and takes up to a tenth less.
pub const SALT_HEAT_OF_SOLUTION: JoulesPerGram = joules_per_gram(66.4);

/// Heat taken up when a gram of milk fat melts entirely. Uncertain by 5 J/g.
///
/// Abd El-Rahman, Shalabi and Kilara (1998), *Milchwissenschaft* 53(2):77.
pub const MILK_FAT_HEAT_OF_FUSION: JoulesPerGram = joules_per_gram(80.8);

/// How far the heat of melting butterfat may be off, mostly for want of a sure melting curve.
///
/// ASSUMPTION: a quarter. For butter at 10 °C the sources of
/// [`MILK_FAT_MELTED`] say 35 to 41 % melted and Abd El-Rahman 80 % for fat without water.
pub const MILK_FAT_MELTING_SPREAD: Share = share(0.25);

/// The melted share of milk fat at a few temperatures; straight lines between, level outside.
///
/// At 10 °C: the mean of 41 % (summer) and 35 % (winter) from the heat capacity
/// of butter, "Relation between thermal properties of butter and its hardness"
/// (abstract). Melted at 35.6 °C: Abd El-Rahman et al. (1998); the *Dairy
/// Science and Technology* e-book of the University of Guelph gives 37 °C.
/// ASSUMPTION: 30 % at 5 °C, because one melting peak lies between 5 and 10 °C.
pub const MILK_FAT_MELTED: [(Celsius, Share); 3] = [
    (celsius(5.0), share(0.30)),
    (celsius(10.0), share(0.38)),
    (celsius(35.6), share(1.0)),
];

/// Heat taken up when a gram of ice melts at 0 °C. Uncertain by 0.1 J/g.
///
/// IAPWS-95 less the 2006 IAPWS equation for ice, at 101,325 Pa. The trade's
/// 144 BTU/lb is 334.9 J/g.
pub const ICE_HEAT_OF_FUSION: JoulesPerGram = joules_per_gram(333.43);

/// Mean specific heat of ice between −18 and 0 °C. Uncertain by 0.002.
///
/// IAPWS equation for ice (2006): 2.097 at 0 °C and 1.964 at −18 °C.
pub const ICE_SPECIFIC_HEAT: JoulesPerGramKelvin = joules_per_gram_kelvin(2.03);

/// Mean specific heat of water between 0 and 20 °C, for sharing out ice and water. Uncertain by 0.002.
///
/// IAPWS-95 at 101,325 Pa. Elsewhere water has the value of Choi and Okos, 0.4 % lower.
pub const COLD_WATER_SPECIFIC_HEAT: JoulesPerGramKelvin = joules_per_gram_kelvin(4.1952);

/// Ice straight from a home freezer. Common practice, no source.
pub const FREEZER: Celsius = celsius(-18.0);

/// Food straight from a home fridge: the safe upper limit of the FDA Food Code, 5 °C.
pub const FRIDGE: Celsius = celsius(5.0);

/// The water of an ice bath, a little above melting ice. Common practice, no source.
pub const ICE_BATH: Celsius = celsius(1.0);

/// ASSUMPTION: more ice than half of the liquid doesn't melt while the dough is mixed.
pub const MOST_ICE: Share = share(0.5);

/// The warmest liquid that fresh or active dry yeast is stirred into.
///
/// Common practice, no source. Channaiah et al. (2016), *J. Food Prot.* 79:544,
/// find a tenth of the yeast in dough alive after 19 min at 52 °C.
pub const YEAST_LIQUID_CAP: Celsius = celsius(40.0);

/// The warmest liquid for instant yeast that is mixed into the flour first. Common practice, no source.
pub const INSTANT_YEAST_LIQUID_CAP: Celsius = celsius(45.0);

/// The warmest liquid where no yeast meets it. ASSUMPTION: two degrees below where wheat starch
/// begins to swell, 52 °C (McGee, *On Food and Cooking*, table of thickening starches).
pub const NO_YEAST_LIQUID_CAP: Celsius = celsius(50.0);

/// ASSUMPTION: the skin of working hands, 33 °C; 30 to 35 °C is usual, from memory.
pub const HAND_SKIN: Celsius = celsius(33.0);

/// ASSUMPTION: how far a temperature that nobody took today may be off.
pub const UNMEASURED: CelsiusDelta = celsius_delta(1.0);

/// ASSUMPTION: how far the air around a dough is from what a thermometer in the kitchen said today:
/// half a degree for the thermometer, and one that is between shelf, worktop and window.
pub const MEASURED_AIR: CelsiusDelta = celsius_delta(1.0);

/// ASSUMPTION: the same of a kitchen in which nobody has looked since the bake began.
pub const UNMEASURED_AIR: CelsiusDelta = celsius_delta(2.0);

/// How far a fridge that nobody measured may be from the usual one.
///
/// Gilbert et al., *Br. Food J.* 109 (2007) 323 (abstract): 127 household fridges of New Zealand, logged over
/// three days each, had means of 5.2 °C with a standard deviation of 2.5 K, of which this is the tenth percentile.
/// The figures are the abstracts'; authors, volumes and pages are from memory.
/// Laguerre et al., *Food Control* 13 (2002) 21 (abstract), found 6.6 °C, 0.9 to 11.4, in 119 of France; Evans et
/// al. (2014; IIR's summary) 4.4 °C, -0.6 to 10.4, in 112 of England.
pub const UNMEASURED_FRIDGE: CelsiusDelta = celsius_delta(3.2);

/// ASSUMPTION: the same of one in which a thermometer lay: its shelves differ by as much, and it comes and goes.
pub const MEASURED_FRIDGE: CelsiusDelta = celsius_delta(1.5);

/// ASSUMPTION: how far a proofer, or an oven with its lamp on, is from what was read off: it switches on and
/// off, and is warmer on top than below.
pub const WARM_PLACE_OFF: CelsiusDelta = celsius_delta(1.5);

/// ASSUMPTION: how far water round a bowl is from what was read off: it cools, and is filled up again.
pub const BATH_OFF: CelsiusDelta = celsius_delta(2.0);

/// ASSUMPTION: the same of water in which ice is left; without stirring it is warmer at the dish.
pub const ICE_BATH_OFF: CelsiusDelta = celsius_delta(1.0);

/// Friction factor of the trade's rule for kneading by hand: 5 °F, *Cook's Illustrated*
/// "Precise water temperature for the perfect loaf". A note after Hamelman, *Bread*, has 12 °F.
pub const FRICTION_BY_HAND: CelsiusDelta = celsius_delta(5.0 / 1.8);

/// The same for a stand mixer: 20 °F, same source; 22 to 26 °F after Hamelman.
pub const FRICTION_STAND_MIXER: CelsiusDelta = celsius_delta(20.0 / 1.8);

/// The same for a food processor: 25 °F, same source.
pub const FRICTION_FOOD_PROCESSOR: CelsiusDelta = celsius_delta(25.0 / 1.8);

/// Specific heat of a stainless steel bowl, from memory of handbook tables. Uncertain by 0.02.
pub const STEEL: JoulesPerGramKelvin = joules_per_gram_kelvin(0.50);

/// Specific heat of a glass bowl, from memory of handbook tables. Uncertain by 0.05.
pub const GLASS: JoulesPerGramKelvin = joules_per_gram_kelvin(0.83);

/// How much cooler a fan oven is set than one without: New South Wales Government,
/// *Healthy Kids*, conversion chart. Uncertain by 5 K: other charts say 25 K.
pub const FAN_OFFSET: CelsiusDelta = celsius_delta(20.0);

/// ASSUMPTION: how far an oven that nobody checked is from what its dial says.
pub const UNCHECKED_OVEN: CelsiusDelta = celsius_delta(10.0);

/// ASSUMPTION: the same of an oven whose error was found with a thermometer, which reads to half of
/// this, as far as its thermostat swings.
pub const CHECKED_OVEN: CelsiusDelta = celsius_delta(5.0);

/// ASSUMPTION: how much longer the late end is for twice the load, and twice that for four times it
/// and more: a home oven of 2 kW has heat enough for it, but its air and walls start out cooler.
pub const CROWDED: Share = share(0.05);

/// ASSUMPTION: how far below boiling the moist core of bread stays; 2 to 3 K are met with.
pub const CORE_BELOW_BOILING: CelsiusDelta = celsius_delta(2.0);

/// ASSUMPTION: flour in its bowl over warm water or in a barely warm oven for a while.
pub const WARMED_FLOUR: Celsius = celsius(30.0);

/// ASSUMPTION: a bowl just rinsed with hot tap water and dried.
pub const WARMED_BOWL: Celsius = celsius(40.0);

/// ASSUMPTION: how much warmer or cooler another spot in the house can be to knead in.
pub const ANOTHER_PLACE: CelsiusDelta = celsius_delta(3.0);
