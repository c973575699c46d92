//! How long cooked fillings and baked pieces take to cool, and whether a filling cools fast enough.
//!
//! The two-stage rule for cooked food that spoils: from 57 to 21 °C within 2 h,
//! and to 5 °C within 6 h in all. Source: FDA Food Code 2022, § 3-501.14(A);
//! the wording was read in Delaware's adoption, 16 Del. Admin. Code § 3-501.14.
//! Other countries have other limits (5 or 8 °C for what stays in the fridge):
//! local food-safety guidance comes first.
//!
//! What is at 21 °C or below from the start, as food made from ingredients at the kitchen's temperature is, has one
//! stage: to 5 °C within 4 h (same source, § 3-501.14(B)).
//!
//! Temperatures are those of the centre of a [`Vessel`], the warmest point
//! while it cools, reckoned with the modes described there. The clock of the
//! rule starts when the centre passes 57 °C, or at once for what is cooler.
//!
//! Advice is safe where it costs little: a remedy has to work with a film at the slow end of its spread and in surroundings
//! at the warm end of theirs, both at once.
//!
//! Left out: evaporation, which cools an open dish faster than said, and a
//! fridge that is warmed by what is put into it.

use super::constants::{ICE_BATH, ICE_BATH_OFF};
use super::vessel::{Body, Cooling, FLAT_BAG, Form, Held, Material, SAME_K, Surroundings, Vessel};
use crate::estimate::{Basis, Estimate};
use crate::units::{
    Celsius, CelsiusDelta, Grams, Millimetres, Minutes, Moment, WattsPerSquareMetreKelvin, celsius,
    millimetres, minutes,
};

/// Where the clock of the rule starts.
pub const HOT: Celsius = celsius(57.0);
/// The end of the first stage.
pub const WARM: Celsius = celsius(21.0);
/// The end of the second stage.
pub const COLD: Celsius = celsius(5.0);
/// Time allowed from [`HOT`] to [`WARM`].
pub const FIRST_STAGE: Minutes = minutes(120.0);
/// Time allowed from [`HOT`] to [`COLD`].
pub const BOTH_STAGES: Minutes = minutes(360.0);
/// Time allowed to [`COLD`] for what is no warmer than [`WARM`] from the start.
pub const FROM_AMBIENT: Minutes = minutes(240.0);

/// What food that starts at a temperature has to keep to: how cold, within how long.
#[must_use]
pub fn stages(from: Celsius) -> &'static [(Celsius, Minutes)] {
    if from <= WARM {
        &[(COLD, FROM_AMBIENT)]
    } else {
        &[(WARM, FIRST_STAGE), (COLD, BOTH_STAGES)]
    }
}

/// How far ahead cooling is followed: two days.
pub const HORIZON: Minutes = minutes(2.0 * 24.0 * 60.0);

/// ASSUMPTION: one time in ten the heat transfer coefficient is larger, or smaller, than said by this factor.
///
/// Natural convection and radiation alone differ by a fifth between a hot and a lukewarm body.
const FILM_SPREAD: f64 = 1.3;

/// A second, as a part of a minute: what has no length has no logarithm.
const A_SECOND: f64 = 1.0 / 60.0;

/// Whether a cooked filling passes the two-stage rule.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoStage {
    /// From 57 to 21 °C; `None` when it is not there within [`HORIZON`].
    pub minutes_to_21: Option<Minutes>,
    /// From 57 to 5 °C; `None` when it is not there within [`HORIZON`].
    pub minutes_to_5: Option<Minutes>,
    /// Whether each of its [`stages`] is within its time.
    pub passes: bool,
}

