//! The exact scheduler against brute force, mirrors and itself.

mod binary;
mod brute;
mod drawn;
mod files;
mod many;
mod properties;
mod proven;

use domain::schedule::solve::{
    Link, Outcome, Part, Problem, ProblemError, Schedule, Task, fewer_switches, least_waiting,
    solve, solve_within, switches, why_infeasible,
};
use proptest::strategy::{Strategy as _, ValueTree as _};
use proptest::test_runner::TestRunner;

/// How many turns an answer may take here.
const PATIENCE: u32 = 20_000;

/// So much that nothing is forgotten.
const MEMORY: usize = 1_000_000;

fn answer(problem: &Problem, before: Option<&[i32]>) -> Outcome {
    answer_within(problem, before, MEMORY)
}

fn answer_within(problem: &Problem, before: Option<&[i32]>, memory: usize) -> Outcome {
    let mut left = PATIENCE;
    let outcome = solve_within(problem, before, memory, &mut || {
        left -= 1;
        left > 0
    });
    assert!(
        !matches!(outcome, Outcome::BestFound { .. }),
        "no proof within {PATIENCE} turns: {problem:?}"
    );
    if let Outcome::Optimal(Schedule { starts, end }) = &outcome {
        assert!(problem.holds(starts), "{starts:?} breaks {problem:?}");
        assert_eq!(problem.makespan(starts), *end);
    }
    outcome
}

fn end(outcome: &Outcome) -> Option<i32> {
    match outcome {
        Outcome::Optimal(best) => Some(best.end),
        _ => None,
    }
}

fn problem_of(tasks: &[(i32, &[usize])], links: &[(usize, usize, i32, Option<i32>)]) -> Problem {
    let tasks = tasks
        .iter()
        .map(|&(minutes, needs)| Task::new(minutes, needs));
    let links = links.iter().map(|&(from, to, least, most)| Link {
        from,
        to,
        least,
        most,
    });
    Problem::new(tasks.collect(), links.collect(), vec![1, 2]).expect("what fits together")
}

#[test]
fn nothing_to_do_is_done_at_once() {
    let nothing = Problem::new(Vec::new(), Vec::new(), Vec::new()).expect("nothing is wrong");
    assert_eq!(end(&answer(&nothing, None)), Some(0));
}

#[test]
fn what_takes_no_time_holds_nothing() {
    let problem = problem_of(&[(0, &[0]), (10, &[0])], &[(1, 0, -5, Some(-5))]);
    assert_eq!(end(&answer(&problem, None)), Some(10));
}

#[test]
fn nobody_is_in_the_kitchen_for_an_hour() {
    // Kneading follows mixing at once, so both have to wait for the hour to be over.
    let mut tasks = vec![
        Task::new(20, &[0]),
        Task::new(15, &[0]),
        Task::away(30, 60, &[0]),
    ];
    let link = Link {
        from: 0,
        to: 1,
        least: 0,
        most: Some(0),
    };
    let ends = |tasks: &[Task]| {
        let problem = Problem::new(tasks.to_vec(), vec![link], vec![1]);
        end(&answer(&problem.expect("what fits together"), None))
    };
    assert_eq!(ends(&tasks), Some(125));
    // Done before it, nobody waits for it to end.
    tasks[2] = Task::away(35, 60, &[0]);
    assert_eq!(ends(&tasks), Some(35));
    tasks[0].latest = Some(80);
    tasks[2] = Task::away(30, 60, &[0]);
    assert_eq!(ends(&tasks), None);
}

#[test]
fn a_contradiction_names_its_parts_and_no_others() {
    let problem = problem_of(
        &[(10, &[0]), (20, &[0]), (30, &[0]), (5, &[])],
        &[
            (0, 1, 0, Some(5)),
            (0, 2, 0, Some(5)),
            (2, 3, 0, None),
            (0, 3, 0, None),
        ],
    );
    assert_eq!(answer(&problem, None), Outcome::Infeasible);
    let parts = why_infeasible(&problem, &mut || true);
    let expected = [
        Part::Need(1, 0),
        Part::Need(2, 0),
        Part::Least(0),
        Part::Most(0),
        Part::Least(1),
        Part::Most(1),
    ];
    assert_eq!(parts, expected);
}

