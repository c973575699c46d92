//! Before when no schedule ends, whatever the order, by the work that wants one resource.

use super::problem::Problem;
use super::room::{holders, is_shared};

/// What takes no part in the end.
const NO_TAIL: i32 = i32::MIN / 4;

/// A task that holds a resource: how soon it can start, how long after its end the schedule ends at least, and how long it
/// takes.
#[derive(Clone, Copy)]
struct Load {
    head: i32,
    tail: i32,
    minutes: i32,
}

/// Before when no schedule ends, where no task can start before its head.
///
/// Of a resource of which there are `c`, its holders can be given to `c` of it so that none meets another; of at least `c`
/// holders each gets one, since one of two at the same place can be moved to an empty one. Until the first at a place
/// nothing is done there, and the firsts are `c` holders: so at least the `c` least heads are idle together, and
/// after the lasts the `c` least tails. With the work between, that is no more than `c` times the end (Carlier 1987). It
/// holds for any set of holders, and is asked of all whose heads and tails are at least some two of theirs.
pub(super) fn least_by_work(problem: &Problem, heads: &[i32]) -> i32 {
    let tasks = problem.tasks();
    let arcs = problem.arcs();
    let tail = |task: &super::Task| if task.counts { task.minutes } else { NO_TAIL };
    // Counted from the start; the links have no circle that grows, so this ends.
    let mut tails: Vec<i32> = tasks.iter().map(tail).collect();
    let mut more = true;
    while more {
        more = false;
        for &(from, to, minutes) in arcs.iter().rev() {
            if tails[to] > NO_TAIL && tails[from] < tails[to] + minutes {
                tails[from] = tails[to] + minutes;
                more = true;
            }
        }
    }
    let mut least = 0;
    for (resource, &capacity) in problem.capacities().iter().enumerate() {
        let holders = holders(problem, resource);
        let capacity = capacity as usize;
        // Those who can share it needn't have room after one another.
        if holders.len() < capacity || is_shared(problem, resource, &holders) {
            continue;
        }
        let places = holders.iter().map(|holder| holder.id);
        // What isn't waited for can go on after the end, and how long a stay is isn't known here.
        let counted = places.filter(|&place| tasks.get(place).is_some_and(|task| task.counts));
        let mut loads: Vec<Load> = counted
            .map(|place| Load {
                head: heads[place],
                tail: tails[place] - tasks[place].minutes,
                minutes: tasks[place].minutes,
            })
            .collect();
        loads.sort_by_key(|load| -load.tail);
        for from in loads.iter().map(|load| load.head) {
            least = least.max(by_work(&loads, from, capacity));
        }
    }
    least
}

/// Of those that can't start before a minute, the greatest bound of all who have at least some tail.
fn by_work(loads: &[Load], from: i32, capacity: usize) -> i32 {
    let (mut work, mut least) = (0, 0);
    let (mut tails, mut heads): (Vec<i32>, Vec<i32>) = Default::default();
    for load in loads.iter().filter(|load| load.head >= from) {
        work += i64::from(load.minutes);
        tails.push(load.tail);
        let at = heads.partition_point(|&head| head <= load.head);
        heads.insert(at, load.head);
        // Tails come in their order, the least last.
        if let Some(first) = tails.len().checked_sub(capacity) {
            let idle = heads[..capacity].iter().chain(&tails[first..]);
            let all = idle.map(|&minutes| i64::from(minutes)).sum::<i64>() + work;
            let each = capacity as i64;
            least = least.max((all + each - 1) / each);
        }
    }
    // No longer than everything one after the other, which is within 32 bits.
    i32::try_from(least).unwrap_or(i32::MAX)
}
