//! What of a plan is told with its names.

use checks::{begin, say, starter, up_to};
use domain::bake::{BakeId, Intent, Wishes};
use domain::formula::StepKind;
use domain::kitchen::Kitchen;
use domain::schedule::plan::{What, timetable};
use domain::units::minutes;

use super::*;

const START: Moment = Moment::from_epoch_ms(1_789_894_800_000);

fn told(bake: &Bake, now: Moment) -> Told {
    told_of(std::slice::from_ref(bake), now)
}

fn told_of(bakes: &[Bake], now: Moment) -> Told {
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let timetable = timetable(&states, now, None, &mut || true);
    let timetable = timetable.expect("there is a plan");
    let planned = Planned::new(bakes, timetable, now, None);
    Told::of(&planned, bakes, now).expect("it is planned")
}

/// A bread begun for a table.
fn for_table(id: &str, table: Moment) -> Bake {
    let mut bake = begin(starter(id), Kitchen::UNMEASURED, START);
    bake.id = BakeId(id.to_owned());
    let wishes = Wishes {
        table: Some(table),
        ..Wishes::default()
    };
    say(&mut bake, Intent::Wish(Box::new(wishes)), START);
    bake
}

#[test]
fn of_several_tables_it_is_told_which_hang_on_something() {
    let tables = [9.0, 14.0].map(|hours| START + minutes(60.0 * hours));
    let ids = ["plum-almond-buns", "orange-braid"];
    let mut bakes: Vec<Bake> = Vec::new();
    for (id, table) in ids.into_iter().zip(tables) {
        bakes.push(for_table(id, table));
    }
    let told = told_of(&bakes, START);
    for (bake, table) in bakes.iter().zip(tables) {
        let last = bake.state().formula.steps.last().expect("it has steps").id;
        let mut entries = told.entries.iter();
        let of = Some((bake.id.clone(), last));
        let entry = entries.find(|entry| entry.of == of).expect("it is planned");
        assert_eq!((entry.hangs, &entry.tables[..]), (true, &[table][..]));
    }
    assert!(
        told.entries
            .iter()
            .all(|entry| entry.hangs != entry.tables.is_empty())
    );
    // Of one table there is nothing to tell apart.
    let one = told_of(&bakes[..1], START);
    assert!(
        one.entries
            .iter()
            .all(|entry| entry.tables.is_empty() && entry.for_table)
    );
}

/// Two breads half an hour apart share an oven, so one of them is ready long before its table.
#[test]
fn what_is_ready_early_tells_whose_the_oven_is_later() {
    let ids = ["plum-almond-buns", "orange-braid"];
    let mut told_of_oven = 0;
    for apart in [5.0, 30.0, 480.0] {
        let mut bakes: Vec<Bake> = Vec::new();
        for (place, id) in ids.into_iter().enumerate() {
            let table = START + minutes(840.0 + apart * place as f64);
            bakes.push(for_table(id, table));
        }
        let told = told_of(&bakes, START);
        for ((whose, margin), early) in told.margins.iter().zip(&told.early) {
            // The buns have cream, and nothing of a braid has to stand in the fridge.
            let is_buns = whose.as_deref() == Some("Buns");
            assert_eq!(early.spoils, is_buns, "{whose:?}");
            let Some(Because::Oven(other, from)) = &early.because else {
                continue;
            };
            assert_ne!(whose.as_ref(), Some(other));
            assert!(*from > margin.ready.likely() - minutes(180.0) && *from < margin.table);
            let mut entries = told.entries.iter();
            assert!(
                entries.any(|entry| entry.start == *from && entry.whose.as_ref() == Some(other))
            );
            told_of_oven += 1;
        }
        // Hours apart nothing has to be early.
        let oven = |early: &Early| matches!(early.because, Some(Because::Oven(..)));
        assert!(apart < 400.0 || !told.early.iter().any(oven));
    }
    assert!(told_of_oven > 0);
}

#[test]
fn what_waits_for_another_bread_names_it_and_what_waits_for_its_own_doesn_t() {
    let ids = ["plum-almond-buns", "orange-braid"];
    let bakes = ids.map(|id| {
        let mut bake = begin(starter(id), Kitchen::UNMEASURED, START);
        bake.id = BakeId(id.to_owned());
        bake
    });
    let states: Vec<&State> = bakes.iter().map(Bake::state).collect();
    let timetable = timetable(&states, START, None, &mut || true);
    let planned = Planned::new(&bakes, timetable.expect("there is a plan"), START, None);
    let told = Told::of(&planned, &bakes, START).expect("it is planned");
    let (mut own, mut others) = (0, 0);
    let items = &planned.timetable.plan.items;
    for item in items {
        let (Some(of), Some(place)) = (item.what.of(), item.waits_for) else {
            continue;
        };
        let mut entries = told.entries.iter();
        let entry = entries.find(|entry| {
            let is_its = entry.of == Some((bakes[of.0].id.clone(), of.1));
            is_its && matches!(item.what, What::Step(..)) && entry.start == item.start
        });
        let Some(Why::After(other) | Why::Before(other)) = entry.map(|entry| &entry.why) else {
            continue;
        };
        let whose = items[place].what.of().map(|(bake, _)| bake);
        let names = [" (Buns)", " (Braid)"].map(|name| other.ends_with(name));
        match whose {
            Some(bake) if bake != of.0 => {
                assert!(names[bake], "{other}");
                others += 1;
            }
            _ => {
                assert_eq!(names, [false; 2], "{other}");
                own += 1;
            }
        }
    }
    assert!(own > 2 && others > 2, "{own}, {others}");
}

