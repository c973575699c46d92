// A phone that slept past a due moment says by how much.

import { FORMULAS } from "../pages/formula.js";
import { MINUTE, SECOND } from "../support/clock.js";
import { withTimer } from "../support/mid-bake.js";
import { START } from "../support/phone.js";
import { ringing } from "../support/senses.js";
import { tab } from "../support/tabs.js";
import { expect, test } from "../support/test.js";

const OVERDUE = "Overdue by 12 min: due at 09:10.";

test("after a sleep of 22 minutes a timer of 10 is overdue by 12", async ({ app }) => {
  await withTimer(app);
  await app.clock.sleep(22 * MINUTE);
  await expect(app.alarm.title).toHaveText("Tea");
  await expect(app.alarm.text).toContainText(OVERDUE);
});

/** Somebody sets the phone's clock, or it sets itself. */
async function setClock(app, minutes) {
  await app.clock.set(new Date((await app.now()) + minutes * MINUTE));
  await app.clock.pass(SECOND);
}

function question(page) {
  return page.getByRole("dialog", { name: "Was the clock changed?" });
}

test("a clock that jumped forward: if that time passed, it is overdue by as much", async ({
  app,
  page,
}) => {
  await withTimer(app);
  await setClock(app, 22);
  await expect(question(page)).toContainText("jumped forward by 22 min");
  // It rings meanwhile: too early is better than too late.
  expect(await ringing(page)).toBe(1);
  await expect(app.alarm.dialog).toBeHidden();
  await page.getByRole("button", { name: "Keep the times of day" }).click();
  await expect(question(page)).toBeHidden();
  await expect(app.alarm.title).toHaveText("Tea");
  await expect(app.alarm.text).toContainText(OVERDUE);
});

test("a clock that was put forward: the time that is left stays", async ({ app, page }) => {
  await withTimer(app);
  await setClock(app, 60);
  await page.getByRole("button", { name: "Keep the time left" }).click();
  await expect(question(page)).toBeHidden();
  await expect(app.bench.clockOf(/^Tea/)).toHaveText("9:59");
  await app.clock.pass(SECOND);
  await expect(app.alarm.dialog).toBeHidden();
  expect(await ringing(page)).toBe(0);

  await test.step("after a reload too, and it rings when those minutes are over", async () => {
    await app.reload();
    await app.clock.pass(9 * MINUTE + 57 * SECOND);
    expect(await app.alarm.rings()).toBe(false);
    await app.clock.pass(SECOND);
    await expect(app.alarm.title).toHaveText("Tea");
    await expect(app.alarm.text).toContainText("Due at 10:10.");
  });
});

test("a clock that was put back: the time that is left stays, and the bake goes on", async ({
  app,
  page,
}) => {
  await withTimer(app);
  await setClock(app, -60);
  await expect(question(page)).toContainText("went back by 1 h");
  await page.getByRole("button", { name: "Keep the time left" }).click();
  await expect(app.bench.clockOf(/^Tea/)).toHaveText("9:59");
  await app.bench.press();
  await expect(app.bench.title).not.toHaveText("Gather");
  await app.clock.pass(9 * MINUTE + 59 * SECOND);
  await expect(app.alarm.text).toContainText("Due at 08:10.");
});

test("a clock that is put right by seconds, or while nothing bakes, is no question", async ({
  app,
  page,
}) => {
  await app.open();
  await setClock(app, 60);
  await expect(question(page)).toBeHidden();
  await app.formula.bake(FORMULAS.buns);
  await setClock(app, 0.9);
  await expect(question(page)).toBeHidden();
});

test("of two tabs, the answer in one is enough", async ({ app, clock, context, page }) => {
  await withTimer(app);
  const second = await tab(context, clock);
  await second.open("#/bench");
  await setClock(app, 60);
  await expect(question(page)).toBeVisible();
  await expect(question(second.page)).toBeVisible();
  await page.getByRole("button", { name: "Keep the time left" }).click();
  await expect(app.bench.clockOf(/^Tea/)).toHaveText("9:59");
  await expect(second.bench.clockOf(/^Tea/)).toHaveText("9:59");
  await clock.pass(SECOND);
  await expect(question(second.page)).toBeHidden();
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
  const later = await tab(context, clock);
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

test("a clock that was put back while the page was closed: it is asked at the next start", async ({
  app,
  clock,
  context,
  page,
}) => {
  await withTimer(app);
  await page.close();
  await clock.set(new Date(new Date(START).getTime() - 60 * MINUTE));
  const later = await tab(context, clock);
  await later.open("#/bench");
  await expect(question(later.page)).toContainText("went back by at least 1 h");

  await test.step("without an answer it is asked again", async () => {
    await later.reload();
    await expect(question(later.page)).toContainText("went back by at least 1 h");
  });

  await test.step("the time that was left stays, and the timer rings when it is over", async () => {
    await later.page.getByRole("button", { name: "Keep the time left" }).click();
    await expect(question(later.page)).toBeHidden();
    await expect(later.bench.clockOf(/^Tea/)).toHaveText(/^\s*(10min|9:59)$/);
    await later.reload();
    await expect(question(later.page)).toBeHidden();
    await clock.pass(9 * MINUTE + 58 * SECOND);
    expect(await later.alarm.rings()).toBe(false);
    await clock.pass(2 * SECOND);
    await expect(later.alarm.title).toHaveText("Tea");
  });
});

test("a log a few seconds ahead of the clock, or of a bake that is over, is no question at the start", async ({
  app,
  page,
}) => {
  await withTimer(app);
  await app.clock.set(new Date((await app.now()) - 50 * SECOND));
  await app.reload();
  await expect(question(page)).toBeHidden();
  await app.bench.giveUp();
  await app.clock.set(new Date((await app.now()) - 60 * MINUTE));
  await app.reload();
  await expect(question(page)).toBeHidden();
});
