// The plan: from a formula in two presses, drawn and as a list, and what the baker wishes of it.

import { FORMULAS } from "../../pages/formula.js";
import { minuteOf, timeOf, timesOf } from "../../pages/plan.js";
import { BEAT, MINUTE, SECOND } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";

test("without a network, two presses lead from a formula to a plan whose drawing and list agree", async ({
  app,
  context,
  server,
}) => {
  const { formula, plan } = app;
  await app.install();
  await server.stop();
  await context.setOffline(true);
  await formula.look(FORMULAS.buns);
  await plan.startFor("19:00");
  let begins;

  await test.step("what it comes to", async () => {
    await expect(plan.head).toContainText(/Ready about 1[78]:\d\d, between 1\d:\d\d and 1[89]:\d\d\./);
    await expect(plan.head).toContainText(/before your table at 19:00: rises may take that much longer\./);
    await expect(plan.head).toContainText(/The table depends on .*First rise, Final proof/);
    begins = await plan.begins();
    expect(begins).toBeGreaterThan(minuteOf("10:00"));
    expect((await plan.times("Gather")).start).toBe(begins);
  });

  const drawn = await plan.drawn();
  await test.step("every item has a bar that is large enough, and what is later stands lower", async () => {
    // The formula's 27 steps, the fold in its first rise, and its filling while that is in the fridge.
    expect(drawn.length).toBe(29);
    for (const one of drawn) {
      expect.soft(one.height, one.label).toBeGreaterThanOrEqual(47.5);
      for (const other of drawn) {
        const [a, b] = [timesOf(one.label), timesOf(other.label)];
        const order = `${one.label} before ${other.label}`;
        if (a.start < b.start) expect.soft(one.top, order).toBeLessThan(other.top);
        // One pair of hands does one thing at a time.
        const both = one !== other && one.hands && other.hands && a.start <= b.start;
        if (both) expect.soft(a.end, order).toBeLessThanOrEqual(b.start);
      }
    }
  });

  await test.step("the line of the present has its time, and goes on", async () => {
    await expect(plan.now.first()).toHaveText("09:00");
    const line = app.page.locator(".plan-over .plan-now");
    const before = await line.boundingBox();
    // It goes by what was last reckoned, which may be a beat ago.
    await app.clock.pass(30 * MINUTE + BEAT);
    await expect(plan.now.first()).toHaveText("09:30");
    expect((await line.boundingBox()).y).toBeGreaterThan(before.y);
  });

  await test.step("the list has the same items at the same times", async () => {
    await plan.show("As a list");
    const rows = await plan.rows.allInnerTexts();
    expect(rows.length).toBe(drawn.length);
    for (const { label } of drawn) {
      const { start, end } = timesOf(label);
      const [name] = label.split(": 1");
      const row = rows.find((row) => row.includes(name.trim()) && row.startsWith(timeOf(start)));
      expect.soft(row, label).toContain(timeOf(end));
      expect.soft(row.includes("the table depends on it"), label).toBe(label.includes("the table depends on it"));
    }
  });

  const line = app.page.locator(".plan-over .plan-now");
  await test.step("the line goes behind the name of what has just begun", async () => {
    await app.clock.sleep((begins - minuteOf("09:30")) * MINUTE);
    await app.alarm.stopAll();
    // Before that, the bar of what is to be begun goes along with the line.
    await plan.show("Drawn");
    await app.clock.pass(3 * MINUTE);
    expect(await struck("Gather")).toEqual([]);
    await app.turnTo("#/bench");
    await expect(app.bench.title).toHaveText("Gather");
    await app.bench.press();
    const begun = await app.bench.title.innerText();
    await app.clock.pass(3 * MINUTE);
    await app.alarm.stopAll();
    await plan.turnTo();
    expect(await struck(begun)).toEqual([]);
  });

  /** Where the line would strike through the name of a bar, of places along it: what lies on top there is painted last. */
  async function struck(name) {
    const span = plan.bar(name).locator("span");
    await span.scrollIntoViewIfNeeded();
    const found = await span.evaluate((span) => {
      const line = document.querySelector(".plan-over .plan-now");
      line.style.pointerEvents = "all";
      const { left, right, top, bottom } = span.getBoundingClientRect();
      const { top: upper, bottom: lower } = line.getBoundingClientRect();
      const y = (upper + lower) / 2;
      const isOver = (x) => document.elementFromPoint(x, y) === line;
      const along = Array.from({ length: 9 }, (_, place) => left + ((right - left) * (place + 1)) / 10);
      const found = { crosses: y > top && y < bottom, struck: along.filter(isOver), isDrawn: isOver(right + 3) };
      line.style.pointerEvents = "";
      return found;
    });
    expect(found.crosses && found.isDrawn, "the line is drawn, and crosses the name").toBe(true);
    return found.struck;
  }
});

