// The points of a bake that specs can begin at, made anew from the model before each run.

import { execFile } from "node:child_process";
import { mkdir, readFile, writeFile } from "node:fs/promises";
import { dirname } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { START } from "./phone.js";

const ROOT = fileURLToPath(new URL("../../..", import.meta.url));
const FILE = fileURLToPath(new URL("../results/points.json", import.meta.url));
/** Three starters with some forty archives each come to a few million letters. */
const MOST_LETTERS = 64e6;

/** Playwright calls it once, before any spec. */
export default async function makePoints() {
  const made = await promisify(execFile)(
    "cargo",
    ["run", "--quiet", "-p", "checks", "--bin", "points", "--", String(START.getTime())],
    { cwd: ROOT, maxBuffer: MOST_LETTERS },
  );
  await mkdir(dirname(FILE), { recursive: true });
  await writeFile(FILE, made.stdout);
}

let known;

/** All points. They are some megabytes, so a worker reads them once. */
function allPoints() {
  known ??= readFile(FILE, "utf8").then(JSON.parse);
  return known;
}

/**
 * Where a step of a formula first asks for something: its moment, and everything that is stored
 * then, as an archive. Without `asks` it is whatever the step asks for first.
 */
export async function pointOf(formula, title, asks) {
  const points = (await allPoints()).filter((one) => one.formula === formula);
  const point = points.find((one) => one.title === title && (asks ?? one.asks) === one.asks);
  if (point) return point;
  const there = points.map((one) => `${one.title}: ${one.asks}`);
  throw new Error(`${formula} never comes to ${title}, ${asks}; it comes to ${there.join(", ")}`);
}
