//! What contradicts each other, and what could be wished instead, in whole sentences.

use checks::{begin, say, starter};
use domain::bake::{Bake, Intent, Wishes};
use domain::formula::StepId;
use domain::kitchen::Kitchen;

use super::super::tests::{at, by_clock};
use super::*;

/// Buns, and a braid beside them.
fn bakes() -> [Bake; 2] {
    let bake = |id| begin(starter(id), Kitchen::UNMEASURED, at(9, 0));
    ["plum-almond-buns", "orange-braid"].map(bake)
}

fn step_of(bake: &Bake, title: &str) -> StepId {
    let mut steps = bake.state().formula.steps.iter();
    let step = steps.find(|step| step.title == title);
    step.expect("a step of that title").id
}

/// What is told of the buns alone, and of them beside the braid.
fn both(tell: impl Fn(&[&State]) -> String) -> [String; 2] {
    let [buns, braid] = bakes();
    [tell(&[buns.state()]), tell(&[buns.state(), braid.state()])]
}

fn said(nearest: Nearest) -> [String; 2] {
    both(|bakes| by_clock(&|times| instead(&nearest, bakes, times)))
}

fn contradicting(claims: &[Claim], nearest: &[Nearest]) -> [String; 2] {
    let conflict = Conflict {
        claims: claims.to_vec(),
        nearest: nearest.to_vec(),
    };
    both(|bakes| by_clock(&|times| contradicts(&conflict, bakes, times)))
}

/// What concerns all breads is told of one as of several.
#[test]
fn other_wishes_are_told_with_their_times() {
    let away = (at(11, 0), at(13, 0));
    let (was, sooner) = (at(9, 0), at(6, 50));
    let rows = [
        (
            Nearest::Begin { was, at: sooner },
            "Begin from 06:50 on instead of 09:00",
        ),
        (Nearest::Stay { away }, "Be here from 11:00 to 13:00"),
        (
            Nearest::Back {
                away,
                at: at(12, 20),
            },
            "Be back by 12:20",
        ),
        (
            Nearest::Leave {
                away,
                at: at(11, 35),
            },
            "Don't leave before 11:35",
        ),
        (
            Nearest::Room { holds: 2 },
            "Room for 2 bowls or trays in the fridge",
        ),
    ];
    for (nearest, expected) in rows {
        assert_eq!(said(nearest), [expected; 2]);
    }
}

/// A step is told with whose it is, where several breads are planned.
#[test]
fn a_step_and_a_night_that_could_be_otherwise_are_told_with_their_names() {
    let [buns, _] = bakes();
    let [divide, rise] = ["Divide", "First rise"].map(|title| step_of(&buns, title));
    let fixed = |at| Nearest::Fixed {
        bake: 0,
        step: divide,
        at,
    };
    let retard = |stay| Nearest::Retard {
        bake: 0,
        step: rise,
        stay,
    };
    let rows = [
        (
            fixed(Some(at(12, 5))),
            ["Divide at 12:05", "Divide (buns) at 12:05"],
        ),
        (
            fixed(None),
            ["Divide whenever it can", "Divide (buns) whenever it can"],
        ),
        (
            retard(Some((at(22, 10), at(30, 30)))),
            [
                "First rise in the fridge from 22:10 to 06:30",
                "First rise (buns) in the fridge from 22:10 to 06:30",
            ],
        ),
        (
            retard(None),
            [
                "First rise not in the fridge",
                "First rise (buns) not in the fridge",
            ],
        ),
    ];
    for (nearest, expected) in rows {
        assert_eq!(said(nearest), expected);
    }
}

/// Of several tables it is said which of them is moved.
#[test]
fn another_table_is_told_beside_that_which_it_stands_for_where_there_are_several() {
    let later = Nearest::Table {
        was: at(16, 0),
        at: at(16, 25),
        safely: Some(at(16, 50)),
    };
    let mut bakes = bakes();
    let mut told = |tables: [i64; 2]| {
        for (bake, hour) in bakes.iter_mut().zip(tables) {
            let wishes = Wishes {
                table: Some(at(hour, 0)),
                ..Wishes::default()
            };
            say(bake, Intent::Wish(Box::new(wishes)), at(9, 1));
        }
        let states = [bakes[0].state(), bakes[1].state()];
        [
            by_clock(&|times| instead(&later, &states, times)),
            by_clock(&|times| spared(at(16, 0), at(16, 50), &states, times)),
        ]
    };
    assert_eq!(
        told([16, 16]),
        ["Table at 16:25", "Table at 16:50, with time to spare"]
    );
    assert_eq!(
        told([16, 20]),
        [
            "Table at 16:25 instead of 16:00",
            "Table at 16:50 instead of 16:00, with time to spare",
        ]
    );
}

/// What the baker can change comes first, and what can't be changed last.
#[test]
fn what_contradicts_each_other_is_one_sentence_that_names_it_all() {
    let [buns, _] = bakes();
    let [divide, rise] = ["Divide", "First rise"].map(|title| step_of(&buns, title));
    let claims = [
        Claim::Bake(0),
        Claim::Away(at(11, 0), at(13, 0)),
        Claim::Fixed(0, divide, at(12, 5)),
        Claim::Retard(0, rise, at(22, 10), at(30, 30)),
        Claim::NotBefore(at(10, 0)),
        Claim::Table(at(16, 0)),
    ];
    assert_eq!(
        contradicting(&claims, &[]),
        [
            "These don't fit together: the table at 16:00; nothing before 10:00; the time in the fridge from 22:10 to \
             06:30 for First rise; Divide at 12:05; nobody here from 11:00 to 13:00; the plum and almond cream buns.",
            "These don't fit together: the table at 16:00; nothing before 10:00; the time in the fridge from 22:10 to \
             06:30 for First rise (buns); Divide (buns) at 12:05; nobody here from 11:00 to 13:00; the plum and almond \
             cream buns.",
        ]
    );
    assert_eq!(
        contradicting(&[Claim::Bake(1)], &[])[1],
        "Whatever is wished, there is no plan for the orange braid."
    );
}

/// Where a button offers room in the fridge, nobody is sent to the kitchen's page for it.
#[test]
fn of_a_fridge_that_is_too_full_it_is_told_when_and_what_can_be_done_about_it() {
    let full = |times| {
        [
            Claim::Bake(0),
            Claim::Fridge(times),
            Claim::Table(at(16, 0)),
        ]
    };
    let room = [Nearest::Room { holds: 2 }];
    let when = Some((at(22, 0), at(30, 30)));
    assert_eq!(
        contradicting(&full(when), &room)[0],
        "These don't fit together: the table at 16:00; the fridge (too full from 22:00 to 06:30); the plum and almond \
         cream buns."
    );
    assert_eq!(
        contradicting(&full(None), &[])[0],
        "These don't fit together: the table at 16:00; the room in the fridge; the plum and almond cream buns. Where \
         there is room for more in the fridge, say so among the kitchen's temperatures."
    );
}
