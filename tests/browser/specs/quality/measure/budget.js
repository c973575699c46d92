// Holds measured times against their budgets, and prints them.

import { expect } from "@playwright/test";

/** The middle one: two cores that are shared make single runs jump. */
export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

/** Prints one line of the table, and fails when the median is over the budget, which DEVELOPERS.md states. */
export function hold(what, runs, budgetMs) {
  const middle = median(runs);
  const all = runs.map((run) => run.toFixed(1)).join(", ");
  const verdict = middle <= budgetMs ? "ok" : "FAILED";
  console.log(`  ${what}: ${middle.toFixed(1)} ms, budget ${budgetMs}: ${verdict}  (${all})`);
  expect.soft(middle, what).toBeLessThanOrEqual(budgetMs);
}
