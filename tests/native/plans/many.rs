//! Of what there are several: ovens, loads that are alike, and pieces of work that hang on nothing.

use domain::schedule::solve::{Link, Outcome, Problem, Task, solve};

const HANDS: usize = 0;
const OVEN: usize = 1;

/// The end of the best schedule; panics where it isn't proven within so many turns.
fn proven(problem: &Problem, turns: u32) -> i32 {
    let mut left = turns;
    let outcome = solve(problem, None, &mut || {
        left = left.saturating_sub(1);
        left > 0
    });
    match outcome {
        Outcome::Optimal(best) => {
            assert!(problem.holds(&best.starts));
            best.end
        }
        other => panic!("not proven in {turns} turns: {other:?}"),
    }
}

/// One dough in loads that are each shaped, proofed and baked.
fn loads(count: usize, ovens: u32, bake: i32) -> Problem {
    let mut tasks = vec![Task::new(20, &[HANDS])];
    let mut links = Vec::new();
    for _ in 0..count {
        let first = tasks.len();
        tasks.push(Task::new(7, &[HANDS]));
        tasks.push(Task::new(30, &[]));
        tasks.push(Task::new(bake, &[OVEN]));
        let mut link = |from, to, most| {
            links.push(Link {
                from,
                to,
                least: 0,
                most,
            });
        };
        link(0, first, None);
        link(first, first + 1, Some(0));
        link(first + 1, first + 2, Some(10));
    }
    Problem::new(tasks, links, vec![1, ovens]).expect("what fits together")
}

/// Two ovens take a pair every 19 min, and the first pair is in after 20 + 7 + 30 min and 7 min later: with 10 min to wait
/// none of the four pairs has to stand any longer. Reckoned by hand: the last oven is free again at 64 + 4 × 19 min.
#[test]
fn ten_loads_for_two_ovens_are_proven() {
    assert_eq!(proven(&loads(8, 2, 19), 2_000), 20 + 7 + 7 + 30 + 4 * 19);
    assert_eq!(proven(&loads(10, 2, 19), 2_000), 20 + 7 + 7 + 30 + 5 * 19);
}

/// The work of 102 min in two ovens takes at least half of that. With twenty loads of as many lengths there are so many ways
/// to fill them that the one that fits isn't found.
#[test]
fn what_fills_two_ovens_ends_with_half_of_the_work() {
    let minutes = [14, 13, 12, 12, 11, 10, 10, 9, 8, 3];
    assert_eq!(minutes.iter().sum::<i32>(), 102);
    let tasks = minutes.map(|minutes| Task::new(minutes, &[OVEN]));
    let problem = Problem::new(tasks.to_vec(), Vec::new(), vec![1, 2]);
    assert_eq!(proven(&problem.expect("what fits together"), 100_000), 51);
}

#[test]
fn one_pair_of_hands_has_done_all_work_when_it_has_done_the_sum_of_it() {
    let tasks: Vec<Task> = (0..160)
        .map(|nth| Task::new(2 + nth % 5, &[HANDS]))
        .collect();
    let all = tasks.iter().map(|task| task.minutes).sum::<i32>();
    let problem = Problem::new(tasks, Vec::new(), vec![1]).expect("what fits together");
    assert_eq!(proven(&problem, 2_000), all);
}

/// However few conflicts there are, whoever gives no time gets no proof: a bound that is one, and no more than the first
/// schedule that was found.
#[test]
fn without_any_patience_nothing_is_proven() {
    let tasks: Vec<Task> = (0..200)
        .map(|nth| Task {
            earliest: nth * 37 % 190,
            ..Task::new(2 + nth % 7, &[if nth % 3 == 0 { OVEN } else { HANDS }])
        })
        .collect();
    let link = |nth: usize| Link {
        from: nth,
        to: nth + 9,
        least: 0,
        most: Some(400),
    };
    let links = (0..150).map(link).collect();
    let problem = Problem::new(tasks, links, vec![1, 2]).expect("what fits together");
    let Outcome::BestFound { best: first, bound } = solve(&problem, None, &mut || false) else {
        panic!("something was proven");
    };
    let first =
        first.expect("there is a schedule, and a plan that isn't the best is better than none");
    assert!(problem.holds(&first.starts));
    // It is asked again and again: of so many tasks, far oftener than there are conflicts.
    let mut asked = 0;
    let outcome = solve(&problem, None, &mut || {
        asked += 1;
        true
    });
    let Outcome::Optimal(best) = outcome else {
        panic!("there was time for all of it");
    };
    assert!(bound <= best.end && best.end <= first.end);
    assert!(asked > 100, "{asked}");
}
