// A night in the fridge that is still to come: planned by one tap, and done when its moments come.

import { readFile } from "node:fs/promises";
import { FORMULAS } from "../../pages/formula.js";
import { minuteOf, timeOf } from "../../pages/plan.js";
import { Stepper } from "../../pages/stepper.js";
import { Baker } from "../../support/baker.js";
import { readCalendar } from "../../support/calendar.js";
import { MINUTE, SECOND } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";
import { losses } from "../quality/measure/reflow.js";

const INTO = "First rise: into the fridge";
const OUT = "First rise: out of the fridge";

/** The minute of the day, where the clock shows universal time. */
async function minuteNow(app) {
  const now = new Date(await app.now());
  return now.getUTCHours() * 60 + now.getUTCMinutes();
}

/** An evening's braid for a late breakfast, with the nights in which nobody is there. */
async function planned(app) {
  await app.formula.look(FORMULAS.braid);
  await app.plan.openTables();
  await app.plan.sheet.getByRole("button", { name: "12:30 tomorrow", exact: true }).click();
  await expect(app.heading).toHaveText("Plan");
  await expect(app.plan.bars.first()).toBeVisible();
  await app.clock.pass(SECOND);
  await app.page.getByRole("button", { name: "Away, asleep" }).click();
  await app.plan.sheet.getByRole("button", { name: "Add the nights until the table" }).click();
  await expect(app.plan.sheet.getByRole("button", { name: /^Remove/ })).toHaveCount(1);
  await app.plan.close();
}

/** One tap on the way overnight. */
async function overnight(app) {
  const { ways } = app.plan;
  await app.clock.pass(SECOND);
  const help = ways.getByRole("button", { name: "What would help?" });
  if (await help.isVisible()) await help.click();
  await app.plan.reckoned();
  const way = ways.getByRole("listitem").filter({ hasText: "irst rise into the fridge at" });
  await app.clock.pass(SECOND);
  await way.getByRole("button", { name: "Plan it in the fridge" }).click();
  await expect(app.plan.bar(INTO)).toBeVisible();
}

test("one tap plans a night in the fridge, and one undo takes all of it back", async ({ app, page }) => {
  await app.open();
  await planned(app);
  await overnight(app);
  const { start: into } = await app.plan.times(INTO);
  const { start: out } = await app.plan.times(OUT);
  expect(into).toBeLessThanOrEqual(minuteOf("23:00"));
  // Forty minutes of hands come before it, and nobody gathers in the afternoon for that.
  expect(into - (await app.plan.times("Gather")).start).toBeLessThanOrEqual(55);
  expect(out).toBeGreaterThanOrEqual(minuteOf("06:30"));

  await test.step("between them it is drawn as standing there, within its rise", async () => {
    const stands = app.plan.bar("First rise: in the fridge");
    await expect(stands).toHaveAttribute("data-cold", "true");
    const { start, end } = await app.plan.times("First rise: in the fridge");
    expect(start).toBeGreaterThanOrEqual(into);
    expect(end).toBe(out);
    const [within, around] = [await stands.boundingBox(), await app.plan.bar("First rise").boundingBox()];
    expect(within.x).toBeGreaterThan(around.x);
    expect(within.x + within.width).toBeLessThanOrEqual(around.x + around.width + 1);
    expect(within.y + within.height).toBeLessThanOrEqual(around.y + around.height + 1);
  });

  await test.step("what is said of the time between lies beside what is said of the night", async () => {
    expect(await losses(page)).toEqual([]);
  });

  await test.step("the list has both moments, and the rise says that it stands cold", async () => {
    await app.plan.show("As a list");
    await expect(app.plan.rows.filter({ hasText: INTO })).toHaveCount(1);
    await expect(app.plan.rows.filter({ hasText: OUT })).toHaveCount(1);
    await expect(app.plan.rows.filter({ hasText: "First rise: in the fridge" })).toHaveCount(1);
    await expect(app.plan.rows.filter({ hasText: /in the fridge \d\d:\d\d to \d\d:\d\d/ })).toHaveCount(1);
    await app.plan.show("Drawn");
  });

  await test.step("so has the calendar", async () => {
    const downloading = page.waitForEvent("download");
    await app.clock.pass(SECOND);
    await page.getByRole("button", { name: "Put it in the calendar" }).click();
    const text = await readFile(await (await downloading).path(), "utf8");
    for (const what of [INTO, OUT]) {
      const entry = readCalendar(text).events.find((entry) => entry.title.includes(what));
      expect(entry, what).toBeDefined();
    }
  });

  await test.step("its sheet changes when it comes out", async () => {
    await app.clock.pass(SECOND);
    await app.plan.bar(OUT).click();
    await expect(app.plan.sheet).toContainText(/It is to stand in the fridge from \d\d:\d\d to \d\d:\d\d tomorrow\./);
    await app.plan.sheet.getByLabel("Out of the fridge at").fill("07:15");
    await app.plan.sheet.getByRole("button", { name: "Plan these times" }).click();
    await expect(app.plan.sheet).toHaveCount(0);
    await expect.poll(async () => (await app.plan.times(OUT)).start).toBe(minuteOf("07:15"));
    await app.clock.pass(SECOND);
    await app.plan.undo.click();
    await expect.poll(async () => (await app.plan.times(OUT)).start).toBe(out);
  });

  await app.clock.pass(SECOND);
  await app.plan.undo.click();
  await expect(app.plan.bar(INTO)).toHaveCount(0);
  await expect(page.locator(`.bar[data-fixed="true"]`)).toHaveCount(0);
});

