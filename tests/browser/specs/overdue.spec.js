// A phone that slept past a due moment says by how much.

import { App } from "../pages/app.js";
import { FORMULAS } from "../pages/formula.js";
import { MINUTE } from "../support/clock.js";
import { START } from "../support/phone.js";
import { expect, test } from "../support/test.js";

const OVERDUE = "Overdue by 12 min: due at 09:10.";

async function withTimer(app) {
  await app.open();
  await app.formula.bake(FORMULAS.buns);
  await app.bench.setTimer("Tea", 10);
}

test("after a sleep of 22 minutes a timer of 10 is overdue by 12", async ({ app }) => {
  await withTimer(app);
  await app.clock.sleep(22 * MINUTE);
  await expect(app.alarm.title).toHaveText("Tea");
  await expect(app.alarm.text).toContainText(OVERDUE);
});

test("after the phone's clock jumped it is overdue by as much", async ({ app }) => {
  await withTimer(app);
  await app.clock.set(new Date(START.getTime() + 22 * MINUTE));
  await app.clock.pass(250);
  await expect(app.alarm.title).toHaveText("Tea");
  await expect(app.alarm.text).toContainText(OVERDUE);
});

test("a page that was closed and is opened 12 minutes too late says so", async ({
  app,
  clock,
  context,
  page,
}) => {
  await withTimer(app);
  await page.close();
  await clock.sleep(22 * MINUTE);
  const later = new App(await context.newPage(), clock);
  await later.open();
  await expect(later.alarm.title).toHaveText("Tea");
  await expect(later.alarm.text).toContainText(OVERDUE);
  await later.alarm.stop();
  await expect(later.alarm.dialog).toBeHidden();
});

test("several alarms that fell due meanwhile are told one after the other", async ({ app }) => {
  await withTimer(app);
  await app.bench.setTimer("Eggs", 15);
  await app.clock.sleep(22 * MINUTE);
  await expect(app.alarm.text).toContainText(OVERDUE);
  await app.alarm.stop();
  await expect(app.alarm.title).toHaveText("Eggs");
  await expect(app.alarm.text).toContainText("Overdue by 7 min: due at 09:15.");
  await app.alarm.stop();
  await expect(app.alarm.dialog).toBeHidden();
});
