// Timers that the baker sets by hand.

import { MINUTE, SECOND } from "../support/clock.js";
import { expect, test } from "../support/test.js";

test("several timers set by hand run side by side, and each rings under its name", async ({ app }) => {
  await app.startBake();
  await app.bench.setTimer("Tea", 4);
  await app.bench.setTimer("Eggs", 7);
  await app.bench.setTimer("Laundry", 45);
  // Half a second passes before each is set.
  await expect(app.bench.clockOf(/^Tea/)).toHaveText("3:59");
  await expect(app.bench.clockOf(/^Eggs/)).toHaveText("7:00");
  await expect(app.bench.clockOf(/^Laundry/)).toHaveText("45min");
  await app.clock.pass(4 * MINUTE - SECOND);
  await expect(app.alarm.title).toHaveText("Tea");
  await app.alarm.stop();
  await expect(app.bench.card(/^Tea/)).toHaveCount(0);
  await expect(app.bench.clockOf(/^Eggs/)).toHaveText("3:01");
  await app.clock.pass(3 * MINUTE + SECOND);
  await expect(app.alarm.title).toHaveText("Eggs");
});

test("a timer that was put away doesn't ring", async ({ app, page }) => {
  await app.startBake();
  await app.bench.setTimer("Tea", 4);
  await app.bench.setTimer("Eggs", 7);
  await app.bench.bar.getByRole("button", { name: "Timer" }).click();
  await app.bench.sheet.getByRole("button", { name: "Stop Tea" }).click();
  await expect(app.bench.sheet.getByRole("button", { name: "Stop Tea" })).toHaveCount(0);
  await page.keyboard.press("Escape");
  await expect(app.bench.card(/^Tea/)).toHaveCount(0);
  await app.clock.pass(5 * MINUTE);
  expect(await app.alarm.rings()).toBe(false);
  await app.clock.pass(2 * MINUTE);
  await expect(app.alarm.title).toHaveText("Eggs");
});
