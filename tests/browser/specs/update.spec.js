// A newer version waits until nothing is baking.

import { rm } from "node:fs/promises";
import { FORMULAS } from "../pages/formula.js";
import { newerBuild } from "../support/builds.js";
import { BEAT } from "../support/clock.js";
import { START } from "../support/phone.js";
import { tab } from "../support/tabs.js";
import { expect, test as base } from "../support/test.js";
import { fullPhone } from "../support/trouble.js";
import { closeLast } from "../support/workers.js";

const test = base.extend({
  newer: async ({}, use) => {
    const build = await newerBuild();
    await use(build.folder);
    await build.remove();
  },
});

/** Lets the page find what the server holds now, and waits until it is here and waiting. */
async function findNewer(page) {
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    await registration.update();
  });
  await expect.poll(() => isWaiting(page)).toBe(true);
}

function isWaiting(page) {
  return page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    return registration.waiting !== null;
  });
}

/** Which build the page in this tab comes from. */
function build(page) {
  return page.locator('meta[name="build"]');
}

/** Takes the newer version that is offered. */
async function takeNewer(app, page) {
  await app.today.update.click();
  await expect(build(page)).toHaveAttribute("content", "newer");
}

/** That the notebook still has the bake from before. */
async function stillKnowsBuns(app, page) {
  await app.go("Notebook");
  await expect(page.getByRole("main").getByRole("link", { name: FORMULAS.buns })).toBeVisible();
}

test("a newer version is offered while nothing bakes, and comes when it is asked for", async ({
  app,
  newer,
  page,
  server,
}) => {
  await app.install();
  await expect(app.today.update).toHaveCount(0);
  server.serve(newer);
  await findNewer(page);
  await expect(app.today.update).toBeVisible();
  await expect(build(page)).toHaveCount(0);

  await takeNewer(app, page);
  await expect(app.heading).toHaveText("Today");
  await expect(app.today.update).toHaveCount(0);
});

test("a newer version never interrupts a bake", async ({ app, newer, page, server }) => {
  await app.install();
  await app.formula.bake(FORMULAS.buns);
  const asked = await app.bench.ask();
  server.serve(newer);
  await findNewer(page);
  expect(await app.bench.ask()).toEqual(asked);

  await test.step("it isn't offered on any page", async () => {
    for (const place of ["#/", "#/formulas", "#/notebook", "#/kitchen", "#/bench"]) {
      await app.turnTo(place);
      await expect(app.heading).toBeVisible();
      await expect(app.today.update).toHaveCount(0);
    }
  });

  await test.step("a reload and a second tab still get the version that the bake began with", async () => {
    await app.reload();
    await expect(build(page)).toHaveCount(0);
    expect(await app.bench.ask()).toEqual(asked);
    const second = await tab(page.context(), app.clock);
    await second.open();
    await expect(build(second.page)).toHaveCount(0);
    await expect(second.today.update).toHaveCount(0);
    await second.page.close();
  });

  await test.step("once the bake has ended it is offered, and the notebook is still there", async () => {
    await app.bench.press();
    await app.bench.giveUp();
    await app.go("Today");
    await takeNewer(app, page);
    await stillKnowsBuns(app, page);
  });
});

test("the last page closed in mid-bake: it opens again in the version that the bake began with", async ({
  app,
  clock,
  context,
  newer,
  page,
  server,
}) => {
  await app.install();
  await app.formula.bake(FORMULAS.buns);
  const asked = await app.bench.ask();
  server.serve(newer);
  await findNewer(page);
  // With no page open the newer worker waits for nobody any more, and takes charge.
  await closeLast(page);

  const later = await tab(context, clock);
  await later.open("#/bench");
  expect(await isWaiting(later.page)).toBe(false);
  await expect(build(later.page)).toHaveCount(0);
  expect(await later.bench.ask()).toEqual(asked);

  await test.step("every file comes from that version's cache: none from the network", async () => {
    await server.stop();
    await later.reload();
    await expect(build(later.page)).toHaveCount(0);
    expect(await later.bench.ask()).toEqual(asked);
    await later.turnTo("#/");
    await expect(later.today.update).toHaveCount(0);
    await later.turnTo("#/bench");
  });

  await test.step("once the bake has ended the newer one is offered, and comes", async () => {
    await later.bench.giveUp();
    await later.go("Today");
    await later.today.update.click();
    await expect(build(later.page)).toHaveAttribute("content", "newer");
    await expect(later.today.update).toHaveCount(0);
    const versions = () => later.page.evaluate(() => caches.keys());
    await expect.poll(versions).toHaveLength(1);
  });
});

