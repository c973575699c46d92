// Promise: a night that was asked for is quiet but for what burns or spoils; all else stands on the screen, and calls as
// one in the morning.

import { FORMULAS } from "../../pages/formula.js";
import { minuteOf } from "../../pages/plan.js";
import { MINUTE, SECOND } from "../../support/clock.js";
import { takeUp } from "../../support/mid-bake.js";
import { ringing } from "../../support/senses.js";
import { expect, test } from "../../support/test.js";

const DAY = 24 * 60;

/** Sleeps until a time of day, the next there is. */
async function sleepUntil(app, time) {
  const now = new Date(await app.now());
  const minute = now.getUTCHours() * 60 + now.getUTCMinutes();
  const ahead = ((minuteOf(time) - minute + DAY) % DAY) * MINUTE - now.getUTCSeconds() * SECOND;
  await app.clock.sleep(ahead);
}

async function addNights({ clock, page, plan }) {
  await clock.pass(SECOND);
  await page.getByRole("button", { name: "Away, asleep" }).click();
  await expect(plan.sheet).toContainText("An oven that is on, food that could spoil and your own timers ring all the same");
  await plan.sheet.getByLabel("From", { exact: true }).last().fill("22:00");
  await plan.sheet.getByRole("button", { name: /^Add the nights until/ }).click();
  await expect(plan.sheet.getByRole("button", { name: /^Remove/ }).first()).toBeVisible();
  await plan.close();
}

test("a loaf in the fridge wakes nobody, stands on the screen, and calls once in the morning", async ({ app, page }) => {
  await takeUp(app, "Night in fridge", { asks: "wait", formula: FORMULAS.loaf });
  await app.plan.turnTo();
  await addNights(app);
  await app.turnTo("#/bench");
  await sleepUntil(app, "23:50");
  expect(await app.alarm.rings()).toBe(false);
  expect(await ringing(page)).toBe(0);
  await expect(app.bench.title).toHaveText("Night in fridge");
  await expect(app.bench.instruction).toHaveText("Look at the dough.");
  await app.reload();
  expect(await app.alarm.rings()).toBe(false);

  await test.step("a timer that was set by hand rings at any hour", async () => {
    await app.clock.pass(SECOND);
    await app.bench.setTimer("Tea", 10);
    await app.clock.sleep(10 * MINUTE);
    expect(await app.alarm.stopAll()).toEqual(["Tea"]);
  });

  await sleepUntil(app, "06:29");
  expect(await app.alarm.rings()).toBe(false);
  await app.reload();
  expect(await app.alarm.rings()).toBe(false);
  await app.clock.pass(MINUTE + SECOND);
  await expect(app.alarm.title).toHaveText("Night in fridge: look now");
  await expect(app.alarm.text).toContainText("Due at 06:30.");
  await app.clock.pass(SECOND);
  expect(await app.alarm.stopAll()).toEqual(["Night in fridge: look now"]);
  await app.reload();
  await app.clock.pass(MINUTE);
  expect(await app.alarm.rings()).toBe(false);
});

test("who looked before the night is called to go on when it ends", async ({ app, page }) => {
  await takeUp(app, "Night in fridge", { asks: "wait", formula: FORMULAS.loaf });
  await sleepUntil(app, "23:40");
  expect(await app.alarm.stopAll()).toEqual(["Night in fridge: look now"]);
  await app.plan.turnTo();
  await app.clock.pass(SECOND);
  await page.getByRole("button", { name: "Away, asleep" }).click();
  // In an hour it is another day, which is what the sheet proposes.
  await app.plan.sheet.locator("label", { hasText: "Today" }).first().click();
  await app.plan.sheet.getByLabel("From", { exact: true }).first().fill("23:42");
  await app.plan.sheet.getByLabel("To", { exact: true }).first().fill("06:30");
  await app.plan.sheet.getByRole("button", { name: "Add this time" }).click();
  await expect(app.plan.sheet.getByRole("button", { name: /^Remove/ })).toHaveCount(1);
  await app.plan.close();
  expect((await app.plan.times("Turn out, weigh")).start).toBe(minuteOf("06:30"));
  await sleepUntil(app, "06:29");
  expect(await app.alarm.rings()).toBe(false);
  await app.clock.pass(MINUTE + SECOND);
  expect(await app.alarm.stopAll()).toEqual(["Time to go on"]);
  await app.reload();
  await app.clock.pass(MINUTE);
  expect(await app.alarm.rings()).toBe(false);
});

test("in a night an oven that is on rings", async ({ app, page }) => {
  await takeUp(app, "Bake", { asks: "wait", formula: FORMULAS.braid });
  await app.plan.turnTo();
  const now = new Date(await app.now());
  const minute = now.getUTCHours() * 60 + now.getUTCMinutes();
  await app.clock.pass(SECOND);
  await app.plan.awayToday(minute + 5, minute + 240);
  await app.clock.sleep(40 * MINUTE);
  await expect(app.alarm.title).toHaveText("Bake: look now");
  expect(await ringing(page)).toBe(1);
});
