// Promise: three breads at once are read and worked as well as one, on a phone that stands upright or lies on its side.

import { FORMULAS } from "../../pages/formula.js";
import { BEAT, MINUTE, SECOND } from "../../support/clock.js";
import { takeUp } from "../../support/mid-bake.js";
import { PHONE } from "../../support/phone.js";
import { expect, test } from "../../support/test.js";
import { brokenWords } from "./measure/broken.js";
import { bench } from "./measure/legibility.js";
import { losses } from "./measure/reflow.js";
import { recordShifts, shiftsOf } from "./measure/shifts.js";

const UPRIGHT = PHONE.viewport;
const ON_ITS_SIDE = { width: UPRIGHT.height, height: UPRIGHT.width };
const SMALL = { width: 320, height: 640 };
const TARGET_PX = 72;
/** Beside the clocks of several breads, what a long instruction is no smaller than. */
const LONG_PX = 30;

const named = ({ width, height }) => `${width} × ${height}`;

/** Buns that rise, and a loaf and a braid that are to begin. */
async function threeBreads(app) {
  await takeUp(app, "First rise", { asks: "wait" });
  for (const name of [FORMULAS.loaf, FORMULAS.braid]) {
    await app.clock.pass(SECOND);
    await app.turnTo("#/");
    await app.formula.bake(name);
  }
  await app.clock.pass(SECOND);
}

/** Turns to the buns and stays there, while the plan has the hands at another bread. */
async function stayAtBuns({ bench }) {
  await bench.whose.getByRole("link", { name: FORMULAS.buns }).click();
  await expect(bench.title).toContainText("Now at");
  await bench.pressBeside("Stay here");
  await expect(bench.title).toHaveText("First rise");
}

const nowAt = ({ bench }) => bench.main.getByRole("link", { name: /^Now at / });

/** What lies over something that is to be read or pressed. */
async function coveredBy(link, others) {
  const over = await link.boundingBox();
  const covered = [];
  for (const other of await others.all()) {
    const box = await other.boundingBox();
    const wide = Math.min(box.x + box.width, over.x + over.width) - Math.max(box.x, over.x);
    const high = Math.min(box.y + box.height, over.y + over.height) - Math.max(box.y, over.y);
    // At least as far away as a hair, so that a finger tells them apart.
    if (wide > -2 && high > -2) covered.push(await other.textContent());
  }
  return covered;
}

test("no word and no time is broken, nothing is covered, and everything can be hit", async ({ app, page }) => {
  await threeBreads(app);
  await stayAtBuns(app);
  await expect(nowAt(app)).toBeVisible();
  for (const screen of [UPRIGHT, ON_ITS_SIDE, SMALL]) {
    await page.setViewportSize(screen);
    const where = named(screen);
    expect.soft(await brokenWords(page), where).toEqual([]);
    expect.soft(await losses(page), where).toEqual([]);
    expect.soft(await coveredBy(nowAt(app), app.bench.bar.locator(".button")), where).toEqual([]);
    const { instruction, targets } = await bench(page);
    const small = targets.filter(({ width, height }) => Math.min(width, height) < TARGET_PX);
    expect.soft(small, where).toEqual([]);
    // A small screen has no room for it as well; there it is scrolled to.
    if (screen !== SMALL) expect.soft(instruction.hidden, where).toEqual([]);
  }
});

/** Turns to the buns, wherever the plan has the hands. */
async function workAtBuns({ bench }, title) {
  await bench.whose.getByRole("link", { name: FORMULAS.buns }).click();
  const stay = bench.main.getByRole("button", { name: "Stay here" });
  await expect(async () => {
    if (await stay.isVisible()) await bench.pressBeside("Stay here");
    await expect(bench.title).toHaveText(title, { timeout: 200 });
  }).toPass();
}

for (const [title, timers, known] of [
  ["Cook the cream", 3, /^Thick cream is scalding/],
  ["Mix the dough", 2, /^[^.]*\d+\s°C/],
  ["Toast almonds", 1, null],
]) {
  test(`beside two breads and three clocks all of "${title}" is read without scrolling`, async ({ app, page }) => {
    await takeUp(app, title);
    for (const [nth, name] of ["Tea", "Rack", "Eggs"].slice(0, timers).entries()) {
      await app.bench.setTimer(name, 40 + 5 * nth);
    }
    await app.clock.pass(SECOND);
    await app.turnTo("#/");
    await app.formula.bake(FORMULAS.braid);
    await app.clock.pass(BEAT);
    await workAtBuns(app, title);
    for (const screen of [UPRIGHT, ON_ITS_SIDE]) {
      await page.setViewportSize(screen);
      const where = named(screen);
      const { digits, instruction, known: seen, targets } = await bench(page);
      expect.soft(digits.length, where).toBe(3);
      for (const clock of digits) expect.soft(clock, where).toMatchObject({ hidden: [], fits: true });
      expect.soft(instruction.hidden, `${where}: ${instruction.text}`).toEqual([]);
      expect.soft(instruction.px, where).toBeGreaterThanOrEqual(LONG_PX);
      expect.soft(seen.length, where).toBe(known ? 1 : 0);
      for (const one of seen) {
        expect.soft(one.text, where).toMatch(known);
        expect.soft(one.hidden, `${where}: ${one.text}`).toEqual([]);
      }
      const small = targets.filter(({ width, height }) => Math.min(width, height) < TARGET_PX);
      expect.soft(small, where).toEqual([]);
      expect.soft(await brokenWords(page), where).toEqual([]);
    }
  });
}

