// "Begin nothing before": what is planned keeps to it, and where a table can't be kept by it one press mends that.

import { minuteOf, timeOf, timesOf } from "../../pages/plan.js";
import { SECOND } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";

const starts = async (plan) => (await plan.drawn()).map(({ label }) => timesOf(label).start);

test("nothing is planned before the time that was chosen, and taken back it begins and ends as it did", async ({ app, page }) => {
  const { plan } = app;
  await plan.bunsForSeven();
  const [begins, ready] = [await plan.begins(), await plan.ready()];
  // Some of what the plan keeps for rises that take longer is left; and it is no full five minutes, which nothing may round.
  const from = 5 * Math.ceil((begins + 20) / 5) + 2;
  await plan.beginNotBefore(from);
  await expect(plan.wished).toContainText(`Nothing before ${timeOf(from)}.`);
  await expect.poll(() => plan.begins()).toBe(from);
  expect(Math.min(...(await starts(plan)))).toBe(from);
  expect(await plan.ready()).toBeGreaterThan(ready);
  await expect(plan.head).not.toContainText("later than your table");
  await app.reload();
  await expect(plan.wished).toContainText(`Nothing before ${timeOf(from)}.`);
  expect(await plan.begins()).toBe(from);

  await test.step("the sheet shows what was chosen", async () => {
    await plan.openTables();
    await plan.sheet.getByText("Begin nothing before").click();
    await expect(plan.sheet.locator("details").getByLabel("Time")).toHaveValue(timeOf(from));
    await plan.close();
  });

  await app.clock.pass(SECOND);
  await plan.beginNotBefore();
  await expect(plan.wished).not.toContainText("Nothing before");
  await expect.poll(() => plan.begins()).toBe(begins);
  // Steps in between that have time either way may stay where they were moved to.
  expect(Math.min(...(await starts(plan)))).toBe(begins);
  expect(await plan.ready()).toBe(ready);
  await app.clock.pass(SECOND);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => plan.begins()).toBe(from);
});

test("where a table can't be kept by it, an earlier beginning is offered, and one press takes it", async ({ app }) => {
  const { plan } = app;
  await plan.bunsForSeven();
  await plan.beginNotBefore(minuteOf("15:00"));
  await expect(plan.head).toContainText("later than your table at 19:00.");
  const ways = await plan.reckoned();
  await expect(ways).toContainText(
    "These don't fit together: the table at 19:00; nothing before 15:00; the plum and almond cream buns.",
  );
  const begin = ways.getByRole("button", { name: /^Begin from \d\d:\d\d on instead of 15:00$/ });
  const [, time] = (await begin.innerText()).match(/from (\d\d:\d\d)/);
  expect(minuteOf(time)).toBeGreaterThan(minuteOf("09:00"));
  expect(minuteOf(time)).toBeLessThan(minuteOf("15:00"));
  await app.clock.pass(SECOND);
  await begin.click();
  await expect(plan.wished).toContainText(`On the table at 19:00. Nothing before ${time}.`);
  await expect(plan.head).not.toContainText("later than your table");
  await expect(ways).not.toContainText("fit together");
  expect(await plan.ready()).toBeLessThanOrEqual(minuteOf("19:00"));
  expect(await plan.begins()).toBeGreaterThanOrEqual(minuteOf(time));

  await test.step("five minutes later would be too late", async () => {
    await app.clock.pass(SECOND);
    await plan.beginNotBefore(minuteOf(time) + 5);
    await expect(await plan.reckoned()).toContainText(`nothing before ${timeOf(minuteOf(time) + 5)}`);
  });
});
