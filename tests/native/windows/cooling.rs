//! The windows of what cools against a sample of the heat transfer coefficient and of the surroundings.

use domain::thermal::cooling::cooling_window;
use domain::thermal::oven::BakeForm;
use domain::thermal::vessel::{Cooling, Doubt, Spot, Surroundings, Vessel};
use domain::units::{Minutes, celsius, celsius_delta, grams, millimetres};

use super::sample::{Allowed, Coverage, Draws, hold};
use super::{START, at};

/// As the module of cooling says: one time in ten the coefficient is larger, or smaller, by this factor.
pub(super) const FILM: f64 = 1.3;

/// Fewer than elsewhere, for a dish takes long to reckon; three standard errors at the ends are 2.8 percentage points.
const DRAWS: usize = 1_000;

struct Case {
    name: &'static str,
    vessel: Vessel,
    from: f64,
    to: f64,
    around: Surroundings,
}

fn cases() -> Vec<Case> {
    let filling = |mass, depth, cooling| Vessel::filling(grams(mass), millimetres(depth), cooling);
    let constant = |around| Surroundings::constant(celsius(around));
    let case = |name, vessel, from, to, around| Case {
        name,
        vessel,
        from,
        to,
        around: constant(around),
    };
    let baked = |mass| BakeForm::Round.cooling(grams(mass));
    let mut moved = case(
        "cream, kitchen and then fridge",
        filling(360.0, 12.0, Cooling::Fridge),
        80.0,
        8.0,
        22.0,
    );
    moved.around = moved.around.changed(at(30.0), celsius(4.0));
    let doubt = |of, off| {
        let off = celsius_delta(off);
        Doubt { of, off }
    };
    let (kitchen, fridge) = (doubt(Spot::Kitchen, 2.0), doubt(Spot::Fridge, 3.2));
    let mut warm_bun = case(
        "bun of 130 g, nobody measured",
        baked(130.0),
        95.0,
        35.0,
        22.0,
    );
    warm_bun.around = warm_bun.around.doubted(kitchen);
    let mut warm_loaf = case(
        "loaf of 900 g, nobody measured",
        baked(900.0),
        95.0,
        32.0,
        20.0,
    );
    warm_loaf.around = warm_loaf.around.doubted(kitchen);
    let mut ice = case(
        "cream, 15 mm on ice water that warms",
        filling(360.0, 15.0, Cooling::IceBath),
        80.0,
        5.0,
        1.0,
    );
    ice.around = ice.around.doubted(doubt(Spot::Own, 1.0));
    let mut unknown = case(
        "cream, 25 mm in a fridge nobody measured",
        filling(500.0, 25.0, Cooling::Fridge),
        80.0,
        15.0,
        5.0,
    );
    unknown.around = unknown.around.doubted(fridge);
    let mut both = case(
        "cream, kitchen and then fridge, nobody measured",
        filling(360.0, 12.0, Cooling::Fridge),
        80.0,
        15.0,
        22.0,
    );
    let cold = celsius(5.0);
    both.around = both
        .around
        .doubted(kitchen)
        .put(at(30.0), cold, 1.0, Some(fridge));
    vec![
        warm_bun,
        warm_loaf,
        ice,
        unknown,
        both,
        case(
            "cream, 10 mm in the fridge",
            filling(360.0, 10.0, Cooling::Fridge),
            80.0,
            6.0,
            4.0,
        ),
        case(
            "cream, 25 mm in the fridge",
            filling(500.0, 25.0, Cooling::Fridge),
            80.0,
            8.0,
            4.0,
        ),
        case(
            "cream, 60 mm in the fridge",
            filling(500.0, 60.0, Cooling::Fridge),
            85.0,
            21.0,
            4.0,
        ),
        case(
            "cream, 15 mm on ice water",
            filling(360.0, 15.0, Cooling::IceBath),
            80.0,
            5.0,
            1.0,
        ),
        case(
            "cream, 30 mm on ice water",
            filling(360.0, 30.0, Cooling::IceBath),
            80.0,
            5.0,
            1.0,
        ),
        case(
            "cream in the kitchen",
            filling(360.0, 20.0, Cooling::Kitchen),
            80.0,
            30.0,
            20.0,
        ),
        moved,
        case("bun of 60 g", baked(60.0), 95.0, 32.0, 22.0),
        case("bun of 130 g", baked(130.0), 95.0, 35.0, 22.0),
        case("bun of 130 g, hot kitchen", baked(130.0), 95.0, 35.0, 30.0),
        case("braid of 750 g", baked(750.0), 95.0, 32.0, 20.0),
        case("loaf of 900 g", baked(900.0), 95.0, 32.0, 18.0),
    ]
}

#[test]
fn cooling_windows_hold_what_a_sample_says() {
    let cases = cases().into_iter().zip(1..).map(|(case, seed)| {
        let mut draws = Draws::seeded(seed);
        let (from, to) = (celsius(case.from), celsius(case.to));
        let sample = (0..DRAWS).map(|_| {
            let vessel = case.vessel.with_film_times(draws.factor(FILM));
            let around = case.around.shifted(&Spot::ALL.map(|_| draws.tenths()));
            let course = vessel.course(START, from, &around);
            let cold = course.when_core_reaches(to, Minutes::MAX);
            // Water one draw in a thousand too warm for it counts as never.
            cold.map_or(f64::INFINITY, |cold| (cold - START).get())
        });
        let window = cooling_window(&case.vessel, from, to, &case.around, START);
        let window = window.map(|end| (end - START).get());
        (
            case.name.to_owned(),
            Coverage::of(&window, &sample.collect::<Vec<_>>()),
        )
    });
    // With one input and a time that only ever falls with it the window is exact but for the sample's chance. The
    // quartiles are drawn on a straight scale where the spread is on a logarithmic one.
    let allowed = Allowed {
        ends: 3.0,
        inside: 5.0,
    };
    hold("cooling", cases.collect(), &allowed);
}