test("Today's way to the Bench lies above the bar, also on a phone's side", async ({ app, page }) => {
  await takeUp(app, "First rise", { asks: "wait" });
  await app.turnTo("#/");
  const pages = page.getByRole("navigation", { name: "Pages" });
  const bench = page.getByRole("main").getByRole("link", { name: /Bench/ }).first();
  for (const screen of [UPRIGHT, ON_ITS_SIDE]) {
    await page.setViewportSize(screen);
    const [way, bar] = [await bench.boundingBox(), await pages.boundingBox()];
    expect.soft(way.y + way.height, named(screen)).toBeLessThanOrEqual(bar.y);
  }
});

for (const screen of [UPRIGHT, ON_ITS_SIDE]) {
  test(`nothing moves when the hands are wanted at another bread, on ${named(screen)}`, async ({ app, context, page }) => {
    await recordShifts(context);
    await threeBreads(app);
    await stayAtBuns(app);
    const now = new Date(await app.now());
    const minute = 60 * now.getUTCHours() + now.getUTCMinutes();
    await app.plan.turnTo();
    await app.plan.awayToday(minute, minute + 5);
    await app.clock.pass(SECOND);
    await app.turnTo("#/bench");
    await app.bench.whose.getByRole("link", { name: FORMULAS.buns }).click();
    await page.setViewportSize(screen);
    await expect(nowAt(app)).toHaveCount(0);
    const moved = [];
    await shiftsOf(page);
    // It comes shortly before the alarm, which would hide whatever moved.
    await expect(async () => {
      await app.clock.pass(BEAT);
      moved.push(...(await shiftsOf(page)));
      await expect(nowAt(app)).toBeVisible({ timeout: 50 });
    }).toPass();
    expect(await app.alarm.rings()).toBe(false);
    expect([...moved, ...(await shiftsOf(page))]).toEqual([]);
  });
}

test("on a small screen the names of three breads take one row, also of two that make the same", async ({ app, page }) => {
  await takeUp(app, "First rise", { asks: "wait" });
  for (const minutes of [20, 25]) {
    await app.clock.pass(minutes * MINUTE);
    await app.alarm.stopAll();
    await app.turnTo("#/");
    await app.formula.bake(FORMULAS.loaf);
  }
  await app.clock.pass(SECOND);
  await page.setViewportSize(SMALL);
  const names = app.bench.whose.getByRole("link");
  await expect(names).toHaveCount(3);
  const boxes = await names.evaluateAll((names) => names.map((name) => name.getBoundingClientRect().toJSON()));
  expect(new Set(boxes.map(({ top }) => Math.round(top))).size).toBe(1);
  for (const { right } of boxes) expect(right).toBeLessThanOrEqual(SMALL.width);
  expect(await brokenWords(page)).toEqual([]);
  // What is asked begins in sight; the rest of it is scrolled to.
  expect((await bench(page)).instruction.hidden.length).toBeLessThan(2);
});

test("the drawn plan of three breads breaks no word", async ({ app, page }) => {
  await threeBreads(app);
  await app.plan.turnTo();
  await expect(app.plan.bars.first()).toBeVisible();
  for (const screen of [UPRIGHT, ON_ITS_SIDE, SMALL]) {
    await page.setViewportSize(screen);
    expect.soft(await brokenWords(page), named(screen)).toEqual([]);
  }
});

test("a sheet on a phone that lies on its side has all of its height", async ({ app, page }) => {
  await takeUp(app, "First rise", { asks: "wait" });
  await page.setViewportSize(ON_ITS_SIDE);
  const isWhole = async (what) => {
    const close = app.bench.sheet.getByRole("button", { name: "Close" });
    await expect(close, what).toBeInViewport({ ratio: 1 });
    const scrolls = await app.bench.sheet.locator(".sheet-body").boundingBox();
    expect.soft(scrolls.height / ON_ITS_SIDE.height, what).toBeGreaterThan(0.9);
    const beside = await close.boundingBox();
    expect.soft(beside.x, what).toBeGreaterThanOrEqual(scrolls.x + scrolls.width - 1);
    await close.click();
    await expect(app.bench.sheet).toHaveCount(0);
  };
  await app.bench.openMore();
  await isWhole("More");
  await app.plan.turnTo();
  await app.plan.bars.last().click();
  await expect(app.plan.sheet.getByRole("button", { name: "Fix it there" })).toBeInViewport({ ratio: 0.5 });
  await isWhole("an item of the plan");
});

test("a broken word is found", async ({ app, page }) => {
  await app.open();
  expect(await brokenWords(page)).toEqual([]);
  await page.evaluate(() => {
    const heading = document.querySelector("h1");
    heading.style.width = "2em";
    heading.textContent = "since\u00a009:00";
  });
  expect(await brokenWords(page)).toEqual([expect.stringContaining("since\u00a009:00")]);
});
