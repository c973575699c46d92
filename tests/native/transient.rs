//! The series for slab, cylinder and sphere against `reference/transient.toml`.

use checks::assert_close;
use domain::thermal::transient::{Shape, centre_ratio, eigenvalues, mean_ratio, one_term, terms};
use proptest::prelude::*;
use serde::Deserialize;

#[derive(Deserialize)]
struct Table {
    one_term: OneTerm,
    centre: Centre,
    apple: Apple,
}

#[derive(Deserialize)]
struct OneTerm {
    source: String,
    tolerance: f64,
    row: Vec<OneTermRow>,
}

#[derive(Deserialize)]
struct OneTermRow {
    biot: f64,
    slab: [f64; 2],
    cylinder: [f64; 2],
    sphere: [f64; 2],
}

#[derive(Deserialize)]
struct Centre {
    source: String,
    tolerance: f64,
    row: Vec<CentreRow>,
}

#[derive(Deserialize)]
struct CentreRow {
    shape: String,
    biot: f64,
    fourier: f64,
    expected: f64,
}

#[derive(Deserialize)]
struct Apple {
    source: String,
    radius_m: f64,
    conductivity: f64,
    diffusivity: f64,
    film: f64,
    initial_c: f64,
    around_c: f64,
    seconds: f64,
    first_eigenvalue: f64,
    first_weight: f64,
    tolerance_coefficients: f64,
    centre_c: f64,
    tolerance_c: f64,
}

fn table() -> Table {
    toml::from_str(include_str!("../reference/transient.toml")).expect("the table is well formed")
}

fn shape(name: &str) -> Shape {
    match name {
        "slab" => Shape::Slab,
        "cylinder" => Shape::Cylinder,
        "sphere" => Shape::Sphere,
        other => panic!("no shape called {other}"),
    }
}

const SHAPES: [Shape; 3] = [Shape::Slab, Shape::Cylinder, Shape::Sphere];

#[test]
fn one_term_coefficients_are_the_tables() {
    let table = table().one_term;
    for row in &table.row {
        for (shape, expected) in [
            (Shape::Slab, row.slab),
            (Shape::Cylinder, row.cylinder),
            (Shape::Sphere, row.sphere),
        ] {
            let case = format!("{shape:?}, Bi {}, {}", row.biot, table.source);
            let term = one_term(shape, row.biot);
            assert_close(&case, term.eigenvalue, expected[0], table.tolerance);
            assert_close(&case, term.centre, expected[1], table.tolerance);
        }
    }
    assert_eq!(table.row.len(), 15);
}

#[test]
fn the_centre_follows_the_whole_series() {
    let table = table().centre;
    for row in &table.row {
        let case = format!(
            "{}, Bi {}, Fo {}, {}",
            row.shape, row.biot, row.fourier, table.source
        );
        let got = centre_ratio(shape(&row.shape), row.biot, row.fourier);
        assert_close(&case, got, row.expected, table.tolerance);
    }
}

#[test]
fn an_apple_freezes_as_in_the_textbook() {
    let apple = table().apple;
    let biot = apple.film * apple.radius_m / apple.conductivity;
    let first = one_term(Shape::Sphere, biot);
    assert_close(
        &apple.source,
        first.eigenvalue,
        apple.first_eigenvalue,
        apple.tolerance_coefficients,
    );
    assert_close(
        &apple.source,
        first.centre,
        apple.first_weight,
        apple.tolerance_coefficients,
    );
    let fourier = apple.diffusivity * apple.seconds / (apple.radius_m * apple.radius_m);
    let ratio = centre_ratio(Shape::Sphere, biot, fourier);
    let centre = apple.around_c + ratio * (apple.initial_c - apple.around_c);
    assert_close(&apple.source, centre, apple.centre_c, apple.tolerance_c);
}

#[test]
fn a_great_biot_number_gives_the_zeros_of_the_bare_functions() {
    // With the surface at the surroundings' temperature the roots are those of cos, J₀ and sin.
    // Zeros of J₀: Abramowitz & Stegun, Table 9.5.
    let zeros_of_j0 = [
        2.404_825_557_7,
        5.520_078_110_3,
        8.653_727_912_9,
        11.791_534_439_1,
        14.930_917_708_6,
    ];
    let roots = eigenvalues(Shape::Cylinder, 1e6, 5);
    for (root, zero) in std::iter::zip(roots, zeros_of_j0) {
        // The root lies below the zero by zero / Bi.
        assert_close("J₀", root, zero * (1.0 - 1e-6), 1e-9);
    }
    let pi = std::f64::consts::PI;
    for (n, root) in std::iter::zip(1.., eigenvalues(Shape::Slab, 1e6, 4)) {
        assert_close("cos", root, (f64::from(n) - 0.5) * pi, 2e-5);
    }
    for (n, root) in std::iter::zip(1.., eigenvalues(Shape::Sphere, 1e6, 4)) {
        assert_close("sin", root, f64::from(n) * pi, 2e-5);
    }
}

