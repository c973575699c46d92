// Times the model alone, compiled as the app is, in a page of the imitated phone.
//
// In the app a reforecast is one part of what follows a press, beside storing it and drawing; here nothing
// else is measured.

import { execFile } from "node:child_process";
import { readFile } from "node:fs/promises";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";

const ROOT = fileURLToPath(new URL("../../../../..", import.meta.url));
const TARGET = "wasm32-unknown-unknown";
/** As in `tests/reforecast.rs`. */
const POINTS = ["Mix the dough", "Toast almonds", "Final proof", "Bake", "Cool"];
/** As in `tests/replan.rs`. */
const REPLANNED = [
  "27 steps, none begun",
  "27 steps, in the first rise",
  "40 steps, none begun",
  "40 steps, half of them done, colder",
  "40 steps, half of them done, twenty minutes late",
  "40 steps, a rise ready early",
  "two breads, 49 steps, for a table",
  "two breads, 49 steps, for a table each",
  "two breads, one in its first rise",
  "two batches, room in the fridge for one bowl",
];
/** Within so many rounds the browser has compiled all of it once; an app that is open longer runs no slower. */
const ROUNDS_BEFORE = 5;
/** A slowed processor runs and stands still by turns, which one call may fall between: a run is the mean of so many. */
const ROUNDS_A_RUN = 10;

/** For each point of a bake, how long its reforecasts took, in ms. */
export function reforecasts(browser, rate, runs) {
  return timed(browser, rate, runs, "reforecast", POINTS);
}

/** For each of what is planned anew, how long that took, in ms. */
export function replans(browser, rate, runs) {
  return timed(browser, rate, runs, "replan", REPLANNED);
}

async function timed(browser, rate, runs, bin, points) {
  const cargo = ["build", "--quiet", "--profile", "web", "--package", "checks"];
  await promisify(execFile)("cargo", [...cargo, "--bin", bin, "--target", TARGET], { cwd: ROOT });
  const built = new URL(`../../../../../target/${TARGET}/web/${bin}.wasm`, import.meta.url);
  const module = (await readFile(fileURLToPath(built))).toString("base64");
  const page = await browser.newPage();
  const session = await page.context().newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate });
  const rounds = ROUNDS_BEFORE + runs * ROUNDS_A_RUN;
  const times = await page.evaluate(time, { module, calls: rounds * points.length });
  await page.close();
  return points.map((point, nth) => {
    const of = times.filter((_, call) => call % points.length === nth).slice(ROUNDS_BEFORE);
    const run = (index) => of.slice(index * ROUNDS_A_RUN, (index + 1) * ROUNDS_A_RUN);
    return { point, runs: Array.from({ length: runs }, (_, index) => mean(run(index))) };
  });
}

function mean(values) {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

// Runs in the page. The first call of `main` only bakes.
async function time({ module, calls }) {
  const bytes = Uint8Array.from(atob(module), (letter) => letter.charCodeAt(0));
  const { instance } = await WebAssembly.instantiate(bytes);
  const { main } = instance.exports;
  main(0, 0);
  const times = [];
  for (let call = 0; call < calls; call += 1) {
    const start = performance.now();
    main(0, 0);
    times.push(performance.now() - start);
  }
  return times;
}
