// Storage that doesn't answer: nobody waits for it for long, and what was done meanwhile is stored once it does.

import { FORMULAS } from "../pages/formula.js";
import { BEAT, MINUTE, SECOND } from "../support/clock.js";
import { factsIn, storedIn } from "../support/database.js";
import { ringing } from "../support/senses.js";
import { tab } from "../support/tabs.js";
import { expect, test } from "../support/test.js";
import { hangingStorage, holdStorage, silentStorage } from "../support/trouble.js";

/** An opening of the storage is given up after this, and reading and writing after twice as long. */
const PATIENCE = 5 * SECOND;
/** Replacing everything, as a restored archive does, is given up after this. */
const LONG_PATIENCE = 60 * SECOND;

/** Waits until the app waits for a write that hangs: its patience counts from there. */
async function somethingHangs(page) {
  await expect.poll(() => page.evaluate(() => window.hung)).toBeGreaterThan(0);
}

test("storage that doesn't answer: said after five seconds, and used once it answers", async ({
  clock,
  context,
}) => {
  const before = await tab(context, clock);
  await before.open("#/kitchen");
  await before.kitchen.fridge.type(4);
  await before.formula.bake(FORMULAS.buns);
  await before.bench.press();
  const asked = await before.bench.ask();
  await before.page.close();

  const app = await tab(context, clock, silentStorage);
  await app.page.goto("/#/");
  await expect(app.page.locator("#shell")).toHaveCount(0);
  await expect(app.heading).toHaveCount(0);
  await clock.pass(PATIENCE);
  await expect(app.standingWarning).toContainText("The phone's storage doesn't answer.");
  await expect(app.standingWarning).toContainText("isn't shown now, and stays as it is");
  await app.turnTo("#/kitchen");
  await app.kitchen.choose("Your oven", "Fan");
  await app.formula.bake(FORMULAS.loaf);
  await app.bench.press();
  const loaf = await app.bench.ask();

  await app.page.evaluate(() => window.answer());
  await expect(app.standingWarning).toHaveCount(0);
  expect(await factsIn(app.page)).toMatchObject({ fridge_c: 4, oven: "fan" });
  expect(await app.bench.ask()).toEqual(loaf);
  await app.page.close();

  const after = await tab(context, clock);
  await after.open("#/bench");
  const { bench } = after;
  // Wherever the plan has the hands, each is where it was left.
  for (const [name, { title }] of [
    [FORMULAS.buns, asked],
    [FORMULAS.loaf, loaf],
  ]) {
    await bench.whose.getByRole("link", { name }).click();
    await expect(bench.main.locator(".asked")).toContainText(title);
  }
});

test("a stopped alarm is silent at once, even where writing hangs", async ({ app, page }) => {
  await page.addInitScript(hangingStorage);
  await app.startBake();
  await app.bench.setTimer("Tea", 3);
  await app.clock.pass(3 * MINUTE);
  await expect(app.alarm.title).toHaveText("Tea");
  await page.evaluate(() => (window.hangs = true));
  expect(await ringing(page)).toBe(1);
  await app.alarm.stopButton.click();
  await expect.poll(() => ringing(page)).toBe(0);
  await somethingHangs(page);
  await app.clock.pass(2 * PATIENCE);
  await expect(app.alarm.dialog).toHaveCount(0);
});

test("a write that was done but never answered is found by reading again, and nothing stands twice", async ({
  app,
  page,
}) => {
  await page.addInitScript(hangingStorage);
  await app.startBake();
  await app.bench.press();
  const before = await app.bench.ask();
  await app.clock.pass(SECOND);
  await page.evaluate(() => (window.hangs = true));
  await app.bench.mainAction.click();
  await somethingHangs(page);
  await app.clock.pass(2 * PATIENCE - SECOND);
  expect(await app.bench.ask()).toEqual(before);
  // Now it is given up, and what is stored is read, which may be too quick for a warning to be seen.
  await app.clock.pass(SECOND);
  await app.bench.asksOtherThan(before);
  const asked = await app.bench.ask();

  await page.evaluate(() => (window.hangs = false));
  await app.clock.pass(BEAT);
  await expect(app.standingWarning).toHaveCount(0);
  expect(Object.keys((await storedIn(page)).bakes)).toHaveLength(3);
  await app.reload();
  expect(await app.bench.ask()).toEqual(asked);
});