/// How a filling that starts at one temperature throughout does against the rule.
#[must_use]
pub fn two_stage(
    vessel: &Vessel,
    initial: Celsius,
    surroundings: &Surroundings,
    start: Moment,
) -> TwoStage {
    let course = vessel.course(start, initial, surroundings);
    let horizon = HORIZON.get();
    let cooled_to = |target: Celsius, from: f64| {
        if course.core_after(from) < target.get() + SAME_K {
            Some(from)
        } else {
            course.core_reaches_after(target.get(), from, horizon)
        }
    };
    let hot = cooled_to(HOT, 0.0);
    let warm = hot.and_then(|hot| cooled_to(WARM, hot));
    let cold = warm.and_then(|warm| cooled_to(COLD, warm));
    let since_hot = |t: Option<f64>| Some(Minutes::clamped(t? - hot?));
    let minutes_to_21 = since_hot(warm);
    let minutes_to_5 = since_hot(cold);
    TwoStage {
        minutes_to_21,
        minutes_to_5,
        passes: stages(initial).iter().all(|&(to, within)| {
            let taken = if to == COLD {
                minutes_to_5
            } else {
                minutes_to_21
            };
            taken.is_some_and(|taken| taken <= within)
        }),
    }
}

/// The deepest wide layer that passes, cooled through one face from 57 °C, to a tenth of a millimetre below.
///
/// `None` when even 2 mm is too deep, as in a kitchen that isn't below 5 °C.
#[must_use]
pub fn deepest_layer_that_passes(cooling: Cooling, ambient: Celsius) -> Option<Millimetres> {
    deepest_layer_of(Material::CUSTARD, cooling.film(), ambient)
}

/// The same for any material and heat transfer coefficient.
#[must_use]
pub fn deepest_layer_of(
    material: Material,
    film: WattsPerSquareMetreKelvin,
    ambient: Celsius,
) -> Option<Millimetres> {
    deepest_layer_from(HOT, material, film, ambient)
}

fn deepest_layer_from(
    from: Celsius,
    material: Material,
    film: WattsPerSquareMetreKelvin,
    ambient: Celsius,
) -> Option<Millimetres> {
    let passes = |depth_mm: f64| {
        let layer = Vessel::of(Body {
            form: Form::Layer {
                depth: Millimetres::clamped(depth_mm),
            },
            material,
            film,
        });
        passes_at(&layer, from, ambient)
    };
    // A deeper layer is always slower, so the answer can be closed in on.
    let (mut fits, mut too_deep) = (2.0, 500.0);
    if !passes(fits) {
        return None;
    }
    while too_deep - fits > 0.05 {
        let middle = 0.5 * (fits + too_deep);
        if passes(middle) {
            fits = middle;
        } else {
            too_deep = middle;
        }
    }
    Some(Millimetres::clamped(fits))
}

fn passes_at(vessel: &Vessel, from: Celsius, ambient: Celsius) -> bool {
    let start = Moment::from_epoch_ms(0);
    two_stage(vessel, from, &Surroundings::constant(ambient), start).passes
}

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

/// When the centre comes from one temperature to another.
///
/// The window holds the spread of the heat transfer coefficient, and that of the
/// surroundings' temperatures where they are in doubt; each alone is moved to both its ends, and the
/// distances of the logarithm of the time are added in quadrature. What doesn't come within [`HORIZON`] of the start is given as that moment.
#[must_use]
pub fn cooling_window(
    vessel: &Vessel,
    from: Celsius,
    to: Celsius,
    surroundings: &Surroundings,
    start: Moment,
) -> Estimate<Moment> {
    FilmSpread::of(vessel.clone()).window(from, to, surroundings, start)
}

/// A vessel with the early and late ends of its heat transfer coefficient.
///
/// The modes of a wide dish take longer to reckon than anything that is asked
/// of them, so whoever asks often keeps this.
#[derive(Debug, Clone, PartialEq)]
pub struct FilmSpread {
    fast: Vessel,
    likely: Vessel,
    slow: Vessel,
}

impl FilmSpread {
    /// Reckons the modes of both ends.
    #[must_use]
    pub fn of(vessel: Vessel) -> Self {
        Self {
            fast: vessel.with_film_times(FILM_SPREAD),
            slow: vessel.with_film_times(1.0 / FILM_SPREAD),
            likely: vessel,
        }
    }

