// Promise: a plan never puts hands into the night without a word, and when the baker sleeps is said once.

import { FORMULAS } from "../../pages/formula.js";
import { minuteOf, timesOf } from "../../pages/plan.js";
import { HOUR, MINUTE, SECOND } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";

const NEEDED = "Your hands are needed at night for that.";
const PLANNED = "Your hands are planned at night";

/** One of the tables that are offered, with what is said of it. */
function offer({ page, plan }, table) {
  const button = page.getByRole("button", { name: table, exact: true });
  return plan.sheet.getByRole("listitem").filter({ has: button });
}

/** The names of hands' work that falls into the night, as it is drawn. */
async function atNight({ plan }, bed, up) {
  const sleeps = (minute) => minute % (24 * 60) >= minuteOf(bed) || minute % (24 * 60) < minuteOf(up);
  const hands = (await plan.drawn()).filter((one) => one.hands);
  expect(hands.length).toBeGreaterThan(10);
  return hands.map(({ label }) => label).filter((label) => sleeps(timesOf(label).start));
}

test("a table that takes night work says so before and after, and one press keeps the night free", async ({ app, page }) => {
  const { clock, plan } = app;
  await app.open();
  await app.formula.look(FORMULAS.buns);
  await plan.openTables();
  await expect(offer(app, "19:00")).not.toContainText(NEEDED);
  await expect(offer(app, "08:00 tomorrow")).toContainText(NEEDED);
  await plan.close();

  await plan.startFor("08:00 tomorrow");
  await expect(plan.head).toContainText(new RegExp(`${PLANNED}: from \\d\\d:\\d\\d( tomorrow)? to \\d\\d:\\d\\d\\.`));
  expect(await atNight(app, "23:00", "06:30")).not.toEqual([]);
  await clock.pass(SECOND);
  await page.getByRole("button", { name: "Add the nights, 23:00 to 06:30" }).click();
  await expect(plan.head).not.toContainText(PLANNED);
  await expect(plan.wished).toContainText("Nobody here from 23:00 to 06:30 in the night to Sunday.");
  expect(await atNight(app, "23:00", "06:30")).toEqual([]);
  await expect(plan.head).toContainText("before your table at 08:00 tomorrow");
});

test("a baker who says at the tables when the nights are has them counted in the plan that is chosen", async ({ app }) => {
  const { plan } = app;
  await app.open();
  await app.formula.look(FORMULAS.buns);
  await plan.openTables();
  await plan.sheet.getByRole("button", { name: "Add the nights, 23:00 to 06:30" }).click();
  await expect(plan.sheet).not.toContainText(NEEDED);
  await plan.sheet.getByRole("button", { name: "08:00 tomorrow", exact: true }).click();
  await expect(plan.bars.first()).toBeVisible();
  await expect(plan.wished).toContainText("Nobody here from 23:00 to 06:30 in the night to Sunday.");
  expect(await atNight(app, "23:00", "06:30")).toEqual([]);
});

test("bed and rising times are said once, and count for every night up to the last table", async ({ app, page }) => {
  const { clock, plan } = app;
  const asleep = () => page.getByRole("button", { name: "Away, asleep" }).click();
  await app.open();
  await app.formula.look(FORMULAS.braid);
  await plan.startFor("12:30 tomorrow");
  await clock.pass(SECOND);
  await asleep();
  await plan.sheet.getByLabel("From", { exact: true }).last().fill("22:00");
  await plan.sheet.getByLabel("To", { exact: true }).last().fill("07:00");
  await plan.sheet.getByRole("button", { name: "Add the nights until the table" }).click();
  await expect(plan.sheet).toContainText("You sleep from 22:00 to 07:00: that counts for every plan with a table.");
  await plan.close();
  await expect(plan.wished).toContainText("Nobody here from 22:00 to 07:00 in the night to Sunday.");
  await app.reload();

  await test.step("a bread for a later day has the nights before it, unasked", async () => {
    await app.turnTo("#/");
    await app.formula.look(FORMULAS.buns);
    await plan.openTables();
    await plan.sheet.locator("summary", { hasText: "Another time" }).click();
    await plan.sheet.locator("label", { hasText: "Monday" }).click();
    await plan.sheet.getByLabel("Time", { exact: true }).fill("12:30");
    await expect(plan.sheet).not.toContainText(NEEDED);
    await plan.sheet.getByRole("button", { name: "Start, planned for then" }).click();
    await expect(plan.wished).toContainText("Nobody here from 22:00 to 07:00 in the nights to Sunday and Monday.");
    expect(await atNight(app, "22:00", "07:00")).toEqual([]);
    await expect(plan.head).not.toContainText(PLANNED);
  });

  await test.step("who is up in one of them has it taken away, and no later table brings it back", async () => {
    await clock.pass(SECOND);
    await asleep();
    await plan.sheet.getByRole("button", { name: "Remove 22:00 to 07:00 in the night to Sunday" }).click();
    await expect(plan.sheet.getByRole("button", { name: /^Remove/ })).toHaveCount(1);
    await plan.close();
    await plan.later.click();
    await expect(plan.wished).toContainText("12:45 on Monday");
    await expect(plan.wished).toContainText("Nobody here from 22:00 to 07:00 in the night to Monday.");
  });

  await test.step("the habit can be forgotten", async () => {
    await clock.pass(SECOND);
    await asleep();
    await plan.sheet.getByRole("button", { name: "Not in later plans" }).click();
    await expect(plan.sheet).not.toContainText("You sleep from");
    await app.reload();
    await asleep();
    await expect(plan.sheet.getByLabel("From", { exact: true }).last()).toHaveValue("23:00");
  });
});

test("once the nights are known, a table that can't be kept by who sleeps says what can", async ({ app }) => {
  const { plan } = app;
  await app.open();
  await app.formula.look(FORMULAS.loaf);
  await plan.openTables();
  await plan.sheet.getByRole("button", { name: "Add the nights, 23:00 to 06:30" }).click();
  const late = plan.sheet.getByRole("listitem").filter({ hasText: /Not before about \d\d:\d\d tomorrow with your nights\./ });
  await expect(plan.sheet).not.toContainText(NEEDED);
  await expect(late.first()).toBeVisible();
  const [, soonest] = (await late.first().innerText()).match(/about (\d\d:\d\d)/);
  await late.first().getByRole("button").click();
  await expect(plan.head).toContainText("later than your table");
  expect(Math.abs((await plan.ready()) - minuteOf(soonest))).toBeLessThanOrEqual(5);
});

test("another time is of the first day on which it can be, and a time away begins on this one", async ({ app, page }) => {
  const { clock, plan } = app;
  await app.open();
  await app.formula.look(FORMULAS.buns);
  await plan.openTables();
  await plan.sheet.locator("summary", { hasText: "Another time" }).click();
  await expect(plan.sheet.getByRole("radio", { name: "Today" })).toBeChecked();
  await plan.close();
  await clock.sleep(14 * HOUR + 10 * MINUTE);
  await app.formula.bake(FORMULAS.buns);
  await plan.turnTo();
  await page.getByRole("button", { name: "Away, asleep" }).click();
  await expect(plan.sheet.getByRole("radio", { name: "Today" })).toBeChecked();
  await expect(plan.sheet.getByLabel("From", { exact: true }).first()).toHaveValue("23:15");
  await expect(plan.sheet.getByLabel("To", { exact: true }).first()).toHaveValue("00:15");
});
