//! Heat going through bodies: series, time constants, and the films at their surface.

use domain::thermal::film;
use domain::thermal::reach::Solid;
use domain::thermal::transient::{Axis, Shape, centre_ratio, one_term};
use domain::thermal::vessel::Material;
use domain::units::{
    Celsius, JoulesPerGramKelvin, KilogramsPerCubicMetre, Millimetres, Share, WattsPerMetreKelvin,
    WattsPerSquareMetreKelvin, share,
};
use serde_json::json;

use super::{Answer, by};
use crate::reckon::item::{Item, Refused, fits};
use crate::reckon::{Context, text};

pub(super) fn answer(item: &Item, _: &Context) -> Option<Result<Answer, Refused>> {
    let topic = item.topic.as_str();
    let starts = |begin| topic.starts_with(begin);
    Some(if starts("one-term zeta") {
        first_terms(item)
    } else if starts("centre temperature ratio") {
        ratio(item)
    } else if starts("time for centre") {
        time(item)
    } else if starts("short cylinder") {
        short_cylinder(item)
    } else if starts("lumped time constant") {
        lumped(item)
    } else if starts("slow time constant") {
        slow(item)
    } else if starts("natural convection + radiation") {
        films(item)
    } else {
        return None;
    })
}

fn shape(name: &str) -> Result<Shape, Refused> {
    match name {
        "wall" | "slab" | "plate" => Ok(Shape::Slab),
        "cylinder" => Ok(Shape::Cylinder),
        "sphere" | "ball" => Ok(Shape::Sphere),
        other => Err(format!("the model has no series for a {other}")),
    }
}

fn first_terms(item: &Item) -> Result<Answer, Refused> {
    let biot = item.number("Bi")?;
    let usual = vec![
        "wall z",
        "wall C",
        "cylinder z",
        "cylinder C",
        "sphere z",
        "sphere C",
    ];
    let values: Result<Vec<f64>, Refused> = item
        .order()
        .unwrap_or(usual)
        .into_iter()
        .map(|name| {
            let (of, what) = name.split_once(' ').ok_or("its order isn't readable")?;
            let term = one_term(shape(of)?, biot);
            match what {
                "z" | "zeta" => Ok(term.eigenvalue),
                "C" => Ok(term.centre),
                other => Err(format!("a term has no {other}")),
            }
        })
        .collect();
    by("thermal::transient", values?)
}

fn ratio(item: &Item) -> Result<Answer, Refused> {
    let of = shape(item.text("geometry")?)?;
    let ratio = centre_ratio(of, item.number("Bi")?, item.number("Fo")?);
    by("thermal::transient", ratio)
}

fn material(item: &Item) -> Result<Material, Refused> {
    Ok(Material {
        conductivity: item.conductivity()?,
        density: item.density()?,
        specific_heat: item.specific_heat()?,
    })
}

const NEVER: &str = "the centre never has that temperature";

fn time(item: &Item) -> Result<Answer, Refused> {
    let solid = Solid {
        axes: vec![Axis {
            shape: shape(item.text("geometry")?)?,
            length: item.metres("L_or_r_m")?,
        }],
        material: material(item)?,
        film: item.film()?,
    };
    let (from, ambient, to) = (
        item.celsius("Ti")?,
        item.celsius("Tenv")?,
        item.celsius("T")?,
    );
    let taken = solid.time_to(from, ambient, to).ok_or(NEVER)?;
    by("thermal::reach", taken.get())
}

/// A bowl cooled all around; its temperatures stand in the topic: "minutes 57→21, 57→5 in 4 °C air".
fn short_cylinder(item: &Item) -> Result<Answer, Refused> {
    let axis = |shape, key| {
        Ok::<_, Refused>(Axis {
            shape,
            length: item.metres(key)?,
        })
    };
    let solid = Solid {
        axes: vec![
            axis(Shape::Cylinder, "r")?,
            axis(Shape::Slab, "half_height")?,
        ],
        material: material(item)?,
        film: item.film()?,
    };
    let (_, course) = item
        .topic
        .split_once("minutes")
        .ok_or("its topic names no temperatures")?;
    let ambient_c = item.number("Tenv").ok().or_else(|| {
        let air = course.split(" in ").nth(1)?;
        text::with_unit(air, "°C").first().copied()
    });
    let ambient = fits(Celsius::new(ambient_c.ok_or("its topic names no air")?))?;
    let spans = course.split(" in ").next().unwrap_or_default().split(',');
    let taken: Result<Vec<f64>, Refused> = spans
        .map(|span| {
            let ends: Vec<f64> = text::numbers(span).iter().map(|end| end.value).collect();
            let [from, to] = ends.as_slice() else {
                return Err("its topic names no two temperatures".to_owned());
            };
            let (from, to) = (fits(Celsius::new(*from))?, fits(Celsius::new(*to))?);
            Ok(solid.time_to(from, ambient, to).ok_or(NEVER)?.get())
        })
        .collect();
    by("thermal::reach", taken?)
}

fn lumped(item: &Item) -> Result<Answer, Refused> {
    let of = if item.topic.contains("cylinder") {
        Shape::Cylinder
    } else if item.topic.contains("sphere") {
        Shape::Sphere
    } else {
        Shape::Slab
    };
    let solid = Solid {
        axes: vec![Axis {
            shape: of,
            length: item.metres("r").or_else(|_| item.metres("L"))?,
        }],
        // One temperature throughout, so it conducts as well as can be.
        material: Material {
            conductivity: WattsPerMetreKelvin::MAX,
            density: item.density()?,
            specific_heat: item.specific_heat()?,
        },
        film: item.film()?,
    };
    by("thermal::reach", solid.lumped_time_constant().get())
}

/// All of it stands in the topic: "dough sphere r 3 cm, k .45 ρ 1100 c 2800, h 10".
fn slow(item: &Item) -> Result<Answer, Refused> {
    let said = |key: &str, word: &str| {
        let told = item.number(key).ok();
        let told = told.or_else(|| text::after(&item.topic, word));
        told.ok_or_else(|| format!("its topic has no {word}"))
    };
    let of = item.topic.split_whitespace().find_map(|word| {
        let word = word.trim_matches(|letter: char| !letter.is_alphabetic());
        shape(word).ok()
    });
    let radius = match item.metres("r") {
        Ok(stated) => stated,
        Err(_) => {
            let per_unit = if item.topic.contains("cm") {
                10.0
            } else {
                1000.0
            };
            fits(Millimetres::new(said("r", "r")? * per_unit))?
        }
    };
    let solid = Solid {
        axes: vec![Axis {
            shape: of.ok_or("its topic names no shape")?,
            length: radius,
        }],
        material: Material {
            conductivity: fits(WattsPerMetreKelvin::new(said("k", "k")?))?,
            density: fits(KilogramsPerCubicMetre::new(said("rho", "ρ")?))?,
            specific_heat: fits(JoulesPerGramKelvin::new(said("cp_J", "c")? / 1000.0))?,
        },
        film: fits(WattsPerSquareMetreKelvin::new(said("h", "h")?))?,
    };
    by("thermal::reach", solid.slow_time_constant().get())
}

fn films(item: &Item) -> Result<Answer, Refused> {
    let (surface, air) = (item.celsius("Ts")?, item.celsius("Tair")?);
    let emissivity = match text::after(&item.topic, "(ε") {
        Some(stated) => fits(Share::new(stated))?,
        None => share(0.9),
    };
    let convection = film::convection_at_sphere(item.metres("D_m")?, surface, air);
    let radiation = film::radiation(surface, air, emissivity);
    by("thermal::film", json!([convection.get(), radiation.get()]))
}
