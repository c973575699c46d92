// A step fixed to a time: it stays there, calls then, and is told where it can't be or has passed.

import { minuteOf, timeOf } from "../../pages/plan.js";
import { MINUTE } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";

test("a step that was fixed stays at its time, whatever is shifted, until it is free again", async ({ app }) => {
  const { plan } = app;
  await plan.bunsForSeven();
  const was = (await plan.times("Mix the dough")).start;
  const fixed = was + 40;
  await plan.fix("Mix the dough", fixed);
  const bar = plan.bar("Mix the dough");
  await expect(bar).toHaveAttribute("aria-label", new RegExp(`: ${timeOf(fixed)} to .*fixed to ${timeOf(fixed)}`));
  await expect(bar).toHaveAttribute("data-fixed", "true");
  // It has moved among its neighbours, and whoever uses keys stands where they were.
  await expect(bar).toBeFocused();
  await plan.later.click();
  await expect(plan.wished).toContainText("19:15");
  expect((await plan.times("Mix the dough")).start).toBe(fixed);
  await app.reload();
  expect((await plan.times("Mix the dough")).start).toBe(fixed);

  await bar.click();
  await expect(plan.sheet).toContainText("It starts then because you fixed it.");
  await plan.sheet.getByRole("button", { name: "Whenever it can" }).click();
  await expect(bar).toHaveAttribute("data-fixed", "false");
  await expect(plan.head).not.toContainText("later than is good");
});

test("a step that can't start when it is to be fixed stays, and the soonest is said and can be pressed", async ({ app }) => {
  const { plan } = app;
  await plan.bunsForSeven();
  const bar = plan.bar("Bake");
  const before = await plan.drawn();
  await bar.click();
  await plan.sheet.getByLabel("Start it at").fill("10:00");
  await plan.sheet.getByRole("button", { name: "Fix it there" }).click();
  const said = plan.sheet.getByRole("alert");
  await expect(said).toHaveText(/^Bake can't be at 10:00; the soonest is 1\d:\d\d\.$/);
  const [, soonest] = (await said.innerText()).match(/is (\d\d:\d\d)/);
  // Nothing has changed by that.
  const labels = (bars) => bars.map(({ label }) => label);
  expect(labels(await plan.drawn())).toEqual(labels(before));
  await plan.sheet.getByRole("button", { name: `Fix it at ${soonest}` }).click();
  await expect(plan.sheet).toHaveCount(0);
  await expect(bar).toHaveAttribute("data-fixed", "true");
  await expect(bar).toHaveAttribute("aria-label", new RegExp(`: ${soonest} to `));
  await expect(plan.head).not.toContainText("later than you fixed it");
});

test("a step that was fixed calls at its moment, and once that has passed says so until it is fixed anew or let go", async ({
  app,
  page,
}) => {
  const { plan } = app;
  await plan.bunsForSeven();
  const fixed = (await plan.times("Mix the dough")).start + 40;
  const before = await plan.begins();
  await plan.fix("Mix the dough", fixed);
  // What comes before it begins later as well, once that is planned.
  await expect.poll(() => plan.begins()).not.toBe(before);
  const begins = await plan.begins();
  await app.clock.sleep((begins - minuteOf("09:00")) * MINUTE);
  await app.alarm.stop();
  await app.clock.sleep((fixed - begins) * MINUTE);
  await expect(app.alarm.title).toHaveText("Mix the dough: should begin now");
  await app.alarm.stop();
  await app.clock.pass(2 * MINUTE);
  await expect(plan.head).toContainText(`Mix the dough was fixed to ${timeOf(fixed)}, and that has passed.`);
  const bar = plan.bar("Mix the dough");
  await expect(bar).toHaveAttribute("data-fixed", "false");
  await expect(bar).toHaveAttribute("aria-label", new RegExp(`was fixed to ${timeOf(fixed)}, and that has passed`));
  const anew = page.getByRole("button", { name: "Choose another time, or none" });

  await test.step("fixed anew, it calls anew", async () => {
    // The time that is offered is one at which it can be, though nothing has been gathered yet.
    await anew.click();
    await plan.sheet.getByRole("button", { name: "Fix it there" }).click();
    await expect(anew).toHaveCount(0);
    await expect(bar).toHaveAttribute("data-fixed", "true");
    const { start } = await plan.times("Mix the dough");
    expect(start).toBeGreaterThan(fixed + 2);
    await app.clock.sleep((start - fixed - 2) * MINUTE);
    await expect(app.alarm.title).toHaveText("Mix the dough: should begin now");
    await app.alarm.stop();
  });

  await app.clock.pass(2 * MINUTE);
  await anew.click();
  await plan.sheet.getByRole("button", { name: "Whenever it can" }).click();
  await expect(plan.head).not.toContainText("was fixed to");
});

test("a step is fixed to a time more than half a day ahead, on the day that is said", async ({ app }) => {
  const { plan } = app;
  await app.startBake();
  await app.turnTo("#/plan");
  await expect(plan.bars.first()).toBeVisible();
  await plan.bar("Knead").click();
  await plan.sheet.getByLabel("Start it at").fill("23:00");
  await expect(plan.sheet.getByText("Fixed there, it starts at 23:00 today.")).toBeVisible();
  await plan.sheet.getByLabel("Start it at").fill("07:30");
  await expect(plan.sheet.getByText("Fixed there, it starts at 07:30 tomorrow.")).toBeVisible();
  await plan.sheet.getByLabel("Start it at").fill("23:00");
  await plan.sheet.getByRole("button", { name: "Fix it there" }).click();
  await expect(plan.sheet).toHaveCount(0);
  await expect(plan.bar("Knead")).toHaveAttribute("data-fixed", "true");
  expect((await plan.times("Knead")).start).toBe(minuteOf("23:00"));
});