/// Starts that no problem of a kitchen's size has, or too few of them.
#[test]
fn absurd_starts_are_judged_and_not_reckoned_with() {
    let links = [(0, 1, 0, None), (0, 2, 0, Some(5))];
    let problem = problem_of(&[(10, &[0]), (20, &[0]), (30, &[1])], &links);
    let soonest = end(&answer(&problem, None));
    let absurd = [
        vec![i32::MAX; 3],
        vec![i32::MIN; 3],
        vec![i32::MIN, i32::MAX, 0],
        vec![i32::MAX, i32::MIN, i32::MAX - 20],
        vec![0, 10],
        Vec::new(),
    ];
    for starts in absurd {
        assert!(!problem.holds(&starts), "{starts:?}");
        assert_eq!(end(&answer(&problem, Some(&starts))), soonest);
        let end = problem.makespan(&starts);
        let at_hand = Schedule { starts, end };
        let calm = least_waiting(&problem, &at_hand, &[1, 1], &mut || true);
        assert_eq!((calm.schedule, calm.is_proven), (at_hand, false));
    }
    // Very late is a schedule, too, if nothing forbids it.
    let late = vec![2_000_000_000, 2_000_000_010, 2_000_000_010];
    assert!(problem.holds(&late));
    assert_eq!(end(&answer(&problem, Some(&late))), soonest);
    let end = problem.makespan(&late);
    let at_hand = Schedule { starts: late, end };
    let calm = least_waiting(&problem, &at_hand, &[1, 1], &mut || true);
    assert!(calm.is_proven && calm.waiting == 0);
}

#[test]
fn the_largest_numbers_stay_within_32_bits() {
    let most = ProblemError::MOST_MINUTES;
    let tasks: Vec<Task> = (0..60).map(|nth| Task::new(most, &[nth % 2])).collect();
    let link = |nth: usize| Link {
        from: nth,
        to: nth + 1 + nth % 3,
        least: most,
        most: None,
    };
    let links: Vec<Link> = (0..57).map(link).collect();
    let problem = Problem::new(tasks.clone(), links, vec![1, 1]).expect("not too much");
    let Outcome::Optimal(best) = answer(&problem, None) else {
        panic!("everything can be done one after the other");
    };
    let calm = least_waiting(&problem, &best, &[u16::MAX; 57], &mut || true);
    assert!(problem.holds(&calm.schedule.starts) && calm.is_proven);
    let too_many = vec![link(0); 10_001];
    assert_eq!(
        Problem::new(tasks, too_many, vec![1, 1]),
        Err(ProblemError::TooManyLinks(10_001))
    );
}

/// The one that is worked through where the method is told.
#[test]
fn washing_up_does_not_come_between() {
    let tasks: [(i32, &[usize]); 3] = [(10, &[0]), (20, &[0]), (15, &[0])];
    let problem = problem_of(&tasks, &[(0, 1, 0, Some(10))]);
    let Outcome::Optimal(best) = answer(&problem, None) else {
        panic!("nothing contradicts itself");
    };
    assert_eq!(best.end, 45);
    assert!(!problem.holds(&[0, 25, 10]));
}

#[test]
fn an_answer_that_is_not_proven_is_not_called_best() {
    // Ten pieces of work of their own, and a bound that only shows in their sum.
    let mut tasks: Vec<Task> = (1..=10).map(|nth| Task::new(nth, &[0])).collect();
    tasks.extend((1..=10).map(|nth| Task::new(nth, &[1])));
    let links = (0..10).map(|nth| Link {
        from: nth,
        to: 19 - nth,
        least: 0,
        most: Some(3),
    });
    let problem = Problem::new(tasks, links.collect(), vec![1, 1]).expect("what fits together");
    let full = end(&answer(&problem, None)).expect("there is a schedule");
    match solve(&problem, None, &mut || false) {
        Outcome::BestFound { best, bound } => {
            assert!(bound <= full);
            assert!(best.is_none_or(|best| best.end >= full));
        }
        other => panic!("without any patience: {other:?}"),
    }
}

/// It isn't proven that attention switches as seldom as it could, so this says how often it does.
#[test]
fn attention_nearly_always_switches_as_seldom_as_it_could() {
    let mut runner = TestRunner::deterministic();
    let (mut fewest, mut drawn_with_a_choice) = (0, 0);
    for _ in 0..600 {
        let tree = drawn::chores()
            .new_tree(&mut runner)
            .expect("nothing is rejected");
        let (problem, kinds) = tree.current();
        let kind = |task: usize| Some(kinds[task]);
        let Outcome::Optimal(best) = answer(&problem, None) else {
            continue;
        };
        let calm = least_waiting(&problem, &best, &[2, 1], &mut || true);
        let as_good = (calm.schedule.end, calm.waiting);
        let before = switches(&calm.schedule.starts, &kind);
        let least = brute::fewest_switches(&problem, &[2, 1], as_good, &kind);
        if Some(before) == least {
            continue;
        }
        drawn_with_a_choice += 1;
        let found = fewer_switches(&problem, calm, &[2, 1], &kind, &mut || true);
        fewest += usize::from(Some(switches(&found.schedule.starts, &kind)) == least);
    }
    assert!(drawn_with_a_choice >= 100, "{drawn_with_a_choice}");
    assert!(
        fewest * 100 >= drawn_with_a_choice * 90,
        "{fewest} of {drawn_with_a_choice}"
    );
}
