// Promise: who can't see the plan hears each of its items once, with its day, under headings; and paper has the days.

import { FORMULAS } from "../../pages/formula.js";
import { timesOf } from "../../pages/plan.js";
import { toPaper } from "../../support/paper.js";
import { expect, test } from "../../support/test.js";
import { findings, RULES } from "../quality/measure/axe.js";

const SUNDAY = "Sunday 29 November";
const HEADINGS = ["What it comes to", "What you wish", "What moved", "Ways out", "Hour by hour"];

/** A loaf over night. */
async function overNight(app) {
  await app.open();
  await app.formula.look(FORMULAS.loaf);
  await app.plan.startFor("16:00 tomorrow");
}

/** The bars' labels, each with whether it starts on the day after, as their order tells. */
async function labels({ plan }) {
  const drawn = await plan.drawn();
  let [before, isNext] = [0, false];
  return drawn.map(({ label }) => {
    const { start } = timesOf(label);
    isNext ||= start < before - 60;
    before = start;
    return { label, isNext };
  });
}

test("drawn, each item is one button with its day", async ({ app, page }) => {
  await overNight(app);
  const all = await labels(app);
  expect(new Set(all.map(({ isNext }) => isNext)).size).toBe(2);
  const heard = await page.getByRole("main").ariaSnapshot();
  for (const { label, isNext } of all) {
    expect.soft(/^.*?: \d\d:\d\d tomorrow to/.test(label), label).toBe(isNext);
    expect.soft(heard.split(JSON.stringify(label)).length - 1, label).toBe(1);
  }
  // The same isn't read as a list before it.
  const [{ label }] = all;
  await expect(page.getByRole("listitem").filter({ hasText: label.split(":")[0] })).toHaveCount(0);
  const overMidnight = all.find(({ label, isNext }) => !isNext && / to (about )?\d\d:\d\d tomorrow/.test(label));
  expect(overMidnight).toBeDefined();
  await app.plan.bar(overMidnight.label.split(":")[0]).click();
  await expect(app.plan.sheet).toContainText(/^.*\d\d:\d\d to (about )?\d\d:\d\d tomorrow/);
  await app.plan.close();
  expect(await findings(app, (axe) => axe.withTags(RULES))).toEqual([]);
});

test("each part has a heading, and so has each further day of the list", async ({ app, page }) => {
  await overNight(app);
  await app.plan.show("As a list");
  for (const name of HEADINGS) {
    await expect(page.getByRole("heading", { name, exact: true, level: 2 }), name).toHaveCount(1);
  }
  await expect(app.plan.list.getByRole("heading", { name: SUNDAY, level: 3 })).toHaveCount(1);
  await expect(app.plan.rows.filter({ hasText: /until (about )?\d\d:\d\d tomorrow/ })).not.toHaveCount(0);
  expect(await findings(app, (axe) => axe.withTags(RULES))).toEqual([]);
});

test("paper has the list with its days, and no history", async ({ app, page }) => {
  await overNight(app);
  await expect(app.plan.list).toBeHidden();
  await toPaper(page);
  await expect(app.plan.list).toBeVisible();
  await expect(app.plan.list.getByRole("heading", { name: SUNDAY })).toBeVisible();
  await expect(app.plan.moved).toBeHidden();
});