test("offline, the baker is called to put it in and to take it out, and the table is kept", async ({
  app,
  context,
  page,
  server,
}) => {
  test.slow();
  await app.install();
  await server.stop();
  await context.setOffline(true);
  await planned(app);
  await overnight(app);
  const { start: into } = await app.plan.times(INTO);
  const { start: out } = await app.plan.times(OUT);
  const begins = await app.plan.begins();
  await app.clock.sleep((begins - minuteOf("09:00")) * MINUTE);
  // What the way fixed calls by its own name.
  expect(await app.alarm.stopAll()).toEqual(["Gather: begin now"]);

  await app.turnTo("#/bench");
  // Hands are quicker here than is likely, and the fridge is planned for their usual time.
  const baker = new Baker(app, {});
  await baker.until("Dough temperature");
  await app.clock.sleep((into - 3 - (await minuteNow(app))) * MINUTE);
  await baker.until("Cover the bowl");
  await app.bench.press();
  expect(await app.alarm.stopAll()).toEqual([]);
  await test.step("until then Today says when it goes in", async () => {
    await app.turnTo("#/");
    await expect(page.getByRole("main")).toContainText(`First rise: into the fridge at ${timeOf(into)}.`);
    await app.turnTo("#/bench");
  });
  await app.clock.sleep((into + 1 - (await minuteNow(app))) * MINUTE);
  expect(await app.alarm.stopAll()).toEqual([INTO]);
  await app.clock.pass(SECOND);
  await app.turnTo("#/");
  await expect(page.getByRole("main")).toContainText(`First rise: into the fridge now, due since ${timeOf(into)}.`);

  await test.step("the sheet says that it is overdue, since when, and what to do", async () => {
    await app.plan.turnTo();
    await app.plan.bar(INTO).click();
    const { sheet } = app.plan;
    await expect(sheet).toContainText(
      new RegExp(`It was to go into the fridge at ${timeOf(into)}: put it in now\\. It is to come out at`),
    );
    await expect(sheet.getByRole("button", { name: "The dough is in the fridge now" })).toBeVisible();
    await app.plan.close();
    await app.turnTo("#/bench");
  });

  // It is what is asked, and the one large press.
  const { bench } = app;
  await expect(bench.instruction).toHaveText("Put the dough into the fridge, covered.");
  await expect(bench.mainAction).toHaveText("It's in the fridge");
  await bench.press();
  await expect(bench.answer).toContainText(new RegExp(`in the fridge until ${timeOf(out)} on .*, then ready in about`));

  await test.step("all night it says that it lies there and until when", async () => {
    await app.clock.pass(SECOND);
    await bench.card(/^First rise/).click();
    await expect(bench.sheet).toContainText(new RegExp(`In the fridge until ${timeOf(out)} on .*, then ready in about`));
    await bench.sheet.getByRole("button", { name: "Close" }).click();
    await app.turnTo("#/");
    await expect(page.getByRole("main")).toContainText(`First rise: in the fridge until ${timeOf(out)}`);
    await app.turnTo("#/bench");
  });

  await test.step("in the morning", async () => {
    await app.clock.sleep((24 * 60 - (await minuteNow(app)) + out - 1) * MINUTE);
    expect(await app.alarm.stopAll()).toEqual([]);
    await app.clock.sleep(2 * MINUTE);
    expect(await app.alarm.stopAll()).toEqual([OUT]);
    await app.clock.pass(SECOND);
    await expect(bench.instruction).toHaveText("Take the dough out of the fridge.");
    await expect(bench.mainAction).toHaveText("It's out of the fridge");
    await app.plan.turnTo();
    await app.plan.bar(OUT).click();
    const { sheet } = app.plan;
    await expect(sheet).toContainText(`It was to come out of the fridge at ${timeOf(out)}: take it out now.`);
    await app.clock.pass(SECOND);
    await sheet.getByRole("button", { name: "The dough is out of the fridge now" }).click();
    await expect(sheet).toHaveCount(0);
    await expect(app.plan.bar(OUT)).toHaveCount(0);
    await expect(app.plan.head).not.toContainText("later than your table");
  });
});

test("where the fridge is full of two breads, one press says that it has room for more", async ({ app }) => {
  test.slow();
  await app.open();
  await planned(app);
  await overnight(app);
  await app.clock.pass(SECOND);
  await app.turnTo("#/");
  await app.formula.bake(FORMULAS.loaf);
  await new Baker(app, {}).until("Night in fridge");
  await app.plan.turnTo();
  await expect(app.plan.head).toContainText("Begin at");
  await expect(app.plan.head).not.toContainText("The fridge is full");

  await app.turnTo("#/kitchen");
  const holds = new Stepper(app.kitchen.main, "Bowls or trays the fridge has room for");
  await holds.type(1);
  await holds.shows("1");
  await app.plan.turnTo();
  await expect(app.plan.head).toContainText(/The fridge is full from \d\d:\d\d to/);

  await app.clock.pass(SECOND);
  await app.plan.head.getByRole("button", { name: "It has room for 2 bowls or trays" }).click();
  await expect(app.plan.head).not.toContainText("The fridge is full");
  await expect(app.heading).toBeFocused();
  await app.turnTo("#/kitchen");
  await holds.shows("2");
});
