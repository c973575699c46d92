//! What makes a filling cool fast enough.
//!
//! Advice is safe where it costs little: a remedy has to work with a film at the slow end of its spread and in surroundings
//! at the warm end of theirs, both at once.

use super::spread::FILM_SPREAD;
use super::{HOT, WARM, deepest_layer_from, passes_at};
use crate::thermal::constants::{ICE_BATH, ICE_BATH_OFF};
use crate::thermal::vessel::{Cooling, FLAT_BAG, Held, Material, Vessel};
use crate::units::{
    Celsius, CelsiusDelta, Grams, Millimetres, WattsPerSquareMetreKelvin, millimetres,
};

/// What makes a filling cool fast enough.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Remedy {
    /// Pour it back into its dish, where it is.
    BackIntoDish,
    /// Spread it to this depth where it is.
    Spread(Millimetres),
    /// Lay it there in a bag no thicker than this, both faces free.
    FlatBag(Millimetres),
    /// Stand it in water with ice, in what it is in.
    IceBath,
    /// Stand it in water with ice, and stir.
    StirInIceBath,
    /// Spread it to this depth and stand that in water with ice.
    SpreadInIceBath(Millimetres),
}

/// ASSUMPTION: thinner than this nobody spreads a cream.
const THINNEST: Millimetres = millimetres(8.0);

/// Something that is chilled, and how.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chilled {
    /// How warm it is when that begins.
    pub from: Celsius,
    /// What it is.
    pub filling: Material,
    /// How much of it.
    pub mass: Grams,
    /// How deep it lies in its dish.
    pub depth: Millimetres,
    /// What holds it.
    pub held: Held,
    /// What cools it.
    pub cooling: Cooling,
    /// How cold that is.
    pub around: Celsius,
    /// How much warmer it may be.
    pub off: CelsiusDelta,
}

/// The remedies that work for a filling, least trouble first; empty when it needs none.
///
/// Each is reckoned, not guessed. An ice bath is taken to last until the filling is cold. A bag is
/// reckoned as a wide layer of half its thickness, which leaves its edge out, on the slow side; its film of plastic, too
/// thin to matter, is within the millimetre that is rounded down.
#[must_use]
pub fn remedies(chilled: &Chilled) -> Vec<Remedy> {
    let &Chilled {
        from,
        filling,
        mass,
        depth,
        held,
        cooling,
        around,
        off,
    } = chilled;
    // The clock starts at 57 °C, whatever it was before.
    let from = if from > WARM { HOT } else { from };
    let around = around + off;
    let ice = ICE_BATH + ICE_BATH_OFF;
    let surely = |vessel: Vessel, around| {
        passes_at(&vessel.with_film_times(1.0 / FILM_SPREAD), from, around)
    };
    let now = Vessel::filling_held(held, filling, mass, depth, cooling);
    if surely(now, around) {
        return Vec::new();
    }
    let whole = |depth: f64| {
        let whole = Millimetres::clamped(depth.floor());
        (whole >= THINNEST).then_some(whole)
    };
    let deepest = |cooling: Cooling, around| {
        let film = WattsPerSquareMetreKelvin::clamped(cooling.film().get() / FILM_SPREAD);
        deepest_layer_from(from, filling, film, around)
    };
    let spread = |deepest: Option<Millimetres>| {
        let whole = whole(deepest?.get())?;
        (whole < depth).then_some(whole)
    };
    let in_ice = |filling| Vessel::filling_held(held, filling, mass, depth, Cooling::IceBath);
    let here = deepest(cooling, around);
    let mut found = Vec::new();
    // A jar is no dish: as deep as the formula says it lies only in that.
    let poured = matches!(held, Held::Jar | Held::Bag);
    let dish = || Vessel::dish_of(filling, mass, depth, cooling);
    if poured && surely(dish(), around) {
        found.push(Remedy::BackIntoDish);
    } else {
        found.extend(spread(here).map(Remedy::Spread));
    }
    let bag = here.and_then(|deepest| whole(deepest.get() * 2.0));
    let bag = bag.filter(|&thick| held != Held::Bag || thick < FLAT_BAG);
    found.extend(bag.map(Remedy::FlatBag));
    if surely(in_ice(filling), ice) {
        found.push(Remedy::IceBath);
    } else {
        // A bag can't be stirred.
        if held != Held::Bag && surely(in_ice(filling.stirred()), ice) {
            found.push(Remedy::StirInIceBath);
        }
        let in_ice = deepest(Cooling::IceBath, ice);
        found.extend(spread(in_ice).map(Remedy::SpreadInIceBath));
    }
    found
}
