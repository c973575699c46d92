//! Loads that are alike: of schedules that differ only in which of them comes first, one is enough.
//!
//! Two tasks are alike where swapping them, and all that hangs on the one with all that hangs on the other, leaves the
//! problem as it was: such a swap is looked for along the links, and counts only where every window, link, block and stay
//! is its own or another's image. Where one task can be swapped with each of some others, and what goes with them lies
//! apart, every order of them all is a chain of swaps; so there is a best schedule in which they start in any order that is
//! asked for. What goes with one family of them has no part in another one's, so each can be put in order by itself.
//!
//! Where what goes with a task hangs together by single links, like shaping, proofing and baking, all of it can be put in
//! that order at once: of two loads of which the first is shaped first and the second is baked first, each can be given
//! the other's baking with all that hangs on it. The one then waits less than the other did and the other less than the
//! first did, but each at least as long as one of the two, so every lag is kept.
//!
//! Without this, a proof has to rule out every order of eight loads.

use super::problem::{Link, Problem, Task};
use super::room::Stay;
use super::shift::Between;

/// With how many families a task is held against, at most, so that what is only nearly alike doesn't take long.
const TRIED: usize = 8;

/// Tasks that can be swapped, each with what goes with it, in the same order.
type Family = Vec<Vec<usize>>;

/// Differences that some best schedule keeps, if there is any schedule: those who are alike start in the order in which
/// they start `before`, or else in that of their places.
pub(super) fn like_orders(problem: &Problem, before: Option<&[i32]>) -> Vec<Between> {
    let tasks = problem.tasks();
    let mut links: Vec<Vec<usize>> = vec![Vec::new(); tasks.len()];
    for (nth, link) in problem.links().iter().enumerate() {
        links[link.from].push(nth);
        if link.to != link.from {
            links[link.to].push(nth);
        }
    }
    // Those who hold what there is least of come first: their order decides most.
    let scarce = |task: &Task| {
        task.needs
            .iter()
            .map(|&need| problem.capacities()[need])
            .min()
    };
    let mut places: Vec<usize> = (0..tasks.len()).collect();
    places.retain(|&place| tasks[place].minutes > 0 && !tasks[place].needs.is_empty());
    places.sort_by_key(|&place| scarce(&tasks[place]));
    let mut taken = vec![false; tasks.len()];
    let mut families: Vec<Family> = Vec::new();
    for place in places {
        if taken[place] {
            continue;
        }
        let near = families
            .iter()
            .enumerate()
            .filter(|(_, family)| are_alike(&tasks[family[0][0]], &tasks[place]));
        let like = near.take(TRIED).find_map(|(at, family)| {
            let (one, other) = swap(problem, &links, family[0][0], place)?;
            let is_apart = other.iter().all(|&task| !taken[task]);
            let is_first = match family.len() {
                1 => one.iter().all(|&task| !taken[task]),
                _ => family[0] == one,
            };
            (is_apart && is_first).then_some((at, one, other))
        });
        match like {
            Some((at, one, other)) => {
                for &task in one.iter().chain(&other) {
                    taken[task] = true;
                }
                families[at][0] = one;
                families[at].push(other);
            }
            None => families.push(vec![vec![place]]),
        }
    }
    let mut orders = Vec::new();
    for mut family in families {
        family.sort_by_key(|load| (before.map(|starts| starts[load[0]]), load[0]));
        let all = match hangs_by_single_links(problem, &links, &family) {
            true => family[0].len(),
            false => 1,
        };
        for nth in 0..all {
            let like = || family.iter().map(|load| load[nth]);
            let task = &tasks[family[0][nth]];
            orders.extend(like().zip(like().skip(1)).map(|(one, next)| (one, next, 0)));
            // When the next one starts behind as many as there is room for, the first of those has ended.
            if task.state.is_none()
                && let Some(room) = scarce(task)
            {
                let behind = like().zip(like().skip(room as usize));
                orders.extend(behind.map(|(one, next)| (one, next, task.minutes)));
            }
        }
    }
    orders
}

/// Whether between any two tasks of a load there is but one way, through links alone, and no link leads to another load. As
/// all of them are alike, that is so of each if it is of one.
fn hangs_by_single_links(problem: &Problem, links: &[Vec<usize>], family: &[Vec<usize>]) -> bool {
    let (load, others) = (&family[0], &family[1..]);
    let mut pairs = Vec::new();
    for &task in load {
        for &nth in &links[task] {
            let Link { from, to, .. } = problem.links()[nth];
            let (one, other) = (from.min(to), from.max(to));
            let end = if from == task { to } else { from };
            if others.iter().any(|other| other.contains(&end)) {
                return false;
            }
            if one < other && load.contains(&end) && !pairs.contains(&(one, other)) {
                pairs.push((one, other));
            }
        }
    }
    let is_free = |&task: &usize| problem.tasks()[task].block.is_none();
    pairs.len() + 1 == load.len() && load.iter().all(is_free) && problem.stays().is_empty()
}

