// Storage that fails for a while: nothing is lost, nothing is shown as kept that isn't, and it is
// put right by itself.

import { readFile } from "node:fs/promises";
import { FORMULAS } from "../pages/formula.js";
import { contentsOf } from "../support/archive.js";
import { MINUTE, SECOND } from "../support/clock.js";
import { putInto, storedIn } from "../support/database.js";
import { ringing } from "../support/senses.js";
import { tab } from "../support/tabs.js";
import { expect, test } from "../support/test.js";
import {
  fullPhone,
  hangingStorage,
  holdStorage,
  losableStorage,
  shutStorage,
  silentStorage,
  unreadableStorage,
} from "../support/trouble.js";

/** The app reckons everything anew every 15 s, by a clock of whole seconds, and tries again then. */
const BEAT = 16 * SECOND;
/** An opening of the storage is given up after this, and reading and writing after twice as long. */
const PATIENCE = 5 * SECOND;
/** Replacing everything, as a restored archive does, is given up after this. */
const LONG_PATIENCE = 60 * SECOND;

/** One of the formulas that come with the app. */
const BRAID = new URL("../../../src/records/starters/orange_braid.json", import.meta.url);

/** The kitchen's facts as they are stored. */
async function factsIn(page) {
  const { kitchen } = await storedIn(page);
  return JSON.parse(kitchen.kitchen ?? '{"facts":{}}').facts;
}

test("settings that found no room stay, and are saved once there is some", async ({
  clock,
  context,
}) => {
  const app = await tab(context, clock, fullPhone);
  await app.open("#/kitchen");
  await app.page.evaluate(() => (window.full = true));
  await app.kitchen.fridge.type(4);
  await expect(app.standingWarning).toContainText("The phone is full.");
  await app.kitchen.fridge.shows("4 °C");
  expect(await factsIn(app.page)).toEqual({});

  await test.step("what another tab changes doesn't overwrite them, nor they that", async () => {
    const other = await tab(context, clock);
    await other.open("#/kitchen");
    await other.kitchen.choose("Your oven", "Fan");
    await expect(app.kitchen.choice("Your oven", "Fan")).toBeChecked();
    await app.kitchen.fridge.shows("4 °C");
    await expect(app.standingWarning).toContainText("The phone is full.");
  });

  await app.page.evaluate(() => (window.full = false));
  await clock.pass(BEAT);
  await expect(app.standingWarning).toHaveCount(0);
  expect(await factsIn(app.page)).toMatchObject({ fridge_c: 4, oven: "fan" });
  await app.reload();
  await app.kitchen.fridge.shows("4 °C");
});

test("a note that found no room isn't called kept, and is saved once there is some", async ({
  app,
  page,
}) => {
  await page.addInitScript(fullPhone);
  await app.startBake(FORMULAS.loaf);
  await app.bench.giveUp();

  await page.evaluate(() => (window.full = true));
  await app.note.text.fill("Out of flour.");
  await app.note.text.blur();
  await expect(app.standingWarning).toContainText("The phone is full.");
  const yours = page.getByRole("region", { name: "Your note" });
  await expect(yours).toContainText("Not kept yet");
  await expect(yours).not.toContainText("Kept.");

  await page.evaluate(() => (window.full = false));
  await app.clock.pass(BEAT);
  await expect(app.standingWarning).toHaveCount(0);
  await expect(yours).toContainText("Kept.");
  await app.reload();
  await expect(app.note.text).toHaveValue("Out of flour.");
});

test("storage that the phone closed without a word is opened again, unnoticed", async ({
  app,
  page,
}) => {
  await page.addInitScript(losableStorage);
  await app.startBake();
  await app.bench.press();
  await page.evaluate(() => window.loseStorage());
  await app.bench.press();
  await expect(app.standingWarning).toHaveCount(0);
  const asked = await app.bench.ask();
  await app.reload();
  expect(await app.bench.ask()).toEqual(asked);
});

test("storage that the browser cleared under the app gets back what the app knows", async ({
  app,
  context,
  page,
  server,
}) => {
  await app.open();
  // The app makes no formulas of the baker's own yet; one out of an archive lies like this.
  const braid = JSON.parse(await readFile(BRAID, "utf8"));
  const mine = JSON.stringify({ ...braid, id: "mine", name: "Lemon braid" });
  await putInto(page, "formulas", "mine", mine);
  await app.reload();
  await app.turnTo("#/kitchen");
  await app.kitchen.fridge.type(4);
  await app.formula.bake(FORMULAS.buns);
  await app.bench.press();
  const before = await storedIn(page);
  expect(Object.keys(before.formulas)).toEqual(["mine"]);
  const cdp = await context.newCDPSession(page);
  await cdp.send("Storage.clearDataForOrigin", { origin: server.url, storageTypes: "indexeddb" });
  await app.bench.press();
  await expect(app.standingWarning).toHaveCount(0);
  const asked = await app.bench.ask();
  // The formula is the same one, if not by the letter.
  const said = ({ formulas, ...rest }) => {
    const { id, name, steps = [] } = JSON.parse(formulas.mine ?? "{}");
    return { ...rest, mine: { id, name, steps: steps.map(({ title }) => title) } };
  };
  await expect.poll(async () => said(await storedIn(page))).toMatchObject(said(before));
  await app.reload();
  expect(await app.bench.ask()).toEqual(asked);
  await app.turnTo("#/kitchen");
  await app.kitchen.fridge.shows("4 °C");
  await app.go("Formulas");
  await expect(page.getByRole("main").getByRole("link", { name: "Lemon braid" })).toBeVisible();
});

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
  await bench.whose.getByRole("link", { name: FORMULAS.buns }).click();
  await expect(bench.title).toHaveText(asked.title);
  await bench.whose.getByRole("link", { name: FORMULAS.loaf }).click();
  await expect(bench.title).toHaveText(loaf.title);
});