#[test]
fn a_planned_night_is_a_wish_and_says_that_it_was_planned() {
    let mut bake = begin(starter("plum-almond-buns"), Kitchen::UNMEASURED, START);
    let (rise, now) = up_to(&mut bake, StepKind::Bulk, START, |_| minutes(5.0));
    assert!(!told(&bake, now).given.as_wished);
    let stay = (now + minutes(10.0), now + minutes(150.0));
    say(&mut bake, Intent::PlanRetard(rise, Some(stay)), now);
    let told = told(&bake, now);
    assert!(told.given.as_wished);
    let moves = told.entries.iter();
    let moves = moves.filter(|entry| entry.key.ends_with("/in") || entry.key.ends_with("/out"));
    let whys: Vec<String> = moves.map(|entry| words::plan::why(entry, now)).collect();
    assert_eq!(whys, ["It was planned for then."; 2]);
}

#[test]
fn what_something_waits_for_ends_as_it_begins() {
    // With a time away before it, a table moves most of the dough later than it could be.
    let away = [3.0, 4.0].map(|hours| START + minutes(60.0 * hours));
    let mut after = 0;
    for id in ["plum-almond-buns", "orange-braid", "overnight-tin-loaf"] {
        for hours in [8.0, 9.5, 24.0] {
            let mut bake = begin(starter(id), Kitchen::UNMEASURED, START);
            let wishes = Wishes {
                table: Some(START + minutes(60.0 * hours)),
                away: vec![(away[0], away[1])],
                ..Wishes::default()
            };
            say(&mut bake, Intent::Wish(Box::new(wishes)), START);
            let told = told(&bake, START);
            let titled = |title: &str| {
                let mut entries = told.entries.iter();
                entries
                    .find(|entry| entry.title == title)
                    .expect("it is planned")
            };
            let steps = &bake.state().formula.steps;
            for entry in &told.entries {
                match &entry.why {
                    Why::After(other) => {
                        let waited = (entry.start - titled(other).end).get();
                        let of = entry.of.as_ref().map(|(_, step)| *step);
                        let step = steps.iter().find(|step| Some(step.id) == of);
                        let links = step.into_iter().flat_map(|step| &step.after);
                        let least = links.map(|link| link.least.get()).fold(0.0, f64::max);
                        assert!(
                            (-2.0..=least + 2.0).contains(&waited),
                            "{id}, table in {hours} h: {} waits for {other}, {waited} min",
                            entry.title
                        );
                        after += 1;
                    }
                    Why::Nobody => assert!((entry.start - away[1]).get().abs() <= 2.0),
                    Why::InTimeFor(_) => assert!(
                        steps
                            .iter()
                            .any(|step| { step.ahead_of.is_some() && step.title == entry.title })
                    ),
                    _ => {}
                }
            }
        }
    }
    assert!(after > 60, "{after}");
}

/// Ready half an hour before, bread is served when people eat, and a table that is missed has no moment to serve at.
#[test]
fn what_is_ready_for_a_table_is_served_at_it() {
    let serve = |hours: f64| {
        let table = START + minutes(60.0 * hours);
        let bake = for_table("plum-almond-buns", table);
        let last = bake.state().formula.steps.last().expect("it has steps");
        assert_eq!(last.kind, StepKind::Serve);
        let told = told(&bake, START);
        let entry = told.entries.iter().find(|entry| {
            let of = entry.of.as_ref();
            of.is_some_and(|(_, step)| *step == last.id)
        });
        let margin = told.margins[0].1;
        (table, margin, entry.expect("it is planned").clone())
    };
    let (table, margin, kept) = serve(10.0);
    assert!(margin.spare() > minutes(10.0));
    assert_eq!((kept.end, &kept.why), (table, &Why::Planned));
    assert!(kept.end - kept.start >= minutes(1.0));
    let (table, margin, late) = serve(3.0);
    assert!(margin.is_late() && late.end > table);
    assert_eq!(late.end, margin.ready.likely());
}