test("while the storage hangs only the first press waits for it; the rest goes on and is joined", async ({
  app,
  page,
}) => {
  await app.startBake();
  await app.bench.press();
  const before = await app.bench.ask();
  await holdStorage(page);
  await app.clock.pass(SECOND);
  await app.bench.mainAction.click();
  await app.clock.pass(2 * PATIENCE);
  await expect(app.standingWarning).toContainText("The phone's storage doesn't answer.");
  await app.bench.asksOtherThan(before);

  // From here on the clock passes no second for the app, but half a one between two presses.
  await app.bench.press();
  await app.bench.setTimer("Tea", 30);
  await app.bench.press();
  await app.turnTo("#/kitchen");
  await app.kitchen.fridge.type(4);
  await app.kitchen.fridge.shows("4 °C");
  await app.formula.bake(FORMULAS.loaf);
  await app.bench.press();
  await expect(app.standingWarning).toContainText("The phone's storage doesn't answer.");
  const loaf = await app.bench.ask();
  await app.bench.whose.getByRole("link", { name: FORMULAS.buns }).click();
  const buns = await app.bench.ask();

  await page.evaluate(() => window.letGo());
  await expect(app.standingWarning).toHaveCount(0);
  const { bakes } = await storedIn(page);
  const kinds = Object.values(bakes).map((text) => JSON.parse(text).event.kind);
  expect(kinds.filter((kind) => kind === "done")).toHaveLength(5);
  expect(kinds.filter((kind) => kind === "timer-set")).toHaveLength(1);
  expect(await factsIn(page)).toMatchObject({ fridge_c: 4 });
  // What is planned is stored after the rest, and says which bread is asked for first.
  await app.clock.pass(BEAT);
  await app.reload();
  await app.bench.whose.getByRole("link", { name: FORMULAS.loaf }).click();
  await expect(app.bench.title).toHaveText(loaf.title);
  await app.bench.whose.getByRole("link", { name: FORMULAS.buns }).click();
  await expect(app.bench.title).toHaveText(buns.title);
});

test("storage that hangs again while it is tried again keeps nobody waiting", async ({ app, page }) => {
  await app.startBake();
  await holdStorage(page);
  await app.clock.pass(SECOND);
  await app.bench.mainAction.click();
  await app.clock.pass(2 * PATIENCE);
  await expect(app.standingWarning).toContainText("The phone's storage doesn't answer.");
  for (let beats = 0; beats < 3; beats += 1) {
    await app.clock.pass(BEAT);
    await app.bench.press();
  }
  const asked = await app.bench.ask();
  await page.evaluate(() => window.letGo());
  await app.clock.pass(BEAT);
  await expect(app.standingWarning).toHaveCount(0);
  await app.reload();
  expect(await app.bench.ask()).toEqual(asked);
});

test("the second of two alarms is stopped at once, too, while the storage hangs", async ({
  app,
  page,
}) => {
  const { alarm, bench, clock } = app;
  await app.startBake();
  await bench.setTimer("Tea", 3);
  await bench.setTimer("Eggs", 3);
  await clock.pass(3 * MINUTE + SECOND);
  await expect(alarm.title).toHaveText("Tea");
  await holdStorage(page);
  await alarm.stopButton.click();
  await expect(alarm.title).toHaveText("Eggs");
  expect(await ringing(page)).toBe(1);
  await clock.pass(SECOND);
  await alarm.stopButton.click();
  await expect.poll(() => ringing(page)).toBe(0);

  await clock.pass(2 * PATIENCE);
  await expect(alarm.dialog).toHaveCount(0);
  await page.evaluate(() => window.letGo());
  await clock.pass(BEAT);
  await expect(app.standingWarning).toHaveCount(0);
  await app.reload();
  expect(await alarm.rings()).toBe(false);
  await expect(bench.card(/^(Tea|Eggs)/)).toHaveCount(0);
});

test("restoring and erasing are given up after a minute, say so, and have changed nothing", async ({
  app,
  page,
}) => {
  const { clock, kitchen } = app;
  await app.open("#/kitchen");
  const archive = await kitchen.writeArchive();
  await kitchen.fridge.type(4);
  await kitchen.fridge.shows("4 °C");
  const before = await storedIn(page);
  const after = async (told) => {
    await clock.pass(LONG_PATIENCE);
    await expect(kitchen.outcome).toContainText(told);
    await page.evaluate(() => window.letGo());
    await clock.pass(BEAT);
    await expect(app.standingWarning).toHaveCount(0);
    expect(await storedIn(page)).toEqual(before);
  };

  await holdStorage(page);
  await kitchen.restore(archive);
  await after("Nothing was changed: the phone's storage doesn't answer.");
  await holdStorage(page);
  await kitchen.eraseEverything();
  await after("Nothing was erased: the phone's storage can't be reached.");
  await kitchen.restore(archive);
  await expect(kitchen.outcome).toHaveText("Everything in the archive is here now.");
  await kitchen.fridge.shows("5 °C");
});
