// Promise: an evening before a night has time to spare, and who is late beyond it is told what to put away and how the
// table is kept.

import { FORMULAS } from "../../pages/formula.js";
import { minuteOf, timesOf } from "../../pages/plan.js";
import { MINUTE, SECOND } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";

/** When the hands are done in the evening, in minutes of the day. */
async function doneBy({ plan }, bed) {
  const hands = (await plan.drawn()).filter((one) => one.hands).map(({ label }) => timesOf(label));
  const evening = hands.filter(({ start }) => start % (24 * 60) > 12 * 60);
  expect(evening.length).toBeGreaterThan(5);
  const last = Math.max(...evening.map(({ end }) => end));
  expect(last).toBeLessThan(minuteOf(bed));
  return last;
}

test("hands are done some time before bed, and weighed milk and egg aren't left out over a night", async ({ app, page }) => {
  const { bench, clock, plan } = app;
  await app.open();
  await app.formula.look(FORMULAS.braid);
  await plan.openTables();
  await plan.sheet.getByRole("button", { name: "Add the nights, 23:00 to 06:30" }).click();
  await plan.sheet.getByRole("button", { name: "08:00 tomorrow", exact: true }).click();
  await expect(plan.bars.first()).toBeVisible();

  const told = /Your hands are done (\d+)\smin before 23:00, when nobody is here any more: what comes before that may take that/;
  await expect(plan.head).toContainText(told);
  const [, spare] = (await plan.head.innerText()).match(told);
  expect(Number(spare)).toBeGreaterThanOrEqual(40);
  expect(minuteOf("23:00") - (await doneBy(app, "23:00"))).toBe(Number(spare));

  const begins = await plan.begins();
  await test.step("who is late within that has the table as it was", async () => {
    await clock.sleep((begins - minuteOf("09:00")) * MINUTE);
    expect(await app.alarm.stopAll()).toEqual(["Time to begin"]);
    await app.turnTo("#/bench");
    await expect(bench.title).toHaveText("Gather");
    // Ten minutes more than it likely takes.
    await clock.sleep(24 * MINUTE);
    await bench.press();
    await expect(bench.title).toHaveText("Mix the dough");
    await expect(bench.main).not.toContainText("Until then the");
    await plan.turnTo();
    await expect(plan.head).toContainText("before your table at 08:00 tomorrow");
    await expect(plan.head).not.toContainText("Until then the");
  });

  await test.step("who is late beyond it is told", async () => {
    await clock.sleep(90 * MINUTE);
    await app.alarm.stopAll();
    await clock.pass(SECOND);
    await app.turnTo("#/bench");
    const away = "Until then the whole milk and beaten egg belong in the fridge.";
    await expect(bench.main).toContainText(away);
    await expect(bench.main).toContainText("into the fridge within two hours");
    await expect(bench.main).not.toContainText("no hurry");
    await plan.turnTo();
    await expect(plan.head).toContainText(away);
    await plan.reckoned();
    await expect(plan.ways.getByRole("button", { name: /^Don't leave before 23:\d\d$/ })).toBeVisible();
    await app.turnTo("#/");
    await expect(page.getByRole("main")).toContainText(away);
  });
});
