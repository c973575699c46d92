// Holds measured times against what the design allows, and prints them.

import { expect } from "@playwright/test";

/** The middle one: two cores that are shared make single runs jump. */
export function median(values) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)];
}

/** Prints one line of the table, and fails when the median is over what is allowed. */
export function hold(what, runs, allowedMs) {
  const middle = median(runs);
  const all = runs.map((run) => run.toFixed(1)).join(", ");
  const kept = middle <= allowedMs ? "ok    " : "FAILED";
  const numbers = `${middle.toFixed(1).padStart(8)} of ${String(allowedMs).padStart(5)} ms`;
  console.log(`  ${kept}  ${what.padEnd(58)} ${numbers}  (${all})`);
  expect.soft(middle, what).toBeLessThanOrEqual(allowedMs);
}
