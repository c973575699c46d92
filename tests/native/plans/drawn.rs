//! Problems to schedule, drawn at random.

use domain::schedule::solve::{Edge, Link, Part, Problem, Stay, Task};
use proptest::prelude::*;
use proptest::sample::subsequence;

const STATIONS: usize = 3;

/// Few enough tasks of few enough minutes for brute force, with everything that a problem can have.
pub(super) fn tiny() -> impl Strategy<Value = Problem> {
    let task = (
        0..5,
        subsequence(vec![0, 1], 0..=2),
        prop_oneof![3 => Just(0), 1 => 0..5],
        prop::option::weighted(0.2, 0..6),
        prop::bool::weighted(0.9),
        prop::option::weighted(0.5, 0..2_u16),
    );
    let tasks = prop::collection::vec(task, 1..=4);
    let capacities = prop::collection::vec(1_u32..=2, 2);
    // What each block needs its resource to be.
    let states = prop::collection::vec(prop::option::of(0..2_u16), 2);
    (tasks, capacities, states).prop_flat_map(|(tasks, capacities, states)| {
        let count = tasks.len();
        let most = prop::option::weighted(0.6, 0..4);
        let links = prop::collection::vec((0..count, 0..count, -3..4, most), 0..=5);
        let edge = || {
            prop_oneof![
                3 => (0..count).prop_map(Edge::Start),
                2 => (0..count).prop_map(Edge::End),
                1 => Just(Edge::Ever),
            ]
        };
        let stay = (0..2_usize, edge(), edge());
        let stays = prop::collection::vec(stay, 0..=2);
        (links, stays).prop_map(move |(links, stays)| {
            let tasks = tasks
                .iter()
                .map(|(minutes, needs, earliest, latest, counts, block)| {
                    let block = block.filter(|_| capacities[0] == 1 && needs.contains(&0));
                    Task {
                        block: block.map(|block| (0, block)),
                        state: block.and_then(|block| states[usize::from(block)]),
                        earliest: *earliest,
                        latest: latest.map(|later| earliest + later),
                        counts: *counts,
                        ..Task::new(*minutes, needs)
                    }
                });
            let links = links.iter().map(|&(from, to, least, span)| Link {
                from,
                to,
                least,
                most: span.map(|span| least + span),
            });
            let stays = stays
                .into_iter()
                .map(|(resource, from, to)| Stay { resource, from, to });
            Problem::new(tasks.collect(), links.collect(), capacities.clone())
                .and_then(|problem| problem.with_stays(stays.collect()))
                .expect("what was drawn fits together")
        })
    })
}

/// Loads that are alike behind what they all wait for, one of which may differ, and something else; few enough for brute force.
pub(super) fn alike() -> impl Strategy<Value = Problem> {
    let step = (1..4, subsequence(vec![0, 1], 0..=2));
    let lag = (0..2, prop::option::weighted(0.5, 0..3));
    let load = prop_oneof![
        2 => (Just(3_usize), prop::collection::vec(step.clone(), 1)),
        2 => (Just(2_usize), prop::collection::vec(step.clone(), 2)),
    ];
    let extra = (step, any::<bool>(), prop::option::weighted(0.3, 0..5));
    let capacities = prop::collection::vec(1_u32..=2, 2);
    let kept = (any::<bool>(), prop::option::of(0..2_u16), any::<bool>());
    (load, [lag.clone(), lag], extra, capacities, kept).prop_map(
        |((count, load), lags, (extra, hangs, other), capacities, (blocks, state, stands))| {
            let mut tasks = vec![Task::new(extra.0, &extra.1)];
            let (mut links, mut stays) = (Vec::new(), Vec::new());
            for of in 0..count {
                for (nth, (minutes, needs)) in load.iter().enumerate() {
                    let is_kept = blocks && capacities[0] == 1 && needs.contains(&0);
                    let place = tasks.len();
                    tasks.push(Task {
                        block: is_kept.then_some((0, of as u16)),
                        state: state.filter(|_| is_kept),
                        ..Task::new(*minutes, needs)
                    });
                    let (least, span) = lags[usize::from(nth > 0)];
                    let from = if nth > 0 { place - 1 } else { 0 };
                    if hangs || nth > 0 {
                        let most = span.map(|span| least + span);
                        let to = place;
                        links.push(Link {
                            from,
                            to,
                            least,
                            most,
                        });
                    }
                    if stands && nth > 0 {
                        stays.push(Stay {
                            resource: 1,
                            from: Edge::End(from),
                            to: Edge::Start(place),
                        });
                    }
                }
            }
            if let Some(earliest) = other {
                tasks[1].earliest = earliest;
            }
            Problem::new(tasks, links, capacities)
                .and_then(|problem| problem.with_stays(stays))
                .expect("what was drawn fits together")
        },
    )
}

