// Alarms: at their moment, until they are heard, by every means the phone has.

import { App } from "../pages/app.js";
import { FORMULAS } from "../pages/formula.js";
import { Baker } from "../support/baker.js";
import { MINUTE, SECOND } from "../support/clock.js";
import { ringing, setHidden, vibrations } from "../support/senses.js";
import { expect, test } from "../support/test.js";

async function withTimer(app, minutes = 10) {
  await app.open();
  await app.formula.bake(FORMULAS.buns);
  await app.bench.setTimer("Tea", minutes);
}

/** The notifications that the service worker shows now. */
function notifications(page) {
  return page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    const shown = await registration.getNotifications();
    return shown.map(({ title, body }) => ({ title, body }));
  });
}

test("an alarm rings at its moment and not a second before", async ({ app, page }) => {
  await withTimer(app);
  await app.clock.pass(10 * MINUTE - SECOND);
  expect(await app.alarm.rings()).toBe(false);
  expect(await ringing(page)).toBe(0);
  expect(await vibrations(page)).toEqual([]);

  await app.clock.pass(SECOND);
  await expect(app.alarm.title).toHaveText("Tea");
  await expect(app.alarm.text).toContainText("Due at 09:10.");
  expect(await ringing(page)).toBe(1);
  expect(await vibrations(page)).not.toEqual([]);
});

test("the alarm of a step rings at the moment its clock comes to nought", async ({ app, page }) => {
  test.slow();
  await app.open();
  await app.formula.bake(FORMULAS.buns);
  await new Baker(app).until("Mix the dough");
  const cream = app.bench.clockOf(/^Cream cools/);
  // To the last minute in strides, and through it second by second.
  while (!(await cream.innerText()).startsWith("0:")) {
    await app.clock.pass(30 * SECOND);
    expect(await app.alarm.rings(), await cream.innerText()).toBe(false);
  }
  let clock = await cream.innerText();
  while (!(await app.alarm.rings())) {
    clock = await cream.innerText();
    expect(clock).toMatch(/^0:(0[1-9]|[1-5]\d)$/);
    await app.clock.pass(SECOND);
  }
  // The clock is drawn once a second and rounds up, so it reads 0:01 or 0:02 within a second of its end.
  expect(clock).toMatch(/^0:0[12]$/);
  await expect(app.alarm.title).toHaveText("Cream cools: look now");
  expect(await ringing(page)).toBe(1);
});

test("an alarm rings until it is heard, and then no more", async ({ app, page }) => {
  await withTimer(app);
  await app.clock.pass(10 * MINUTE);
  await expect(app.alarm.dialog).toBeVisible();
  await app.clock.pass(7 * MINUTE);
  await expect(app.alarm.dialog).toBeVisible();
  expect(await ringing(page)).toBe(1);

  await app.alarm.stop();
  await expect(app.alarm.dialog).toBeHidden();
  expect(await ringing(page)).toBe(0);
  // Nought stops the motor.
  expect((await vibrations(page)).at(-1)).toEqual(0);
  await app.clock.pass(30 * SECOND);
  await app.reload();
  expect(await app.alarm.rings()).toBe(false);
});

test("the alarm covers whatever page the baker is on", async ({ app }) => {
  await withTimer(app);
  await app.turnTo("#/kitchen");
  await expect(app.heading).toHaveText("Kitchen");
  await app.clock.pass(10 * MINUTE);
  await expect(app.alarm.title).toHaveText("Tea");
  await app.alarm.stop();
  await expect(app.heading).toHaveText("Kitchen");
});

test("of two tabs only one rings, and the other takes over when it closes", async ({
  app,
  clock,
  context,
  page,
}) => {
  await withTimer(app);
  const second = new App(await context.newPage(), clock);
  await second.open("#/bench");
  // A browser lets no tab sound that was never touched.
  await second.bench.title.click();
  await clock.pass(10 * MINUTE);
  await expect(app.alarm.title).toHaveText("Tea");
  await expect(second.alarm.title).toHaveText("Tea");
  expect(await ringing(page)).toBe(1);
  expect(await ringing(second.page)).toBe(0);

  await page.close();
  await expect.poll(() => ringing(second.page)).toBe(1);
});

test("an alarm that is heard in one tab stops in the other", async ({ app, clock, context, page }) => {
  await withTimer(app);
  const second = new App(await context.newPage(), clock);
  await second.open("#/bench");
  await clock.pass(10 * MINUTE);
  await second.alarm.stop();
  await expect(app.alarm.dialog).toBeHidden();
  await expect.poll(() => ringing(page)).toBe(0);
});

test("a hidden page shows a notification through its service worker", async ({
  app,
  baseURL,
  context,
  page,
}) => {
  await context.grantPermissions(["notifications"], { origin: baseURL });
  await app.install();
  await app.formula.bake(FORMULAS.buns);
  await app.bench.setTimer("Tea", 10);
  await setHidden(page, true);
  await app.clock.pass(10 * MINUTE - SECOND);
  expect(await notifications(page)).toEqual([]);
  await app.clock.pass(SECOND);
  // The browser's own notification service starts with its first one, slowly on a busy machine.
  await expect
    .poll(() => notifications(page), { timeout: 30_000 })
    .toEqual([{ title: "Tea", body: "The time you set is up." }]);

  await setHidden(page, false);
  await app.alarm.stop();
  await expect.poll(() => notifications(page)).toEqual([]);
});

test("a page that is seen shows no notification", async ({ app, baseURL, context, page }) => {
  await context.grantPermissions(["notifications"], { origin: baseURL });
  await app.install();
  await app.formula.bake(FORMULAS.buns);
  await app.bench.setTimer("Tea", 10);
  await app.clock.pass(10 * MINUTE);
  await expect(app.alarm.dialog).toBeVisible();
  await app.alarm.stop();
  expect(await notifications(page)).toEqual([]);
});