/// J₀ by its power series (Abramowitz & Stegun 9.1.10), good to nine digits below 15.
fn j0(x: f64) -> f64 {
    let quarter = -0.25 * x * x;
    let (mut term, mut sum) = (1.0, 1.0);
    for k in 1..60 {
        term *= quarter / f64::from(k).powi(2);
        sum += term;
    }
    sum
}

proptest! {
    #[test]
    fn every_root_solves_its_equation_and_none_is_missed(
        log_biot in -3.0..3.0_f64,
    ) {
        let biot = 10_f64.powf(log_biot);
        let pi = std::f64::consts::PI;
        for (n, z) in std::iter::zip(0.., eigenvalues(Shape::Slab, biot, 30)) {
            let n = f64::from(n);
            prop_assert!(z > n * pi && z < (n + 0.5) * pi);
            prop_assert!((z * z.sin() - biot * z.cos()).abs() < 1e-9 * (z + biot));
        }
        for (n, z) in std::iter::zip(0.., eigenvalues(Shape::Sphere, biot, 30)) {
            let n = f64::from(n);
            prop_assert!(z > n * pi && z < (n + 1.0) * pi);
            prop_assert!(((1.0 - biot) * z.sin() - z * z.cos()).abs() < 1e-9 * (z + biot));
        }
        let cylinder = eigenvalues(Shape::Cylinder, biot, 30);
        let none_missed = cylinder
            .windows(2)
            .all(|pair| (2.0..4.0).contains(&(pair[1] - pair[0])));
        prop_assert!(none_missed);
    }

    #[test]
    fn the_weights_sum_to_one(log_biot in -2.0..2.0_f64) {
        let biot = 10_f64.powf(log_biot);
        for shape in SHAPES {
            let mean: f64 = terms(shape, biot, 200).iter().map(|term| term.mean).sum();
            prop_assert!((mean - 1.0).abs() < 5e-3, "{shape:?} {mean}");
        }
    }

    /// Energy: what a mode loses from its inside, ζ² times its mean, leaves through the surface, d Bi times what it
    /// has there (d is 1, 2 and 3 for slab, cylinder and ball).
    #[test]
    fn what_the_inside_loses_goes_through_the_surface(log_biot in -3.0..2.0_f64) {
        let biot = 10_f64.powf(log_biot);
        for (shape, dimensions) in std::iter::zip(SHAPES, [1.0, 2.0, 3.0]) {
            for term in terms(shape, biot, 4) {
                let z = term.eigenvalue;
                let at_surface = match shape {
                    Shape::Slab => z.cos(),
                    Shape::Cylinder => j0(z),
                    Shape::Sphere => z.sin() / z,
                };
                let lost = z * z * term.mean;
                let gone = dimensions * biot * term.centre * at_surface;
                prop_assert!((lost - gone).abs() < 1e-7 * (1.0 + biot), "{shape:?}, Bi {biot}: {lost} {gone}");
            }
        }
    }

    #[test]
    fn a_body_loses_its_heat_steadily_from_the_outside(
        log_biot in -2.0..2.0_f64,
        fourier in 0.001..3.0_f64,
        later in 1.01..2.0_f64,
    ) {
        let biot = 10_f64.powf(log_biot);
        for shape in SHAPES {
            let mean = mean_ratio(shape, biot, fourier);
            prop_assert!(mean <= centre_ratio(shape, biot, fourier) + 1e-9);
            prop_assert!(mean_ratio(shape, biot, fourier * later) <= mean + 1e-12);
            prop_assert!((0.0..=1.0).contains(&mean));
        }
    }

    #[test]
    fn nothing_is_not_a_number(biot in proptest::num::f64::ANY, fourier in proptest::num::f64::ANY) {
        for shape in SHAPES {
            prop_assert!((0.0..=1.0).contains(&mean_ratio(shape, biot, fourier)));
            prop_assert!((0.0..=1.0).contains(&centre_ratio(shape, biot, fourier)));
        }
    }
}