test("until its beginning a planned bake says so on Today and on the Bench, calls then, and survives a reload", async ({
  app,
  page,
}) => {
  await app.plan.bunsForSeven();
  const begins = await app.plan.begins();
  await app.turnTo("#/");
  await expect(page.locator(".now-asked")).toHaveText(`Begins at ${timeOf(begins)}`);
  await app.reload();
  await expect(page.locator(".now-asked")).toHaveText(`Begins at ${timeOf(begins)}`);
  await app.turnTo("#/bench");
  const planned = page.getByText(`Planned to begin at ${timeOf(begins)}. You can begin now.`);
  await expect(planned).toBeVisible();
  await app.clock.sleep((begins - minuteOf("09:00")) * MINUTE);
  expect(await app.alarm.rings()).toBe(true);
  await app.alarm.stop();
  await expect(planned).toHaveCount(0);
  await expect(app.bench.title).toHaveText("Gather");
});

test("while nobody is there, hands have nothing to do", async ({ app }) => {
  const { plan } = app;
  await app.startBake();
  await app.turnTo("#/plan");
  await expect(plan.bars.first()).toBeVisible();
  const { start: mix } = await plan.times("Mix the dough");
  const [from, to] = [mix - 5, mix + 45];
  await plan.awayToday(from, to);
  await expect(plan.wished).toContainText(`Nobody here from ${timeOf(from)} to ${timeOf(to)}.`);
  await expect(plan.away).toHaveCount(1);
  for (const { label, hands } of (await plan.drawn()).filter((one) => one.hands)) {
    const { start, end } = timesOf(label);
    expect.soft(hands && start < to && end > from, label).toBe(false);
  }
  expect((await plan.times("Mix the dough")).start).toBeGreaterThanOrEqual(to);
  await plan.show("As a list");
  await expect(app.page.locator(".plan-row-away")).toHaveText(
    new RegExp(`${timeOf(from)}\\s*Nobody in the kitchen\\s*until ${timeOf(to)}`),
  );
});

test("a time away that has passed is told so, and isn't added", async ({ app, page }) => {
  const { plan } = app;
  await app.startBake();
  await app.turnTo("#/plan");
  await page.getByRole("button", { name: "Away, asleep" }).click();
  await plan.sheet.getByLabel("From", { exact: true }).first().fill("06:00");
  await plan.sheet.getByLabel("To", { exact: true }).first().fill("07:00");
  await plan.sheet.getByRole("button", { name: "Add this time" }).click();
  await expect(plan.sheet.getByRole("alert")).toHaveText("That has passed. Choose a later time.");
  await expect(plan.sheet.getByRole("button", { name: /^Remove/ })).toHaveCount(0);
});

test("a quarter of an hour later is a quarter of an hour later everywhere, and undone it isn't", async ({ app }) => {
  const { plan } = app;
  await plan.bunsForSeven();
  const begins = await plan.begins();
  await plan.later.click();
  await expect(plan.wished).toContainText("On the table at 19:15.");
  await expect.poll(() => plan.begins()).toBe(begins + 15);
  await app.clock.pass(SECOND);
  await plan.undo.click();
  await expect(plan.wished).toContainText("On the table at 19:00.");
  await expect.poll(() => plan.begins()).toBe(begins);
  await app.reload();
  expect(await plan.begins()).toBe(begins);
});

test("two bakes for one table are planned together, and shifted and brought back together", async ({ app }) => {
  const { formula, plan } = app;
  await plan.bunsForSeven();
  await app.turnTo("#/");
  await formula.look(FORMULAS.braid);
  await plan.startFor("19:00, with Buns");
  await expect(plan.head.getByText(/^Begin at/)).toHaveCount(2);
  await expect(plan.head).toContainText("before your table at 19:00");
  await plan.earlier.click();
  await expect(plan.wished).toContainText("On the table at 18:45.");
  await expect(plan.head).toContainText("your table at 18:45");
  await app.clock.pass(SECOND);
  await plan.undo.click();
  await expect(plan.wished).toContainText("On the table at 19:00.");
  // A bake that was left behind would have a table of its own, and what is wished would be told of each.
  await app.reload();
  await expect(plan.wished).toContainText("On the table at 19:00.");
});