/// Whether two tasks are the same but for their links and which block they are of.
fn are_alike(one: &Task, other: &Task) -> bool {
    let said = |task: &Task| {
        let kept = task.block.map(|(resource, _)| resource);
        (
            task.minutes,
            task.earliest,
            task.latest,
            task.counts,
            kept,
            task.state,
        )
    };
    said(one) == said(other) && one.needs == other.needs
}

/// What goes with one task and what with another, in the same order, where swapping the two leaves the problem as it was.
fn swap(
    problem: &Problem,
    links: &[Vec<usize>],
    one: usize,
    other: usize,
) -> Option<(Vec<usize>, Vec<usize>)> {
    let tasks = problem.tasks();
    let mut image: Vec<usize> = (0..tasks.len()).collect();
    (image[one], image[other]) = (other, one);
    let mut pairs = vec![(one, other)];
    let mut at = 0;
    while at < pairs.len() {
        let (one, other) = pairs[at];
        at += 1;
        let mut theirs = links[other].clone();
        for &nth in &links[one] {
            let link = problem.links()[nth];
            let is_out = link.from == one;
            let end = if is_out { link.to } else { link.from };
            let is_image = |&at: &usize| {
                let theirs = problem.links()[at];
                let goes = if is_out { theirs.from } else { theirs.to };
                let to = if is_out { theirs.to } else { theirs.from };
                let is_free = image[end] == end && image[to] == to;
                (goes == other && (theirs.least, theirs.most) == (link.least, link.most)).then_some(
                    (
                        image[end] == to,
                        is_free && are_alike(&tasks[end], &tasks[to]),
                        to,
                    ),
                )
            };
            // What both hang on stays where it is; what hangs on the one only goes with it.
            let found = theirs
                .iter()
                .enumerate()
                .filter_map(|(nth, at)| Some((nth, is_image(at)?)));
            let (mut known, mut new) = (None, None);
            for (nth, (is_known, is_new, to)) in found {
                known = known.or(is_known.then_some((nth, to)));
                new = new.or(is_new.then_some((nth, to)));
            }
            let (nth, to) = known.or(new)?;
            theirs.swap_remove(nth);
            if known.is_none() {
                (image[end], image[to]) = (to, end);
                pairs.push((end, to));
            }
        }
    }
    is_same(problem, links, &image, &pairs).then(|| pairs.into_iter().unzip())
}

/// Whether the problem is as it was with every pair swapped.
fn is_same(
    problem: &Problem,
    links: &[Vec<usize>],
    image: &[usize],
    pairs: &[(usize, usize)],
) -> bool {
    let tasks = problem.tasks();
    let moved = || pairs.iter().flat_map(|&(one, other)| [one, other]);
    let told = |image: &dyn Fn(usize) -> usize| {
        let mut of: Vec<usize> = moved()
            .flat_map(|task| links[task].iter().copied())
            .collect();
        of.sort_unstable();
        of.dedup();
        let told = |nth: usize| {
            let Link {
                from,
                to,
                least,
                most,
            } = problem.links()[nth];
            (image(from), image(to), least, most)
        };
        let mut of: Vec<_> = of.into_iter().map(told).collect();
        of.sort_unstable();
        of
    };
    // A block goes with its tasks, all of them.
    let block = |of: (usize, u16)| moved().find(|&task| tasks[task].block == Some(of));
    let keeps = |(place, task): (usize, &Task)| {
        let Some(of) = task.block else { return true };
        let goes = block(of).map_or(Some(of), |task| tasks[image[task]].block);
        tasks[image[place]].block == goes
    };
    let stay = |of: &Stay| {
        let moved = |edge: super::Edge| edge.task().map_or(edge, |task| edge.with(image[task]));
        Stay {
            from: moved(of.from),
            to: moved(of.to),
            ..*of
        }
    };
    let stays = problem.stays();
    let count = |of: &Stay| stays.iter().filter(|other| *other == of).count();
    moved().all(|task| are_alike(&tasks[task], &tasks[image[task]]))
        && tasks.iter().enumerate().all(keeps)
        && stays.iter().all(|of| count(of) == count(&stay(of)))
        && told(&|task| task) == told(&|task| image[task])
}
