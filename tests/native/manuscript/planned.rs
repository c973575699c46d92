//! What was brought is planned and baked like what comes with the app. No outside values: what is held is that a
//! plan keeps the formula's own links and needs (`planned::keeps`), and that a bake comes to its end.

use checks::{begin, say};
use domain::bake::{Intent, State};
use domain::formula::StepKind;
use domain::kitchen::Kitchen;
use domain::schedule::plan::{Bounds, Proven, plan};
use domain::units::{Moment, minutes};

use super::{CUSTARD_BUNS, NIGHT_LOAF, ROLLS, formula};
use crate::planned::keeps;

const NINE: Moment = Moment::from_epoch_ms(1_789_894_800_000);

#[test]
fn every_text_is_planned_and_keeps_its_links() {
    for (text, least_h, most_h) in [
        // Mixing and kneading 20 min, rising 135, shaping 15, baking 20, cooling 40: nearly four hours.
        (ROLLS, 3.0, 6.0),
        (CUSTARD_BUNS, 3.5, 7.0),
        // A night of 8 to 14 hours beside.
        (NIGHT_LOAF, 12.0, 22.0),
    ] {
        let bake = begin(formula(text), Kitchen::UNMEASURED, NINE);
        let states: Vec<&State> = vec![bake.state()];
        let bounds = Bounds {
            pins: true,
            ..Bounds::default()
        };
        let plan = plan(&states, bounds, NINE, None, &mut || true);
        let plan = plan.expect("there is a plan");
        assert_eq!(keeps::check(&states, &plan, NINE, &[]), Ok(()));
        assert_eq!(plan.proven, Proven::Soonest);
        let takes_h = (plan.end.likely() - NINE).get() / 60.0;
        assert!((least_h..=most_h).contains(&takes_h), "{takes_h} h: {text}");
    }
}

#[test]
fn every_text_is_baked_to_its_end() {
    for text in [ROLLS, CUSTARD_BUNS, NIGHT_LOAF] {
        let formula = formula(text);
        let mut bake = begin(formula.clone(), Kitchen::UNMEASURED, NINE);
        let mut now = NINE;
        for step in &formula.steps {
            now = now + minutes(10.0);
            assert!(bake.state().is_open(step.id), "{step:?}");
            say(&mut bake, Intent::Done(step.id), now);
        }
        let serve = formula.steps.last().expect("there are steps");
        assert_eq!(serve.kind, StepKind::Serve);
        assert!(bake.state().progress(serve.id).ended.is_some());
    }
}
