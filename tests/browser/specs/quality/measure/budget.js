// Holds measured times against their budgets, and prints them.

import { expect } from "@playwright/test";

/** The middle one: two cores that are shared make single runs jump. */
export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

/**
 * How much the same build differs from run to run: warm starts of one came to 418, 453, 456 and 526 ms
 * within two hours, and of the next, on a slower day of the same machine, to 505, 531, 584 and 639. A check that
 * fails by chance is soon passed over, so only more than that fails.
 */
const CHANCE = 1.4;

/**
 * Prints one line of the table, and fails when the median is over the budget, which DEVELOPERS.md states, by more than
 * `chance`. A goal that says "at most" is held with none.
 */
export function hold(what, runs, budgetMs, chance = CHANCE) {
  const middle = median(runs);
  const all = runs.map((run) => run.toFixed(1)).join(", ");
  const most = budgetMs * chance;
  const why = chance > CHANCE ? "as it was found" : "by no more than runs differ";
  const over = middle <= most ? `OVER, ${why}` : "FAILED";
  const verdict = middle <= budgetMs ? "ok" : over;
  console.log(`  ${what}: ${middle.toFixed(1)} ms, budget ${budgetMs}: ${verdict}  (${all})`);
  expect.soft(middle, what).toBeLessThanOrEqual(most);
}
