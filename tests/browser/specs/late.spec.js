// Promise: Today, alarms and storage need nothing of the code that comes after them, and whatever does waits for it.

import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { DIST } from "../support/builds.js";
import { BEAT, MINUTE, SECOND } from "../support/clock.js";
import { withTimer } from "../support/mid-bake.js";
import { ringing } from "../support/senses.js";
import { tab } from "../support/tabs.js";
import { expect, test } from "../support/test.js";
import { lateBlocked, lateHeld } from "../support/late.js";

const LATE = "**/*_late.wasm";
const OPENING = "Opening…";
const NOT_FETCHED = /couldn't be fetched: go where there is a network/;

const main = (page) => page.getByRole("main");
const way = (page, name) => page.getByRole("navigation", { name: "Pages" }).getByRole("link", { name });

for (const [place, heading] of [
  ["#/kitchen", "Kitchen"],
  ["#/notebook", "Notebook"],
  ["#/formulas/orange-braid", "Orange braid"],
  ["#/bench", "Nothing is baking."],
]) {
  test(`a first visit at ${place} says that it opens, and opens`, async ({ app, page }) => {
    await page.addInitScript(lateHeld);
    await page.goto(`/${place}`);
    await expect(main(page)).toHaveText(OPENING);
    await page.evaluate(() => window.letLateCome());
    await expect(app.heading).toHaveText(heading);
    await expect(page.getByText(OPENING)).toHaveCount(0);
  });
}

test("Today is drawn before the late half is asked for, and works without it", async ({ app, page }) => {
  await page.addInitScript(lateHeld);
  await app.open();
  await expect(app.heading).toHaveText("Today");
  await expect.poll(() => page.evaluate(() => window.lateAsked)).toBe("after");
  await app.go("Formulas");
  await expect(main(page).locator("a.card").first()).toBeVisible();
  await way(page, "Kitchen").click();
  await expect(main(page)).toHaveText(OPENING);
  await page.evaluate(() => window.letLateCome());
  await expect(app.heading).toHaveText("Kitchen");
  // Whoever goes by keys or by ear is where the baker went.
  await expect(app.heading).toBeFocused();
});

test("what could not be fetched is said, and comes by itself once it can be", async ({ app, clock, page }) => {
  await page.addInitScript(lateBlocked);
  await app.open();
  await way(page, "Kitchen").click();
  await expect(main(page)).toHaveText(NOT_FETCHED);
  await app.go("Today");
  await expect(main(page).locator("a.card").first()).toBeVisible();
  await way(page, "Notebook").click();
  await expect(main(page)).toHaveText(NOT_FETCHED);
  await page.evaluate(() => (window.lateComes = true));
  await clock.pass(BEAT);
  await expect(app.heading).toHaveText("Notebook");
  await expect(app.heading).toBeFocused();
});

test("a host that lacks the late half leaves Today as it is", async ({ app, page, watch }) => {
  // Chromium itself tells the console about every request that fails.
  watch.allow(/Failed to load resource/);
  const asked = page.waitForRequest(LATE);
  await page.route(LATE, (route) => route.abort());
  await app.open();
  await asked;
  await expect(app.heading).toHaveText("Today");
  await expect(main(page).locator("a.card").first()).toBeVisible();
});

test("a running bake is shown, rings, is heard and stays so without the late half", async ({ app, clock, context, page }) => {
  await withTimer(app);
  await page.close();
  const later = await tab(context, clock, lateBlocked);
  await later.open();
  await expect(main(later.page).getByRole("link", { name: "To the Bench" })).toBeVisible();
  await clock.pass(10 * MINUTE);
  await expect(later.alarm.title).toHaveText("Tea");
  expect(await ringing(later.page)).toBe(1);
  await later.alarm.stop();
  expect(await later.alarm.rings()).toBe(false);
  await later.reload();
  expect(await later.alarm.rings()).toBe(false);

  await test.step("the Bench says what is missing, and comes once it is there", async () => {
    await later.turnTo("#/bench");
    await expect(main(later.page)).toHaveText(NOT_FETCHED);
    await later.page.evaluate(() => (window.lateComes = true));
    await clock.pass(BEAT);
    await expect(later.bench.mainAction).toBeVisible();
  });
});

test("an alarm is stopped while the late half is on its way, and the Bench that comes knows it", async ({ app, clock, context, page }) => {
  await withTimer(app);
  await app.bench.setTimer("Eggs", 15);
  await page.close();
  const later = await tab(context, clock, lateHeld);
  await later.page.goto("/#/bench");
  await expect(main(later.page)).toHaveText(OPENING);
  await clock.pass(10 * MINUTE);
  await expect(later.alarm.title).toHaveText("Tea");
  await later.alarm.stop();
  expect(await ringing(later.page)).toBe(0);

  await test.step("what is pressed there comes after it", async () => {
    await later.page.evaluate(() => window.letLateCome());
    await expect(later.bench.card(/^Eggs/)).toBeVisible();
    await expect(later.bench.card(/^Tea/)).toHaveCount(0);
    await later.bench.press();
  });

  await test.step("and both stay", async () => {
    const asks = await later.bench.ask();
    await later.page.reload();
    await later.page.evaluate(() => window.letLateCome());
    await expect(later.bench.mainAction).toBeVisible();
    expect(await later.bench.ask()).toEqual(asks);
    await expect(later.bench.card(/^Tea/)).toHaveCount(0);
    expect(await later.alarm.rings()).toBe(false);
  });
});

test("a phone whose clock was set is asked about it without the late half, and keeps the time left", async ({ app, clock, context, page }) => {
  await withTimer(app);
  await page.close();
  const later = await tab(context, clock, lateBlocked);
  await later.open();
  await clock.set((await later.now()) + 60 * MINUTE);
  await clock.pass(SECOND);
  expect(await ringing(later.page)).toBe(1);
  await later.page.getByRole("button", { name: "Keep the time left" }).click();
  await expect(later.page.getByRole("button", { name: "Keep the time left" })).toHaveCount(0);
  await expect.poll(() => ringing(later.page)).toBe(0);
  await clock.pass(9 * MINUTE + 58 * SECOND);
  expect(await later.alarm.rings()).toBe(false);
  await clock.pass(2 * SECOND);
  await expect(later.alarm.text).toContainText("Due at 10:10.");
  await later.alarm.stop();
  await later.reload();
  await expect(later.heading).toHaveText("Today");
  expect(await later.alarm.rings()).toBe(false);
});

test("the first half is what the page's head loads, and names the late one of its own build", async () => {
  const page = await readFile(join(DIST, "index.html"), "utf8");
  const [, first, late] = page.match(/href="\.\/(app-\w+)_bg\.wasm"[^>]* data-late="\.\/(app-\w+)_late\.wasm"/);
  expect(late).toBe(first);
  const worker = await readFile(join(DIST, "sw.js"), "utf8");
  for (const half of [`${first}_bg.wasm`, `${late}_late.wasm`]) expect(worker).toContain(half);
});
