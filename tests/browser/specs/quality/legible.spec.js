// Promise: the Bench can be read and hit from a metre and a half, at every ask of every starter.
//
// The numbers are Oventide's own. Those for distance follow from capital letters of 16 to 20 minutes
// of arc (ISO 9241-303), those for fingers from 12 mm; a CSS px is about 0.165 mm on phones.

import { FORMULAS } from "../../pages/formula.js";
import { takeUp } from "../../support/mid-bake.js";
import { PHONE } from "../../support/phone.js";
import { expect, test } from "../../support/test.js";
import { bench } from "./measure/legibility.js";
import { asksOf } from "./measure/walk.js";

const INSTRUCTION_PX = 40;
const MOST_WORDS = 12;
const DIGITS_PX = 75;
const CONTRAST = 7;
const TARGET_PX = 72;
const ACTION_SHARE = 0.25;

const UPRIGHT = PHONE.viewport;
const ON_ITS_SIDE = { width: UPRIGHT.height, height: UPRIGHT.width };

for (const [key, name] of Object.entries(FORMULAS)) {
  test(`the Bench is legible in every step of the ${key}`, async ({ app, page }) => {
    test.setTimeout(300_000);
    await app.startBake(name);
    // Whoever marks the last ingredient has scrolled down; the next step has to come into view.
    const before = () => scroll(page, "down");
    for await (const ask of asksOf(app, { before })) {
      if (ask.kind === "alarm") continue;
      check(await bench(page), `${ask.name}, upright`);
      await page.emulateMedia({ colorScheme: "dark" });
      checkContrast(await bench(page), `${ask.name}, dark`);
      await page.emulateMedia({ colorScheme: "light" });
      await page.setViewportSize(ON_ITS_SIDE);
      await scroll(page, "up");
      check(await bench(page), `${ask.name}, on its side`);
      await page.setViewportSize(UPRIGHT);
    }
  });
}

/** Phones, upright and on their side. */
const SCREENS = [
  [390, 844],
  [390, 664],
  [375, 667],
  [360, 640],
  [320, 640],
  [844, 390],
  [667, 375],
];

// However far one has scrolled.
for (const [title, cards] of [
  ["Mix the dough", 1],
  ["Toast almonds", 2],
]) {
  test(`on every phone all clocks are in sight at "${title}"`, async ({ app, page }) => {
    await takeUp(app, title);
    await allClocksAreInSight(page, cards, title);
    await app.bench.setTimer("Rack", 20);
    await allClocksAreInSight(page, cards + 1, `${title}, with a timer`);
  });
}

async function allClocksAreInSight(page, clocks, what) {
  for (const [width, height] of SCREENS) {
    await page.setViewportSize({ width, height });
    for (const way of ["down", "up"]) {
      await scroll(page, way);
      const where = `${what}, ${width} × ${height}, ${way}`;
      const { digits, action } = await bench(page);
      expect.soft(digits.length, where).toBe(clocks);
      for (const clock of digits) {
        expect.soft(clock.hidden, `${where}: ${clock.of}`).toEqual([]);
        expect.soft(clock.fits, `${where}: ${clock.of} fits`).toBe(true);
      }
      expect.soft(action.share, `${where}: "${action.text}"`).toBeGreaterThanOrEqual(ACTION_SHARE);
    }
  }
  await page.setViewportSize(UPRIGHT);
}

/** Scrolls what scrolls on the Bench, and the page, to the end or back. */
function scroll(page, way) {
  return page.evaluate((way) => {
    for (const one of [document.querySelector(".asked"), document.scrollingElement]) {
      one.scrollTop = way === "down" ? one.scrollHeight : 0;
    }
  }, way);
}

function check(seen, where) {
  const { instruction, digits, action, targets } = seen;
  expect.soft(instruction.px, `${where}: size of the instruction`).toBeGreaterThanOrEqual(INSTRUCTION_PX);
  expect.soft(instruction.words, `${where}: words in it`).toBeLessThanOrEqual(MOST_WORDS);
  expect.soft(instruction.hidden, `${where}: hidden parts of it`).toEqual([]);
  for (const clock of digits) {
    expect.soft(clock.px, `${where}: digits of ${clock.of}`).toBeGreaterThanOrEqual(DIGITS_PX);
    expect.soft(clock.fits, `${where}: digits of ${clock.of} fit`).toBe(true);
    expect.soft(clock.hidden, `${where}: hidden parts of ${clock.of}`).toEqual([]);
  }
  expect.soft(action.share, `${where}: share of "${action.text}"`).toBeGreaterThanOrEqual(ACTION_SHARE);
  expect.soft(action.fits, `${where}: "${action.text}" fits`).toBe(true);
  const small = targets.filter(({ width, height }) => Math.min(width, height) < TARGET_PX);
  const named = small.map(({ name, width, height }) => `${name}: ${width | 0} × ${height | 0}`);
  expect.soft(named, `${where}: targets under ${TARGET_PX} px`).toEqual([]);
  checkContrast(seen, where);
}

function checkContrast({ contrasts }, where) {
  expect(contrasts.length, where).toBeGreaterThan(3);
  const weak = contrasts.filter(({ ratio }) => ratio < CONTRAST);
  const named = weak.map(({ text, ratio }) => `${text}: ${ratio.toFixed(1)}`);
  expect.soft(named, `${where}: contrast under ${CONTRAST}`).toEqual([]);
}
