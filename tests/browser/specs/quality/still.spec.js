// Promise: nothing moves under the baker's finger, nothing complains, nothing is asked of another
// origin.
//
// Layout shift as the W3C's Layout Instability draft measures it. What a press changes within half
// a second is not counted there either.

import { FORMULAS } from "../../pages/formula.js";
import { MINUTE } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";
import { everyPlace } from "./measure/places.js";
import { recordShifts, shiftsOf } from "./measure/shifts.js";
import { asksOf } from "./measure/walk.js";

test.beforeEach(({ context }) => recordShifts(context));

test("nothing moves while the app starts, cold and warm", async ({ app, page }) => {
  await app.install();
  expect(await shiftsOf(page), "cold").toEqual([]);
  await app.reload();
  expect(await shiftsOf(page), "warm").toEqual([]);
});

test("nothing moves on any page", async ({ app, page }) => {
  test.setTimeout(300_000);
  for await (const place of everyPlace(app)) {
    expect.soft(await shiftsOf(page), place).toEqual([]);
  }
});

test("nothing moves while clocks tick", async ({ app, page }) => {
  test.setTimeout(240_000);
  await app.open();
  await app.formula.bake(FORMULAS.buns);
  for await (const ask of asksOf(app)) {
    if (ask.title === "First rise") break;
  }
  await shiftsOf(page);
  for (let minute = 1; minute <= 30; minute += 1) {
    await app.clock.pass(MINUTE);
    expect.soft(await shiftsOf(page), `minute ${minute}`).toEqual([]);
    await app.alarm.stopAll();
  }
});

test("the console stays empty through a whole bake", async ({ app, context }) => {
  test.setTimeout(240_000);
  const said = [];
  context.on("console", (message) => {
    if (["warning", "error"].includes(message.type())) said.push(message.text());
  });
  for await (const place of everyPlace(app)) expect.soft(said.splice(0), place).toEqual([]);
});

test("a whole bake asks nothing of another origin", async ({ app, context, server }) => {
  test.setTimeout(240_000);
  const asked = new Set();
  context.on("request", (request) => asked.add(new URL(request.url()).origin));
  for await (const _ of everyPlace(app));
  asked.delete("null");
  expect([...asked]).toEqual([server.url]);
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