/// Two to four chains of work and waiting that share hands, an oven or two and a hob.
pub(super) fn kitchen() -> impl Strategy<Value = Problem> {
    let step = (
        1..40,
        prop_oneof![
            4 => Just(vec![0]),
            2 => Just(vec![]),
            2 => Just(vec![1]),
            1 => Just(vec![2]),
            1 => Just(vec![0, 2]),
        ],
        prop_oneof![3 => Just(0), 1 => 0..10],
        prop::option::weighted(0.7, 0..25),
    );
    let chains = prop::collection::vec(prop::collection::vec(step, 3..9), 2..=4);
    (chains, 1_u32..=2, any::<bool>()).prop_map(|(chains, ovens, blocks)| {
        let (mut tasks, mut links) = (Vec::new(), Vec::new());
        for (of, chain) in (0..).zip(&chains) {
            for (nth, (minutes, needs, least, span)) in chain.iter().enumerate() {
                // Work is shorter than waiting.
                let is_work = needs.contains(&0);
                let minutes = if is_work { 1 + minutes / 3 } else { *minutes };
                tasks.push(Task {
                    block: (ovens == 1 && blocks && needs.contains(&1)).then_some((1, of)),
                    ..Task::new(minutes, needs)
                });
                if nth > 0 {
                    links.push(Link {
                        from: tasks.len() - 2,
                        to: tasks.len() - 1,
                        least: *least,
                        most: span.map(|span| least + span),
                    });
                }
            }
        }
        Problem::new(tasks, links, vec![1, ovens, 1]).expect("what was drawn fits together")
    })
}

/// The same with times at which some tasks may start, and nobody in the kitchen for a while.
pub(super) fn windowed() -> impl Strategy<Value = Problem> {
    let window = prop::option::weighted(0.15, (0..80, prop::option::of(20..150)));
    let windows = prop::collection::vec(window, 40);
    let away = prop::option::of((0..100, 10..60));
    (kitchen(), windows, away).prop_map(|(problem, windows, away)| {
        let mut tasks = problem.tasks().to_vec();
        for (task, window) in tasks.iter_mut().zip(windows) {
            if let Some((earliest, span)) = window {
                task.earliest = earliest;
                task.latest = span.map(|span| earliest + span);
            }
        }
        tasks.extend(away.map(|(start, minutes)| Task::away(start, minutes, &[0])));
        let (links, capacities) = (problem.links().to_vec(), problem.capacities().to_vec());
        Problem::new(tasks, links, capacities).expect("no more than before")
    })
}