test("settings that could not be read are not written over", async ({ clock, context }) => {
  const other = await tab(context, clock);
  await other.open("#/kitchen");
  await other.kitchen.fridge.type(4);
  const before = await factsIn(other.page);

  const app = await tab(context, clock, unreadableStorage);
  await app.open("#/kitchen");
  await expect(app.standingWarning).toContainText("Not read and not saved: The phone's storage failed.");
  await app.kitchen.choose("Your oven", "Fan");
  await clock.pass(BEAT);
  expect(await factsIn(other.page)).toEqual(before);

  await app.page.evaluate(() => (window.readable = true));
  await clock.pass(BEAT);
  await expect(app.standingWarning).toHaveCount(0);
  await app.kitchen.fridge.shows("4 °C");
  expect(await factsIn(other.page)).toEqual({ ...before, oven: "fan" });
});

test("an archive holds what could not be stored", async ({ app, page }) => {
  await page.addInitScript(fullPhone);
  await app.startBake();
  await page.evaluate(() => (window.full = true));
  await app.bench.press();
  await app.turnTo("#/kitchen");
  await app.kitchen.fridge.type(4);
  await expect(app.standingWarning).toContainText("The phone is full.");
  const { contents } = contentsOf(await app.kitchen.writeArchive());
  const kinds = contents.bakes[0].entries.map((entry) => JSON.parse(entry).event.kind);
  expect(kinds).toEqual(["started", "done", "kitchen-changed"]);
  expect(JSON.parse(contents.kitchen).facts.fridge_c).toBe(4);
  await expect(app.kitchen.outcome).toContainText("The archive is in your downloads.");
  await expect(app.kitchen.outcome).not.toContainText("could not be read");
});

test("without any storage an archive holds what the page knows, and restores elsewhere", async ({
  clock,
  context,
}) => {
  const app = await tab(context, clock, shutStorage);
  await app.open("#/kitchen");
  await app.kitchen.fridge.type(4);
  await app.formula.bake(FORMULAS.buns);
  await app.bench.press();
  const asked = await app.bench.ask();
  await app.turnTo("#/kitchen");
  const archive = await app.kitchen.writeArchive();
  await expect(app.kitchen.outcome).toContainText("the phone's storage could not be read");
  await app.kitchen.main.getByRole("button", { name: "Erase everything" }).click();
  await app.kitchen.sheet.getByRole("button", { name: "Go on" }).click();
  await app.kitchen.sheet.getByRole("button", { name: "Erase it all now" }).click();
  await expect(app.kitchen.outcome).toContainText("Nothing was erased");

  const other = await tab(context, clock);
  await other.open("#/kitchen");
  await other.kitchen.restore(archive);
  await expect(other.kitchen.outcome).toHaveText("Everything in the archive is here now.");
  await other.kitchen.fridge.shows("4 °C");
  await other.turnTo("#/bench");
  expect(await other.bench.ask()).toEqual(asked);
});

test("what two tabs did to one bake is joined, and an alarm can be stopped meanwhile", async ({
  clock,
  context,
}) => {
  const app = await tab(context, clock, fullPhone);
  await app.startBake();
  const other = await tab(context, clock);
  await other.open("#/bench");

  await app.page.evaluate(() => (window.full = true));
  await app.bench.setTimer("Tea", 3);
  await expect(app.standingWarning).toContainText("The phone is full.");
  await other.bench.setTimer("Eggs", 9);
  await other.bench.press();
  const asked = await other.bench.ask();
  await expect(app.bench.title).toHaveText(asked.title);
  await expect(app.bench.card(/^Tea/)).toBeVisible();
  await expect(app.bench.card(/^Eggs/)).toBeVisible();

  await clock.pass(3 * MINUTE);
  await expect(app.alarm.title).toHaveText("Tea");
  await app.alarm.stop();
  expect(await app.alarm.rings()).toBe(false);
  expect(await other.alarm.rings()).toBe(false);

  await app.page.evaluate(() => (window.full = false));
  await clock.pass(BEAT);
  await expect(app.standingWarning).toHaveCount(0);
  for (const one of [app, other]) {
    await one.reload();
    await expect(one.bench.card(/^Eggs/)).toBeVisible();
    await expect(one.bench.card(/^Tea/)).toHaveCount(0);
    expect(await one.bench.ask()).toEqual(asked);
  }
  const kinds = Object.values((await storedIn(app.page)).bakes).map((text) => JSON.parse(text).event.kind);
  expect(kinds.filter((kind) => kind === "timer-set")).toHaveLength(2);
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
  await expect(app.bench.title).toHaveText(before.title);
  // After ten seconds it is given up, and what is stored is read, which may be too quick for a warning to be seen.
  await app.clock.pass(2 * PATIENCE);
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
