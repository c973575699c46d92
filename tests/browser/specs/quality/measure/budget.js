// Holds measured times against their budgets, and prints them.

import { expect } from "@playwright/test";

/**
 * How much the same build differs from run to run: warm starts of one came to 418, 453, 456 and 526 ms
 * within two hours, and of the next, on a slower day of the same machine, to 505, 531, 584 and 639. A check that
 * fails by chance is soon passed over, so only more than that fails.
 */
export const CHANCE = 1.4;

/**
 * What is over is measured so many times before it fails, and the best counts: what else a machine does only ever adds to
 * a time. A build that really is slower is so every time.
 */
const TAKES = 3;

/**
 * Holds times against their goals, which DEVELOPERS.md states, and prints a line of the table for each.
 *
 * `measure` comes to a list of `{ what, runs, goalMs, most, counts }`. What `counts` of the runs, their median or else their
 * least, fails where it is more than `most` times its goal; a goal that says "at most" has 1 for that.
 */
export async function hold(measure) {
  let best = await measure();
  for (let take = 1; take < TAKES && !best.every(isHeld); take += 1) {
    const again = await measure();
    best = best.map((one, nth) => (counted(again[nth]) < counted(one) ? again[nth] : one));
  }
  for (const one of best) {
    print(one);
    expect.soft(isHeld(one), one.what).toBe(true);
  }
}

function isHeld(one) {
  return counted(one) <= one.goalMs * (one.most ?? CHANCE);
}

function counted({ runs, counts = median }) {
  return counts(runs);
}

function print(one) {
  const { what, runs, goalMs, most = CHANCE } = one;
  const why = most > CHANCE ? "as it was found" : "by no more than runs differ";
  const over = isHeld(one) ? `OVER, ${why}` : "FAILED";
  const verdict = counted(one) <= goalMs ? "ok" : over;
  const all = runs.map((run) => run.toFixed(1)).join(", ");
  console.log(`  ${what}: ${counted(one).toFixed(1)} ms, budget ${goalMs}: ${verdict}  (${all})`);
}

/**
 * What counts of the model alone, which reckons the same in every run. How fast a machine is changes from minute to minute,
 * and how much slower a phone is was found out at its best (`processor.js`), so that the best is held beside it.
 */
export function least(values) {
  return Math.min(...values);
}

/** The middle one: two cores that are shared make single runs jump. */
function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}