/// Batches that go through a row of stations without waiting, so that much has to be learnt, and three
/// tasks that can start at a few minutes only, in two ovens: two of them are in order whatever is
/// decided.
pub(super) fn shop() -> impl Strategy<Value = Problem> {
    let batch = prop::collection::vec(5..60, STATIONS);
    // How long, and its first and last start. The second is in the oven all the while; the third can't
    // be done before the first has to start, so it nearly always comes after it.
    let ovens = (
        (15..25, Just(0), 8..16),
        (80..110, Just(0), 0..6),
        (6..12, 8..14, 20..40),
    );
    let batches = prop::collection::vec(batch, 5..=7);
    (batches, ovens).prop_map(|(batches, ovens)| {
        let (mut tasks, mut links) = (Vec::new(), Vec::new());
        for batch in &batches {
            for (station, &minutes) in batch.iter().enumerate() {
                if station > 0 {
                    links.push(Link {
                        from: tasks.len() - 1,
                        to: tasks.len(),
                        least: 0,
                        most: Some(0),
                    });
                }
                tasks.push(Task::new(minutes, &[station]));
            }
        }
        let ovens = [ovens.0, ovens.1, ovens.2].into_iter();
        tasks.extend(ovens.map(|(minutes, earliest, latest)| Task {
            earliest,
            latest: Some(latest),
            ..Task::new(minutes, &[STATIONS])
        }));
        let mut capacities = vec![1; STATIONS];
        capacities.push(2);
        Problem::new(tasks, links, capacities).expect("what was drawn fits together")
    })
}

/// The same tasks with only some of what is asked of them.
pub(super) fn only(problem: &Problem, parts: &[Part]) -> Problem {
    let has = |part: Part| parts.contains(&part);
    let mut tasks = problem.tasks().to_vec();
    for (place, task) in tasks.iter_mut().enumerate() {
        task.needs.retain(|&need| has(Part::Need(place, need)));
        task.block = task.block.filter(|block| task.needs.contains(&block.0));
        task.state = task.state.filter(|_| task.block.is_some());
        task.latest = task.latest.filter(|_| has(Part::Latest(place)));
        task.earliest *= i32::from(has(Part::Earliest(place)));
    }
    let mut links = problem.links().to_vec();
    for (place, link) in links.iter_mut().enumerate() {
        link.most = link.most.filter(|_| has(Part::Most(place)));
        if !has(Part::Least(place)) {
            link.least = -1_000;
        }
    }
    let stays = problem.stays().iter().enumerate();
    let stays = stays.filter(|&(nth, _)| has(Part::Stay(nth)));
    Problem::new(tasks, links, problem.capacities().to_vec())
        .and_then(|problem| problem.with_stays(stays.map(|(_, &stay)| stay).collect()))
        .expect("no more than before")
}

/// The same with an end that waits for every task.
pub(super) fn counted(problem: &Problem) -> Problem {
    let mut tasks = problem.tasks().to_vec();
    tasks.iter_mut().for_each(|task| task.counts = true);
    let (links, capacities) = (problem.links().to_vec(), problem.capacities().to_vec());
    Problem::new(tasks, links, capacities)
        .and_then(|counted| counted.with_stays(problem.stays().to_vec()))
        .expect("no more than before")
}

/// Up to five short pieces of work of two or three kinds, with a few links: enough for attention to have a choice.
pub(super) fn chores() -> impl Strategy<Value = (Problem, Vec<usize>)> {
    let task = (1..3, 0..3_usize, prop_oneof![3 => Just(0), 1 => 0..3]);
    prop::collection::vec(task, 3..=5).prop_flat_map(|tasks| {
        let count = tasks.len();
        let most = prop::option::weighted(0.3, 0..4);
        let links = prop::collection::vec((0..count, 0..count, 0..2, most), 0..=3);
        links.prop_map(move |links| {
            let work = tasks.iter().map(|&(minutes, _, earliest)| Task {
                earliest,
                ..Task::new(minutes, &[0])
            });
            let links = links.iter().filter(|link| link.0 < link.1);
            let links = links.map(|&(from, to, least, span)| Link {
                from,
                to,
                least,
                most: span.map(|span| least + span),
            });
            let problem = Problem::new(work.collect(), links.collect(), vec![1]);
            let kinds = tasks.iter().map(|&(_, kind, _)| kind).collect();
            (problem.expect("what was drawn fits together"), kinds)
        })
    })
}
