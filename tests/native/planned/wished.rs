//! What becomes of a wished table beside steps that were fixed.

use checks::{begin, starter};
use domain::bake::{Bake, Intent, Wishes, decide};
use domain::formula::StepId;
use domain::kitchen::Kitchen;
use domain::schedule::plan::{What, Wished, wished};
use domain::units::{Moment, minutes};

const NINE: Moment = Moment::from_epoch_ms(1_789_894_800_000);
/// Of the buns: "Mix the dough".
const MIX: StepId = StepId(6);

fn ask(bake: &mut Bake, intent: Intent) {
    let entries = decide(bake, intent, NINE).expect("it can be asked");
    bake.append(entries);
}

fn plan_of(bake: &Bake) -> Wished {
    wished(&[bake.state()], NINE, None, &mut || true).expect("there is a plan")
}

fn start(wished: &Wished, step: StepId) -> Moment {
    let mut items = wished.plan.items.iter();
    let item = items.find(|item| item.what == What::Step(0, step));
    item.expect("it is planned").start
}

fn for_seven() -> Bake {
    let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, NINE);
    let table = Some(NINE + minutes(600.0));
    let wishes = Wishes {
        table,
        ..Wishes::default()
    };
    ask(&mut bake, Intent::Wish(Box::new(wishes)));
    bake
}

#[test]
fn a_fixed_step_that_takes_of_the_buffer_moves_the_beginning_by_no_more_than_that() {
    let mut bake = for_seven();
    let free = plan_of(&bake);
    let (kept, begins) = (
        free.kept.expect("a table"),
        free.begins[0].expect("a start"),
    );
    assert!(kept.spare >= kept.buffer && kept.buffer.get() >= 30.0);
    let fixed = start(&free, MIX) + minutes(25.0);
    ask(&mut bake, Intent::Pin(MIX, Some(fixed)));
    let plan = plan_of(&bake);
    assert_eq!(start(&plan, MIX), fixed);
    let kept = plan.kept.expect("a table");
    assert!(kept.spare.get() >= 0.0, "{kept:?}");
    let sooner = begins - plan.begins[0].expect("a start");
    assert!(sooner <= kept.buffer, "{sooner:?}");
}

#[test]
fn who_is_called_to_begin_can_say_that_it_was_heard_and_is_called_for_another_beginning() {
    use domain::bake::{AlarmId, begin_alarm};
    let mut bake = for_seven();
    let begins = NINE;
    assert!(begin_alarm(bake.state(), begins).is_some());
    ask(&mut bake, Intent::Hear(AlarmId::Begin));
    assert!(begin_alarm(bake.state(), begins).is_none());
    assert!(begin_alarm(bake.state(), begins + minutes(60.0)).is_some());
}
