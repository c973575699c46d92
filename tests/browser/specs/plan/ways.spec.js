// What to do when a wish can't be kept: what contradicts what, what could be wished instead, and what else helps.

import { FORMULAS } from "../../pages/formula.js";
import { minuteOf, timeOf } from "../../pages/plan.js";
import { Stepper } from "../../pages/stepper.js";
import { MINUTE, SECOND } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";
import { losses } from "../quality/measure/reflow.js";
import { recordShifts, shiftsOf } from "../quality/measure/shifts.js";

async function planned(app, table) {
  await app.open();
  await app.formula.look(FORMULAS.buns);
  await app.plan.startFor(table);
}

test("who is away when the dough needs hands reads which wishes contradict each other, and is back sooner", async ({
  app,
  context,
  server,
}) => {
  await app.install();
  await server.stop();
  await context.setOffline(true);
  await planned(app, "19:00");
  await app.clock.pass(SECOND);
  await app.plan.awayToday(minuteOf("12:00"), minuteOf("18:00"));
  const ways = await app.plan.reckoned();
  await expect(ways).toContainText(
    "These don't fit together: the table at 19:00; nobody here from 12:00 to 18:00; the plum and almond cream buns.",
  );
  await expect(app.plan.head).toContainText("later than your table at 19:00.");
  await expect(ways.getByRole("button", { name: /^Table at \d\d:\d\d( tomorrow)?$/ })).toBeVisible();
  const safe = ways.getByRole("listitem").filter({ hasText: /Table at 00:\d\d tomorrow, with time to spare/ });
  await expect(safe).toContainText("Your hands are needed at night for that.");
  // Each way says how late it still is, and all together that none does more.
  const little = (await ways.innerText()).match(/No single change makes up for even half\./g);
  expect(little).toHaveLength(1);
  const back = ways.getByRole("button", { name: /^Be back by \d\d:\d\d$/ });
  const [, time] = (await back.innerText()).match(/(\d\d:\d\d)/);
  expect(minuteOf(time)).toBeGreaterThan(minuteOf("12:00"));
  expect(minuteOf(time)).toBeLessThan(minuteOf("18:00"));

  await back.click();
  await expect(app.plan.wished).toContainText(`Nobody here from 12:00 to ${time}.`);
  await expect(app.plan.head).not.toContainText("later than");
  await expect(ways).not.toContainText("fit together");
  await app.reload();
  await expect(app.plan.wished).toContainText(`Nobody here from 12:00 to ${time}.`);

  await test.step("five minutes more would be too many", async () => {
    await app.clock.pass(SECOND);
    await app.page.getByRole("button", { name: "Away, asleep" }).click();
    await app.plan.sheet.getByRole("button", { name: /^Remove/ }).click();
    await expect(app.plan.sheet.getByRole("button", { name: /^Remove/ })).toHaveCount(0);
    await app.clock.pass(SECOND);
    await app.plan.close();
    await app.clock.pass(SECOND);
    await app.plan.awayToday(minuteOf("12:00"), minuteOf(time) + 5);
    await expect(await app.plan.reckoned()).toContainText(`nobody here from 12:00 to ${timeOf(minuteOf(time) + 5)}`);
  });
});

