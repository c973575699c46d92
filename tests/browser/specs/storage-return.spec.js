// Storage that fails for a while: nothing is lost, nothing is shown as kept that isn't, and it is
// put right by itself.

import { readFile } from "node:fs/promises";
import { FORMULAS } from "../pages/formula.js";
import { contentsOf } from "../support/archive.js";
import { BEAT, MINUTE } from "../support/clock.js";
import { factsIn, putInto, storedIn } from "../support/database.js";
import { tab } from "../support/tabs.js";
import { expect, test } from "../support/test.js";
import { fullPhone, losableStorage, shutStorage, unreadableStorage } from "../support/trouble.js";

/** One of the formulas that come with the app. */
const BRAID = new URL("../../../src/records/starters/orange_braid.json", import.meta.url);

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
  await app.bench.asksTheSameAgain();
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