test("a browser killed in mid-bake comes back in the version that the bake began with", async ({
  mortal,
  newer,
  server,
}) => {
  test.slow();
  let app = await mortal.start(START);
  await app.install();
  await app.formula.bake(FORMULAS.buns);
  await app.bench.press();
  const asked = await app.bench.ask();
  server.serve(newer);
  await findNewer(app.page);
  app = await mortal.dieAndReturn(app);
  await expect(build(app.page)).toHaveCount(0);
  expect(await app.bench.ask()).toEqual(asked);
});

test("the last page closed between bakes: it opens again in the newer version", async ({
  app,
  clock,
  context,
  newer,
  page,
  server,
}) => {
  await app.install();
  await app.formula.bake(FORMULAS.buns);
  await app.bench.giveUp();
  server.serve(newer);
  await findNewer(page);
  await closeLast(page);
  const later = await tab(context, clock);
  await later.open();
  await expect(build(later.page)).toHaveAttribute("content", "newer");
});

test("an update that another tab asks for leaves a tab alone whose bake isn't stored yet", async ({
  app,
  clock,
  context,
  newer,
  page,
  server,
}) => {
  await page.addInitScript(fullPhone);
  await app.install();
  await page.evaluate(() => (window.full = true));
  await app.formula.bake(FORMULAS.buns);
  await app.bench.press();
  await expect(app.standingWarning).toContainText("The phone is full.");
  const asked = await app.bench.ask();
  const other = await tab(context, clock);
  await other.open();
  server.serve(newer);
  await findNewer(other.page);
  await expect(other.today.update).toBeVisible();

  await page.evaluate(() => {
    navigator.serviceWorker.addEventListener("controllerchange", () => (window.changed = true));
  });
  await other.today.update.click();
  await expect.poll(() => page.evaluate(() => window.changed)).toBe(true);
  await other.page.close();
  expect(await app.bench.ask()).toEqual(asked);
  await expect(app.standingWarning).toContainText("The phone is full.");

  await test.step("nor does this tab itself, while something isn't stored", async () => {
    await app.bench.giveUp();
    await app.go("Today");
    await expect(app.standingWarning).toContainText("The phone is full.");
    await expect(app.today.update).toHaveCount(0);
  });

  await test.step("once there is room it is offered, and nothing is lost by it", async () => {
    await page.evaluate(() => (window.full = false));
    await clock.pass(BEAT);
    await expect(app.standingWarning).toHaveCount(0);
    await takeNewer(app, page);
    await stillKnowsBuns(app, page);
  });
});

test("an update works with no network left once it is here", async ({
  app,
  context,
  newer,
  page,
  server,
}) => {
  await app.install();
  server.serve(newer);
  await findNewer(page);
  await server.stop();
  await context.setOffline(true);
  await takeNewer(app, page);
  await app.reload();
  await expect(app.heading).toHaveText("Today");
});

test("a newer version that can't be fetched whole leaves the old one as it was", async ({
  app,
  newer,
  page,
  server,
  watch,
}) => {
  // Chromium itself tells the console about the file that isn't there.
  watch.allow(/Failed to load resource|404/);
  await app.install();
  await rm(`${newer}/icons`, { recursive: true });
  server.serve(newer);
  const state = await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    await registration.update();
    const worker = registration.installing;
    return new Promise((resolve) => {
      worker.addEventListener("statechange", () => resolve(worker.state));
    });
  });
  expect(state).toBe("redundant");
  await expect(app.today.update).toHaveCount(0);
  await server.stop();
  await app.reload();
  await expect(app.heading).toHaveText("Today");
});
