//! The exact scheduler against brute force, mirrors and itself.

mod brute;
mod drawn;
mod files;

use domain::schedule::solve::{
    Link, Outcome, Part, Problem, ProblemError, Schedule, Task, fewer_switches, least_waiting,
    least_waiting_within, solve, solve_within, switches, why_infeasible,
};
use proptest::prelude::*;
use proptest::strategy::ValueTree as _;
use proptest::test_runner::{RngSeed, TestRunner};

/// How many conflicts an answer may take here; the hardest of these take some hundreds.
const PATIENCE: u32 = 20_000;

/// So much that nothing is forgotten.
const MEMORY: usize = 1_000_000;

/// The same problems in every run: of those drawn anew, one in some thousands takes longer than any patience that a
/// check could have, with hardly any memory most of all. Other seeds are for by hand.
fn the_same(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        rng_seed: RngSeed::Fixed(20_261_126),
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

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
        "no proof within {PATIENCE} conflicts: {problem:?}"
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

/// Seen backwards, the end of each task is its start.
fn mirrored(problem: &Problem) -> Problem {
    let links = problem.links().iter().map(|&link| Link {
        from: link.to,
        to: link.from,
        ..link
    });
    let capacities = problem.capacities().to_vec();
    Problem::new(problem.tasks().to_vec(), links.collect(), capacities)
        .expect("a mirror speaks of the same things")
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

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn what_brute_force_finds_is_found(problem in drawn::tiny()) {
        prop_assert_eq!(end(&answer(&problem, None)), brute::least_end(&problem));
    }

    #[test]
    fn nothing_waits_less_than_brute_force_finds(
        problem in drawn::tiny(), weights in prop::collection::vec(0..4_u16, 5),
    ) {
        let problem = drawn::counted(&problem);
        if let Outcome::Optimal(best) = answer(&problem, None) {
            let weights = &weights[..problem.links().len()];
            let calm = least_waiting(&problem, &best, weights, &mut || true);
            prop_assert!(calm.is_proven);
            prop_assert!(problem.holds(&calm.schedule.starts));
            prop_assert_eq!(calm.schedule.end, problem.makespan(&calm.schedule.starts));
            prop_assert!(calm.schedule.end <= best.end);
            let starts = &calm.schedule.starts;
            prop_assert_eq!(calm.waiting, brute::waiting(&problem, weights, starts));
            let least = brute::least_waiting(&problem, weights, best.end);
            prop_assert_eq!(Some(calm.waiting), least);
        }
    }

    #[test]
    fn attention_switches_no_oftener_and_nothing_else_gets_worse(
        (problem, kinds) in drawn::chores(), weights in prop::collection::vec(0..3_u16, 3),
    ) {
        let kind = |task: usize| Some(kinds[task]);
        if let Outcome::Optimal(best) = answer(&problem, None) {
            let calm = least_waiting(&problem, &best, &weights, &mut || true);
            let found = fewer_switches(&problem, calm.clone(), &weights, &kind, &mut || true);
            let starts = &found.schedule.starts;
            prop_assert!(problem.holds(starts));
            prop_assert_eq!(problem.makespan(starts), calm.schedule.end);
            prop_assert_eq!(brute::waiting(&problem, &weights, starts), calm.waiting);
            prop_assert!(switches(starts, &kind) <= switches(&calm.schedule.starts, &kind));
            let as_good = (calm.schedule.end, calm.waiting);
            let fewest = brute::fewest_switches(&problem, &weights, as_good, &kind);
            prop_assert!(Some(switches(starts, &kind)) >= fewest);
        }
    }

    #[test]
    fn what_contradicts_contradicts_by_itself(problem in drawn::tiny()) {
        let parts = why_infeasible(&problem, &mut || true);
        let is_infeasible = answer(&problem, None) == Outcome::Infeasible;
        prop_assert_eq!(is_infeasible, !parts.is_empty());
        if is_infeasible {
            let left = drawn::only(&problem, &parts);
            prop_assert_eq!(answer(&left, None), Outcome::Infeasible);
            for nth in 0..parts.len() {
                let mut fewer = parts.clone();
                fewer.remove(nth);
                let feasible = end(&answer(&drawn::only(&problem, &fewer), None));
                prop_assert!(feasible.is_some(), "{:?} is more than it takes", parts);
            }
        }
    }
}

proptest! {
    #![proptest_config(the_same(80))]

    #[test]
    fn backwards_and_forwards_agree(problem in drawn::kitchen()) {
        let mirrored = answer(&mirrored(&problem), None);
        prop_assert_eq!(end(&answer(&problem, None)), end(&mirrored));
    }

    #[test]
    fn a_plan_redone_with_no_news_stays(problem in drawn::windowed()) {
        let first = answer(&problem, None);
        prop_assert_eq!(&answer(&problem, None), &first);
        if let Outcome::Optimal(best) = &first {
            prop_assert_eq!(&answer(&problem, Some(&best.starts)), &first);
        }
    }

    #[test]
    fn nothing_ends_a_minute_sooner(problem in drawn::windowed()) {
        if let Outcome::Optimal(best) = answer(&problem, None) {
            let mut tasks = problem.tasks().to_vec();
            for task in &mut tasks {
                // Where that is before the beginning, a later one is no less in vain.
                let latest = (best.end - 1 - task.minutes).max(0);
                if task.counts {
                    task.latest = Some(task.latest.map_or(latest, |told| told.min(latest)));
                }
            }
            let (links, capacities) = (problem.links().to_vec(), problem.capacities().to_vec());
            let sooner = Problem::new(tasks, links, capacities).expect("as before");
            prop_assert_eq!(end(&answer(&sooner, None)).filter(|&end| end < best.end), None);
        }
    }

    #[test]
    fn a_calm_plan_redone_stays(problem in drawn::windowed(), weight in 1..4_u16) {
        if let Outcome::Optimal(best) = answer(&problem, None) {
            let nth = |nth: usize| if nth.is_multiple_of(3) { 1 } else { weight };
            let weights: Vec<u16> = (0..problem.links().len()).map(nth).collect();
            let mut left = PATIENCE;
            let mut go_on = || {
                left -= 1;
                left > 0
            };
            let calm = least_waiting(&problem, &best, &weights, &mut go_on);
            prop_assert!(calm.is_proven);
            prop_assert!(problem.holds(&calm.schedule.starts));
            prop_assert!(calm.waiting <= brute::waiting(&problem, &weights, &best.starts));
            let again = least_waiting(&problem, &calm.schedule, &weights, &mut go_on);
            prop_assert_eq!(&again, &calm);
            let redone = answer(&problem, Some(&calm.schedule.starts));
            prop_assert_eq!(redone, Outcome::Optimal(calm.schedule));
        }
    }

    #[test]
    fn what_is_forgotten_changes_no_end(problem in drawn::windowed(), memory in 0..12_usize) {
        let full = answer(&problem, None);
        prop_assert_eq!(end(&answer_within(&problem, None, memory)), end(&full));
        if let Outcome::Optimal(best) = full {
            let weights: Vec<u16> = (0..problem.links().len()).map(|nth| nth as u16 % 3).collect();
            let calm = |memory| {
                let mut left = PATIENCE;
                least_waiting_within(&problem, &best, &weights, memory, &mut || {
                    left -= 1;
                    left > 0
                })
            };
            prop_assert!(calm(memory).is_proven);
            prop_assert_eq!(calm(memory).waiting, calm(MEMORY).waiting);
        }
    }

    /// Where something may only wait so long for the step, a longer step can fit where a shorter
    /// one doesn't: then nothing of the kind is true.
    #[test]
    fn a_longer_step_brings_no_earlier_table(
        problem in drawn::windowed(), which in any::<prop::sample::Index>(), more in 1..20,
    ) {
        let place = which.index(problem.tasks().len());
        let mut tasks = problem.tasks().to_vec();
        let mut links = problem.links().to_vec();
        for link in links.iter_mut().filter(|link| link.from == place) {
            link.most = None;
        }
        let capacities = problem.capacities().to_vec();
        let short = Problem::new(tasks.clone(), links.clone(), capacities.clone());
        tasks[place].minutes += more;
        let long = Problem::new(tasks, links, capacities);
        let end = |problem: &Problem| end(&answer(problem, None)).unwrap_or(i32::MAX);
        prop_assert!(end(&short.expect("as before")) <= end(&long.expect("as before")));
    }

    #[test]
    fn what_was_planned_before_is_no_more_than_a_hint(
        problem in drawn::windowed(), starts in prop::collection::vec(any::<i32>(), 40),
    ) {
        let starts = &starts[..problem.tasks().len()];
        prop_assert_eq!(end(&answer(&problem, Some(starts))), end(&answer(&problem, None)));
    }
}

proptest! {
    #![proptest_config(the_same(60))]

    /// What is hard is met again and again, so much is forgotten on the way; and what two of three
    /// ovens' tasks can't do at once must be known from the beginning on.
    #[test]
    fn what_is_forgotten_is_learnt_again(problem in drawn::shop(), memory in 0..40_usize) {
        let full = end(&answer(&problem, None));
        prop_assert_eq!(end(&answer_within(&problem, None, memory)), full);
    }
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
