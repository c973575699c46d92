// Alarms: at their moment, until they are heard, by every means the phone has.

import { FORMULAS } from "../pages/formula.js";
import { MINUTE, SECOND } from "../support/clock.js";
import { takeUp, withTimer } from "../support/mid-bake.js";
import { ringing, setHidden, takeSound, vibrations } from "../support/senses.js";
import { secondBench, tab } from "../support/tabs.js";
import { expect, test } from "../support/test.js";

const NO_SOUND = "No sound until you touch the screen.";

/** Where everything on the Bench stands that is read or pressed. */
function placesOnBench(app) {
  return app.bench.main.locator("button, a, summary, h1, .asked-title").evaluateAll((all) =>
    all.map((element) => {
      const { x, y, width, height } = element.getBoundingClientRect();
      return [element.textContent, x, y, width, height];
    }),
  );
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
  await takeUp(app, "Mix the dough");
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

test("it shakes the phone again and again, longer each time, until it is heard", async ({
  app,
  page,
}) => {
  await withTimer(app);
  await app.clock.pass(10 * MINUTE);
  await app.clock.pass(30 * SECOND);
  const shaken = (await vibrations(page)).filter((pattern) => pattern !== 0);
  expect(shaken.length).toBeGreaterThanOrEqual(6);
  const lengths = shaken.map((pattern) => pattern.reduce((sum, ms) => sum + ms));
  expect(lengths).toEqual([...lengths].sort((one, other) => one - other));
  expect(lengths.at(-1)).toBeGreaterThan(2 * lengths[0]);

  await app.alarm.stop();
  await expect.poll(async () => (await vibrations(page)).at(-1)).toBe(0);
  const { length } = await vibrations(page);
  await app.clock.pass(MINUTE);
  expect((await vibrations(page)).length).toBe(length);
});

test("a double tap on stop leaves the next alarm unheard", async ({ app, page }) => {
  await withTimer(app);
  await app.bench.setTimer("Eggs", 10);
  await app.clock.pass(11 * MINUTE);
  await expect(app.alarm.title).toHaveText("Tea");
  await app.alarm.stopButton.click();
  await expect(app.alarm.title).toHaveText("Eggs");
  await app.alarm.stopButton.click();
  await page.keyboard.press("Escape");
  await app.clock.pass(399);
  await app.alarm.stopButton.click();
  await app.clock.pass(SECOND);
  await expect(app.alarm.title).toHaveText("Eggs");
  expect(await ringing(page)).toBe(1);
  await app.alarm.stop();
  await expect(app.alarm.dialog).toBeHidden();
});

test("sound that a call took away comes back with the baker, without a tap", async ({ app, page }) => {
  await withTimer(app);
  await expect(app.bench.honestLine).toBeHidden();
  const places = await placesOnBench(app);
  await takeSound(page);
  await expect(app.bench.honestLine).toHaveText(NO_SOUND);
  // A finger on its way to a button still finds it there.
  expect(await placesOnBench(app)).toEqual(places);
  await setHidden(page, true);
  await app.clock.pass(SECOND);
  await setHidden(page, false);
  await expect(app.bench.honestLine).toBeHidden();
  await app.clock.pass(10 * MINUTE);
  expect(await ringing(page)).toBe(1);
});

test("sound that a call took away is asked for again when an alarm starts", async ({ app, page }) => {
  await withTimer(app);
  await takeSound(page);
  await app.clock.pass(10 * MINUTE);
  await expect.poll(() => ringing(page)).toBe(1);
});

test("while the sound waits for a tap or the screen may go dark, the Bench says so", async ({
  app,
  page,
}) => {
  await withTimer(app);
  await page.addInitScript(() => {
    const no = () => Promise.reject(new DOMException("low battery", "NotAllowedError"));
    Object.defineProperty(navigator, "wakeLock", { value: { request: no } });
  });
  await app.reload();
  await expect(app.bench.honestLine).toHaveText(NO_SOUND);

  await test.step("it lies over nothing that is pressed, and can be read", async () => {
    const line = await app.bench.honestLine.boundingBox();
    for (const button of await app.bench.main.locator(".act button:visible").all()) {
      const box = await button.boundingBox();
      expect(line.y + line.height <= box.y || line.x + line.width <= box.x).toBe(true);
    }
    const { height, width } = page.viewportSize();
    expect(line.y).toBeGreaterThan(0);
    expect(line.y + line.height).toBeLessThan(height);
    expect(line.x + line.width).toBeLessThanOrEqual(width);
  });

  await app.bench.title.click();
  await expect(app.bench.honestLine).toHaveText("Keep the screen on: this phone won't.");
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

test("of two tabs only the one in sight rings, and the other takes over when it closes", async ({
  app,
  clock,
  context,
  page,
}) => {
  await withTimer(app);
  const second = await secondBench(context, clock);
  await setHidden(second.page, true);
  await clock.pass(10 * MINUTE);
  await expect(app.alarm.title).toHaveText("Tea");
  await expect(second.alarm.title).toHaveText("Tea");
  expect(await ringing(page)).toBe(1);
  expect(await ringing(second.page)).toBe(0);

  await page.close();
  await expect.poll(() => ringing(second.page)).toBe(1);
});

test("the tab in sight rings even if another leads, which may be frozen", async ({
  app,
  clock,
  context,
  page,
}) => {
  await withTimer(app);
  const second = await secondBench(context, clock);
  await setHidden(page, true);
  await clock.pass(10 * MINUTE);
  await expect.poll(() => ringing(second.page)).toBe(1);
  await expect.poll(() => ringing(page)).toBe(0);

  await test.step("and so does the first when the baker turns back to it", async () => {
    await setHidden(second.page, true);
    await clock.pass(SECOND);
    await setHidden(page, false);
    await expect.poll(() => ringing(page)).toBe(1);
    await expect.poll(() => ringing(second.page)).toBe(0);
  });
});

for (const [how, locks] of [
  ["has no", "absent"],
  ["refuses", "refusing"],
]) {
  test(`a browser that ${how} locks between tabs rings all the same`, async ({ app, page }) => {
    await page.addInitScript((locks) => {
      const request = () => Promise.reject(new DOMException("not here", "SecurityError"));
      const value = locks === "absent" ? undefined : { request };
      Object.defineProperty(navigator, "locks", { value });
    }, locks);
    await withTimer(app);
    await app.clock.pass(10 * MINUTE);
    await expect(app.alarm.title).toHaveText("Tea");
    await expect.poll(() => ringing(page)).toBe(1);
  });
}

test("an alarm that is heard in one tab stops in the other", async ({ app, clock, context, page }) => {
  await withTimer(app);
  const second = await tab(context, clock);
  await second.open("#/bench");
  await clock.pass(10 * MINUTE);
  await second.alarm.stop();
  await expect(app.alarm.dialog).toBeHidden();
  await expect.poll(() => ringing(page)).toBe(0);
});