    /// The vessel as it likely is.
    #[must_use]
    pub fn likely(&self) -> &Vessel {
        &self.likely
    }

    /// See [`cooling_window`].
    #[must_use]
    pub fn window(
        &self,
        from: Celsius,
        to: Celsius,
        surroundings: &Surroundings,
        start: Moment,
    ) -> Estimate<Moment> {
        self.window_from(Estimate::exact(from, Basis::Model), to, surroundings, start)
    }

    /// The same where the temperature at the start is uncertain; what cools fastest is coldest by then.
    #[must_use]
    pub fn window_from(
        &self,
        from: Estimate<Celsius>,
        to: Celsius,
        surroundings: &Surroundings,
        start: Moment,
    ) -> Estimate<Moment> {
        let first_change = surroundings.after(start).next();
        let changes = first_change.map_or(f64::INFINITY, |(at, ..)| (at - start).get());
        let after = |vessel: &Vessel, from: Celsius, around: &Surroundings, half: f64| {
            let course = vessel.course(start, from, around);
            // What isn't there yet half-way needn't be looked for before, unless it was there and went back.
            let on_the_way = half <= changes && (course.core_after(half) > to.get()) == (from > to);
            let since = if on_the_way { half } else { 0.0 };
            let reached = course.core_reaches_after(to.get(), since, HORIZON.get());
            reached.unwrap_or(HORIZON.get())
        };
        let likely = after(&self.likely, from.likely(), surroundings, 0.0);
        let half = 0.5 * likely;
        let (mut earlier, mut later) = (0.0, 0.0);
        let mut aside = |other: f64| {
            // What is cold from the start has no logarithm.
            let apart = (other.max(A_SECOND) / likely.max(A_SECOND)).ln();
            *if apart < 0.0 {
                &mut earlier
            } else {
                &mut later
            } += apart * apart;
        };
        aside(after(&self.fast, from.low(), surroundings, half));
        aside(after(&self.slow, from.high(), surroundings, half));
        for around in surroundings.aside(start) {
            aside(after(&self.likely, from.likely(), &around, half));
        }
        let at = |log: f64| start + Minutes::clamped((likely * log.exp()).min(HORIZON.get()));
        Estimate::new(
            at(-f64::sqrt(earlier)),
            at(0.0),
            at(f64::sqrt(later)),
            Basis::Model,
        )
    }

    /// How warm it is on average at a moment, as it is throughout once it is poured into something else.
    ///
    /// `read` is what a thermometer in its middle showed on the way, and when. What isn't known of its
    /// surroundings is in its ends, and so goes along with its film from then on: a little more than it does, and within
    /// two points of what a sample says.
    #[must_use]
    pub fn poured_at(
        &self,
        at: Moment,
        from: Estimate<Celsius>,
        surroundings: &Surroundings,
        start: Moment,
        read: Option<(Moment, Celsius)>,
    ) -> Estimate<Celsius> {
        let mean = |vessel: &Vessel, from: Celsius, around: &Surroundings| {
            let course = vessel.course(start, from, around);
            match read {
                Some((when, core)) => course.through(when, core, 1.0).mean_at(at),
                None => course.mean_at(at),
            }
        };
        let likely = mean(&self.likely, from.likely(), surroundings);
        let (mut below, mut above) = (0.0, 0.0);
        let mut aside = |other: Celsius| {
            let apart = (other - likely).get();
            *if apart < 0.0 { &mut below } else { &mut above } += apart * apart;
        };
        aside(mean(&self.fast, from.low(), surroundings));
        aside(mean(&self.slow, from.high(), surroundings));
        for around in surroundings.aside(start) {
            aside(mean(&self.likely, from.likely(), &around));
        }
        Estimate::new(
            likely - CelsiusDelta::clamped(below.sqrt()),
            likely,
            likely + CelsiusDelta::clamped(above.sqrt()),
            Basis::Model,
        )
    }
}
