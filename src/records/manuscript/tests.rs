//! Nothing of a manuscript is lost on the way out and back, and nothing that isn't one is taken in.
//!
//! Properties of our own shape, so no outside source can give the values.

use domain::food::food;
use domain::formula::manuscript::{At, Edit, Manuscript, MassBasis, RestsOn};
use domain::formula::{ComponentId, ComponentKind, StepKind};
use domain::units::{bakers_percent, grams};

use super::ManuscriptRecord;
use crate::{Kind, ReadError, Record as _};

fn half_done() -> Manuscript {
    let mut manuscript = Manuscript::blank("half-done");
    let at = |place| At {
        component: ComponentId(1),
        place,
    };
    let edits = [
        Edit::Name("Half done".to_owned()),
        Edit::AddIngredient(ComponentId(1), "Mehl \"550\"".to_owned()),
        Edit::Food(at(0), food("bread-flour")),
        Edit::Mass(at(0), Some(grams(412.5))),
        Edit::AddIngredient(ComponentId(1), "Wasser".to_owned()),
        Edit::Food(at(1), food("water")),
        Edit::Percent(at(1), bakers_percent(66.6)),
        Edit::Tempered(ComponentId(1), Some(1)),
        Edit::AddIngredient(ComponentId(1), "something".to_owned()),
        Edit::AddIngredient(ComponentId(1), "flour for dusting".to_owned()),
        Edit::AsLiked(at(3), true),
        Edit::AddComponent(ComponentKind::Filling, String::new()),
        Edit::UsualSteps,
    ];
    for edit in &edits {
        assert_eq!(manuscript.apply(edit), Ok(()), "{edit:?}");
    }
    let unknown = &mut manuscript.components[0].ingredients[2];
    unknown.written = "1 Päckchen".to_owned();
    unknown.mass = Some(grams(8.0));
    unknown.basis = MassBasis::Converted {
        rests_on: RestsOn::Trade,
        described: "1 packet".to_owned(),
    };
    manuscript
}

fn read(text: &str) -> Result<Manuscript, ReadError> {
    ManuscriptRecord::read(text).and_then(Manuscript::try_from)
}

#[test]
fn every_manuscript_is_read_back_as_it_was_written() {
    let mut all = vec![half_done(), Manuscript::blank("")];
    all.extend(crate::starters::all().iter().map(Manuscript::from));
    for manuscript in all {
        let text = ManuscriptRecord::from(&manuscript).write();
        assert_eq!(read(&text), Ok(manuscript));
    }
}

#[test]
fn what_no_edit_could_have_done_is_not_taken_in() {
    let text = ManuscriptRecord::from(&half_done()).write();
    let broken = [
        (r#""food":"water""#, r#""food":"weather""#, "weather"),
        (r#""mass_g":412.5"#, r#""mass_g":-1"#, "mass"),
        (r#""percent":66.6"#, r#""percent":-3"#, "percentage"),
        (r#""last_step":"#, r#""last_step":1,"was":"#, "never given"),
        (
            r#""last_component":"#,
            r#""last_component":0,"was":"#,
            "never given",
        ),
        (
            r#""id":2,"kind":"filling""#,
            r#""id":1,"kind":"filling""#,
            "twice",
        ),
        (
            r#""after":[{"step":1}]"#,
            r#""after":[{"step":9}]"#,
            "before",
        ),
        (
            r#""component":1,"kind":"gather""#,
            r#""component":7,"kind":"gather""#,
            "isn't there",
        ),
    ];
    for (was, becomes, said) in broken {
        assert!(text.contains(was), "{was}: {text}");
        match read(&text.replacen(was, becomes, 1)) {
            Err(ReadError::Impossible { kind, cause }) => {
                assert_eq!(kind, Kind::Manuscript);
                assert!(cause.contains(said), "{was}: {cause}");
            }
            other => panic!("{was}: {other:?}"),
        }
    }
    let newer = text.replacen(r#""version":1"#, r#""version":2"#, 1);
    assert!(matches!(read(&newer), Err(ReadError::NewerThanApp { .. })));
    assert!(matches!(read("{}"), Err(ReadError::Malformed { .. })));
}

/// A starter that was opened to be changed, and wasn't, is the same formula.
#[test]
fn a_formula_that_is_opened_and_closed_stays_as_it_was() {
    for formula in crate::starters::all() {
        let manuscript = Manuscript::from(&formula);
        assert_eq!(manuscript.open(), []);
        assert_eq!(manuscript.formula(), Ok(formula));
    }
}

mod plain_texts;

/// What a text of the dough's work has no words for, because an app asks for it and a baker does it unasked.
const UNTOLD: [StepKind; 5] = [
    StepKind::Gather,
    StepKind::TakeTemperature,
    StepKind::OvenOn,
    StepKind::OvenHeats,
    StepKind::Serve,
];
