// Promise: nothing moves under the baker's finger, nothing complains, nothing is asked of another
// origin.
//
// Layout shift as the W3C's Layout Instability draft measures it. What a press changes within half
// a second is not counted there either.

import { MINUTE } from "../../support/clock.js";
import { takeUp } from "../../support/mid-bake.js";
import { expect, test } from "../../support/test.js";
import { holdStorage } from "../../support/trouble.js";
import { everyPlaceOnTheWay } from "./measure/places.js";
import { recordShifts, shiftsOf } from "./measure/shifts.js";

test.beforeEach(({ context }) => recordShifts(context));

test("nothing moves while the app starts, cold and warm", async ({ app, page }) => {
  await app.install();
  expect(await shiftsOf(page), "cold").toEqual([]);
  await app.reload();
  expect(await shiftsOf(page), "warm").toEqual([]);
});

test("a whole bake: nothing moves on any page, nothing complains, nothing is asked elsewhere", async ({
  app,
  context,
  page,
  server,
}) => {
  test.setTimeout(300_000);
  const said = [];
  context.on("console", (message) => {
    if (["warning", "error"].includes(message.type())) said.push(message.text());
  });
  const asked = new Set();
  context.on("request", (request) => asked.add(new URL(request.url()).origin));
  for await (const place of everyPlaceOnTheWay(app)) {
    expect.soft(await shiftsOf(page), place).toEqual([]);
    expect.soft(said.splice(0), place).toEqual([]);
  }
  asked.delete("null");
  expect([...asked]).toEqual([server.url]);
});

test("nothing moves while clocks tick", async ({ app, page }) => {
  test.setTimeout(120_000);
  await takeUp(app, "First rise");
  await shiftsOf(page);
  for (let minute = 1; minute <= 30; minute += 1) {
    await app.clock.pass(MINUTE);
    expect.soft(await shiftsOf(page), `minute ${minute}`).toEqual([]);
    await app.alarm.stopAll();
  }
});

test("a minute of the test's clock doesn't outrun the storage of a busy machine", async ({ app, page }) => {
  await app.startBake();
  await app.turnTo("#/plan");
  await expect(app.plan.bars.first()).toBeVisible();
  await shiftsOf(page);
  await holdStorage(page, { isOnlySlow: true });
  let isOver = false;
  const minute = app.clock.pass(MINUTE).then(() => (isOver = true));
  for (let picture = 0; picture < 4; picture += 1) await shiftsOf(page);
  expect(isOver).toBe(false);
  await page.evaluate(() => window.letGo());
  await minute;
  expect(await shiftsOf(page)).toEqual([]);
});

test("a shift is recorded", async ({ app, page }) => {
  await app.open();
  await shiftsOf(page);
  // The browser excuses what moves within half a second of the window's size being set, as a test
  // does at its start; so the page is moved again until that time is over.
  let down = 0;
  const moved = async () => {
    down = 300 - down;
    await page.evaluate((px) => {
      document.querySelector("main").style.paddingTop = `${px}px`;
    }, down);
    return shiftsOf(page);
  };
  await expect.poll(moved).not.toEqual([]);
});
