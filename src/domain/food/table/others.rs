//! Cereals that aren't flour, bread, leaven, chocolate, drinks, and what sets or raises.

use super::super::Allergen::{
    self, Eggs, GlutenCereals, Milk as MilkAllergen, Nuts, Soybeans, Sulphites,
};
use super::super::FoodKind::Other;
use super::{Entry, food, mixed, with_milk_fat};

const fn other(
    key: &'static str,
    name: &'static str,
    ndb: u32,
    allergens: &'static [Allergen],
) -> Entry {
    food(key, name, Other, ndb, allergens)
}

#[rustfmt::skip]
pub(super) const OTHERS: &[Entry] = &[
    other("rolled-oats", "rolled oats", 8120, &[GlutenCereals]),
    other("oat-bran", "oat bran", 20033, &[GlutenCereals]),
    other("wheat-bran", "wheat bran", 20077, &[GlutenCereals]),
    other("wheatgerm", "wheatgerm", 20078, &[GlutenCereals]),
    // It counts as no flour, though bread flours are strengthened with it.
    other("gluten", "wheat gluten", 48052, &[GlutenCereals]),
    other("barley", "pearl barley", 20005, &[GlutenCereals]),
    other("rye-grain", "rye grain", 20062, &[GlutenCereals]),
    other("bulgur", "bulgur", 20012, &[GlutenCereals]),
    other("couscous", "couscous", 20028, &[GlutenCereals]),
    other("millet", "millet", 20031, &[]),
    other("rice", "rice", 20052, &[]),
    other("quinoa", "quinoa", 20035, &[]),
    other("breadcrumbs", "dry breadcrumbs", 18079, &[GlutenCereals]),
    other("bread", "white bread", 18069, &[GlutenCereals]),
    other("bread-rye", "rye bread", 18060, &[GlutenCereals]),
    // Half flour, half water, by the custom of feeding it with as much of one as of the other. What its
    // yeast and bacteria have eaten by then, a few percent of the flour, is left out.
    mixed(0.5, 20083, 14429, other("sourdough-starter", "sourdough starter", 20083, &[GlutenCereals])),
    other("baking-powder", "baking powder", 18369, &[]),
    other("baking-soda", "baking soda", 18372, &[]),
    other("cream-of-tartar", "cream of tartar", 18373, &[]),
    // ASSUMPTION: baker's ammonia leaves nothing behind, and is weighed as baking soda until it does.
    other("bakers-ammonia", "baker's ammonia", 18372, &[]),
    other("gelatine", "gelatine", 19177, &[]),
    other("cocoa", "cocoa", 19165, &[]),
    other("carob", "carob powder", 16055, &[]),
    // The row is for 70 to 85 % cocoa. Lecithin from soya and traces of milk are common: read the packet.
    other("dark-chocolate", "dark chocolate", 19904, &[]),
    other("semisweet-chocolate", "semisweet chocolate", 19080, &[]),
    other("milk-chocolate", "milk chocolate", 19120, &[MilkAllergen]),
    other("white-chocolate", "white chocolate", 19087, &[MilkAllergen]),
    other("caramel", "caramels", 19074, &[MilkAllergen]),
    // A dish rather than an ingredient, kept as a check of moist fillings.
    other("egg-custard", "baked egg custard", 19168, &[Eggs, MilkAllergen]),
    other("coffee", "coffee", 14209, &[]),
    other("coffee-instant", "instant coffee", 14214, &[]),
    other("tea", "tea", 14355, &[]),
    other("beer", "beer", 14003, &[GlutenCereals]),
    other("wine-white", "white wine", 14106, &[Sulphites]),
    other("wine-red", "red wine", 14096, &[Sulphites]),
    // ASSUMPTION: fortified wines and cider lie between wine and juice; wine's row is the nearer.
    other("cider", "cider", 14106, &[Sulphites]),
    // A third of it is alcohol. The database has one row for gin, rum, vodka and whisky.
    other("rum", "rum", 14050, &[]),
    other("spirits", "spirits", 14037, &[]),
    other("liqueur", "liqueur", 14414, &[]),
    other("vinegar", "vinegar", 2053, &[]),
    other("vinegar-cider", "cider vinegar", 2048, &[]),
    other("drink-soya", "soya drink", 16222, &[Soybeans]),
    other("drink-almond", "almond drink", 14091, &[Nuts]),
    other("drink-rice", "rice drink", 14639, &[]),
    // ASSUMPTION: the database has no oat drink; rice drink is made the same way and as thin.
    other("drink-oat", "oat drink", 14639, &[GlutenCereals]),
    // Pressed at home; tinned coconut milk has a row without fibre, and 5 % more water.
    other("coconut-milk", "coconut milk", 12117, &[]),
    with_milk_fat(other("chocolate-milk", "chocolate milk", 1102, &[MilkAllergen])),
];