test("for a table that is a little too soon more yeast helps, and is what is weighed", async ({ app }) => {
  await planned(app, "16:00");
  const { ways } = app.plan;
  // Quarter of an hour by quarter of an hour, until there is no time left.
  for (let presses = 0; presses < 8 && !/later than your table/.test(await app.plan.head.innerText()); presses += 1) {
    await app.clock.pass(SECOND);
    const before = await app.plan.wished.innerText();
    await app.plan.earlier.click();
    await expect(app.plan.wished).not.toHaveText(before);
  }
  await expect(app.plan.head).toContainText("later than your table");
  await app.plan.reckoned();
  await expect(ways).toContainText(/^Ways outThese don't fit together: the table at 1\d:\d\d; the plum and almond cream buns\./);
  const way = ways.getByRole("listitem").filter({ hasText: "of yeast instead of" });
  await expect(way).toContainText(/^\d+\sg of yeast instead of 5\sg: table about 1\d:\d\d \(1\d:\d\d to 1\d:\d\d\)\./);
  const [grams] = (await way.innerText()).match(/\d+/);
  await expect(ways.getByRole("listitem").filter({ hasText: /^First rise somewhere warmer, 28\s°C, from \d\d:\d\d/ })).toHaveCount(1);
  await way.getByRole("button", { name: "Use this much yeast" }).click();
  await expect(app.plan.head).not.toContainText("later than");
  await app.turnTo("#/bench");
  await expect(app.bench.mark(new RegExp(`^instant yeast\\s*${grams}\\sg`))).toBeVisible();
});

test("where every wish is kept, what would help is reckoned only for whoever asks", async ({ app }) => {
  await planned(app, "19:00");
  const { ways } = app.plan;
  const ask = ways.getByRole("button", { name: "What would help?" });
  await expect(ways).not.toContainText("Working it out…");
  await app.clock.pass(SECOND);
  await ask.click();
  await expect(ways).toContainText("Working it out…");
  await expect(ask).toBeHidden();
  await app.plan.reckoned();
  await expect(ways).toContainText("would help enough.");
});

test("two loaves that can't stand in the fridge at once are given room there by one press", async ({ app, page }) => {
  await app.open("#/kitchen");
  const holds = new Stepper(app.kitchen.main, "Bowls or trays the fridge has room for");
  await holds.type(1);
  for (const nth of [1, 2]) {
    await app.turnTo("#/");
    await app.formula.look(FORMULAS.loaf);
    await app.plan.openTables();
    await app.plan.sheet.locator("summary", { hasText: "Another time" }).click();
    await app.plan.sheet.locator("label", { hasText: "Tomorrow" }).click();
    await app.plan.sheet.getByLabel("Time", { exact: true }).fill("12:30");
    await app.plan.sheet.getByRole("button", { name: "Start, planned for then" }).click();
    await expect(app.plan.wished, `loaf ${nth}`).toContainText("On the table at 12:30 tomorrow.");
    await app.clock.pass(SECOND);
  }
  await expect(app.plan.head).toContainText("later than your table");
  const ways = await app.plan.reckoned();
  await expect(ways).toContainText("the fridge (too full from");
  // What the button says needs no sentence beside it.
  await expect(ways).not.toContainText("Where there is room for more");
  await app.clock.pass(SECOND);
  await ways.getByRole("button", { name: "Room for 2 bowls or trays in the fridge" }).click();
  await expect(app.plan.head).not.toContainText("later than your table");
  await app.plan.reckoned();
  await expect(ways).not.toContainText("fit together");
  await app.reload();
  await expect(app.plan.head).not.toContainText("later than your table");
  await app.turnTo("#/kitchen");
  await expect(holds.value).toHaveValue("2");
});

/** A bake that has begun, for a table that it can't be ready for by minutes. */
async function late(app) {
  await app.startBake();
  await app.turnTo("#/plan");
  await app.page.getByRole("button", { name: "On the table at…" }).click();
  await app.plan.sheet.getByLabel("Time").first().fill("13:00");
  await app.plan.sheet.getByRole("button", { name: "Plan for then" }).click();
  await expect(app.plan.head).toContainText("later than your table at 13:00.");
  await app.plan.reckoned();
  await expect(app.plan.ways).toContainText(/Found at 09:0\d\.$/);
}

const minuteFound = async (ways) => minuteOf((await ways.innerText()).match(/Found at (\d\d:\d\d)/)[1]);

test("while the baker is late what was found stays, and is looked for again before it is old", async ({ app }) => {
  await late(app);
  const { ways } = app.plan;
  const tables = ways.getByRole("button", { name: /^Table at \d\d:\d\d$/ });
  const [first, ready] = [await minuteFound(ways), await app.plan.head.innerText()];
  for (let minute = 0; minute < 25; minute += 1) {
    await app.clock.pass(MINUTE);
    await expect(tables).toHaveCount(1);
    expect(await ways.innerText()).not.toContain("Working it out…");
  }
  expect(await app.plan.head.innerText()).not.toBe(ready);
  await expect.poll(() => minuteFound(ways)).toBeGreaterThan(first + 3);
  // What has been on offer for minutes may have slipped away; then what the plan can keep now is offered instead.
  await expect(async () => {
    await app.clock.pass(2 * SECOND);
    await tables.click({ timeout: 500 });
    await app.clock.pass(SECOND);
    await expect(app.plan.wished).toContainText(/On the table at 1[56]:\d\d\./, { timeout: 50 });
  }).toPass();
  await expect(app.plan.head).not.toContainText("later than your table");
});

test("under a finger nothing changes its place, and what it was on for too long isn't asked for", async ({
  app,
  page,
}) => {
  await late(app);
  const { ways } = app.plan;
  const table = ways.getByRole("button", { name: /^Table at \d\d:\d\d$/ });
  await table.scrollIntoViewIfNeeded();
  const said = await table.innerText();
  const first = await minuteFound(ways);
  await table.hover();
  await page.mouse.down();
  for (let minute = 0; minute < 30; minute += 1) await app.clock.pass(MINUTE);
  await expect(table).toHaveText(said);
  expect(await minuteFound(ways)).toBe(first);
  await table.hover();
  await page.mouse.up();
  await expect(async () => {
    await app.clock.pass(SECOND / 10);
    await expect(ways.getByRole("alert").filter({ hasText: "The plan has moved" })).toBeVisible({ timeout: 50 });
  }).toPass();
  await expect(app.plan.wished).toContainText("On the table at 13:00.");

  await app.clock.pass(MINUTE);
  await expect.poll(() => minuteFound(ways)).toBeGreaterThan(first + 20);
  await expect(ways).not.toContainText("The plan has moved");
});

for (const [width, height] of [
  [390, 844],
  [844, 390],
  [320, 640],
]) {
  test(`on ${width} × ${height} nothing is lost of the ways out, and nothing in sight moves for them`, async ({
    app,
    context,
    page,
  }) => {
    await recordShifts(context);
    await page.setViewportSize({ width, height });
    await planned(app, "19:00");
    await app.clock.pass(SECOND);
    await app.plan.awayToday(minuteOf("12:00"), minuteOf("18:00"));
    await app.plan.reckoned();
    await app.reload();
    await expect(app.plan.head).toContainText("later than");
    await shiftsOf(page);
    await app.plan.reckoned();
    await expect(app.plan.ways).toContainText("don't fit together:");
    expect.soft(await shiftsOf(page)).toEqual([]);
    expect.soft(await losses(page)).toEqual([]);
  });
}