test("who picked the wrong bread or hour takes all of it back by one press", async ({ app, page }) => {
  const { formula, plan } = app;
  await plan.bunsForSeven();
  await app.turnTo("#/");
  await formula.look(FORMULAS.braid);
  await plan.startFor("19:00, with Buns");
  await expect(plan.head.getByText(/^Begin at/)).toHaveCount(2);
  await app.clock.pass(SECOND);
  await plan.undo.click();
  await expect(plan.head.getByText(/^Begin at/)).toHaveCount(1);
  await expect(plan.wished).toContainText("On the table at 19:00.");
  await app.clock.pass(SECOND);
  await plan.undo.click();
  await expect(plan.bars).toHaveCount(0);
  await app.turnTo("#/notebook");
  await expect(page.getByRole("main").locator(".card")).toHaveCount(0);
});

test("a bread for tomorrow has a table of its own beside one for today, offline", async ({ app, page }) => {
  const { formula, plan } = app;
  await plan.bunsForSeven();
  const today = await plan.begins();
  await page.context().setOffline(true);
  await app.turnTo("#/");
  await formula.look(FORMULAS.braid);
  await plan.startFor("12:30 tomorrow");
  await expect(plan.wished).toContainText("Buns on the table at 19:00.");
  await expect(plan.wished).toContainText("Braid on the table at 12:30 tomorrow.");
  await expect(plan.head).toContainText(/your table at 19:00/);
  await expect(plan.head).toContainText(/your table at 12:30 tomorrow/);
  // Today's begins when it did.
  expect(await plan.begins()).toBe(today);
  // One of them is put off by itself, and that can be taken back.
  await plan.openTables();
  await plan.sheet.getByText("Braid").click();
  await plan.sheet.getByLabel("Time").first().fill("14:00");
  await plan.sheet.getByRole("button", { name: "Plan for then" }).click();
  await expect(plan.wished).toContainText(/14:00 tomorrow/);
  await expect(plan.wished).toContainText("Buns on the table at 19:00.");
  await app.clock.pass(SECOND);
  await plan.undo.click();
  await expect(plan.wished).toContainText(/12:30 tomorrow/);
  await app.reload();
  await expect(plan.wished).toContainText("Buns on the table at 19:00.");
  await expect(plan.wished).toContainText(/12:30 tomorrow/);
});

test("a table that can't be kept is said to be late, and as soon as possible takes the wish away", async ({
  app,
  page,
}) => {
  const { plan } = app;
  await app.startBake();
  await app.turnTo("#/plan");
  await expect(plan.head).toContainText("no other order of this work is ready sooner");
  await page.getByRole("button", { name: "On the table at…" }).click();
  await plan.sheet.getByLabel("Time").first().fill("11:00");
  await plan.sheet.getByRole("button", { name: "Plan for then" }).click();
  await expect(plan.head).toContainText(/\d\sh.* later than your table at 11:00\./);
  await page.getByRole("button", { name: "On the table at…" }).click();
  await plan.sheet.getByRole("button", { name: "As soon as possible" }).click();
  await expect(plan.wished).toContainText("On the table as soon as possible.");
  await expect(plan.head).not.toContainText("your table");
});

test("a second batch is offered the table of the first where the plan keeps it, and how far ahead one can be", async ({
  app,
}) => {
  const { clock, plan } = app;
  await app.open();
  await app.formula.look(FORMULAS.buns);
  await plan.openTables();
  await plan.sheet.locator("summary").click();
  await expect(plan.sheet).toContainText("A table can be up to three days ahead:");
  await plan.sheet.getByLabel("Time", { exact: true }).fill("17:00");
  await plan.sheet.getByRole("button", { name: "Start, planned for then" }).click();
  await expect(plan.bars.first()).toBeVisible();
  await clock.pass(SECOND);
  await app.formula.look(FORMULAS.buns);
  await plan.startFor("17:00, with Buns");
  await expect(plan.head).toContainText(/That is \d+\smin before your table at\s17:00/);
});
