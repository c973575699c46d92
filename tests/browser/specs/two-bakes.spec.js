// Two bakes at once.

import { FORMULAS } from "../pages/formula.js";
import { MINUTE, SECOND } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

const BUNS = `${FORMULAS.buns}, since 09:00`;
/** Until the first of it is done nothing is baked of it. */
const LOAF_TO_COME = `${FORMULAS.loaf}, from 09:20`;
const LOAF = new RegExp(`^${FORMULAS.loaf}, (from|since) 09:20$`);

async function startBoth(app) {
  await app.startBake();
  await app.bench.press();
  await expect(app.bench.whose).toHaveCount(0);
  await app.clock.pass(20 * MINUTE);
  await app.turnTo("#/");
  await app.formula.bake(FORMULAS.loaf);
}

/**
 * Goes on with the loaf, which was gathered, wherever the plan has the hands first: the cream and the poolish are as good
 * one way round as the other, and which of them comes first hangs on what was planned before.
 */
async function stay({ bench }) {
  await expect(bench.title).toHaveText(/^(Now at |Mix the poolish)/);
  if (/^Now at /.test(await bench.title.innerText())) await bench.pressBeside("Stay here");
}

function tab(app, name) {
  return app.bench.whose.getByRole("link", { name });
}

test("the Bench says whose step it is and turns from one bake to the other", async ({ app }) => {
  await startBoth(app);
  await tab(app, LOAF_TO_COME).click();
  await expect(tab(app, LOAF)).toHaveAttribute("aria-current", "true");
  await expect(tab(app, BUNS)).not.toHaveAttribute("aria-current");
  await expect(app.bench.title).toHaveText("Gather");

  await tab(app, BUNS).click();
  await expect(tab(app, BUNS)).toHaveAttribute("aria-current", "true");
  await expect(app.bench.title).toHaveText("Cook the cream");
});

test("the Bench leads to the bread at which the plan has the hands, and stays where somebody says so", async ({ app }) => {
  const { bench, clock } = app;
  await app.startBake();
  await clock.pass(SECOND);
  await app.turnTo("#/");
  await app.formula.bake(FORMULAS.braid);
  const [buns, braid] = [FORMULAS.buns, FORMULAS.braid];
  await tab(app, buns).click();
  await expect(bench.title).toHaveText("Gather");
  const next = bench.main.getByRole("link", { name: /^Next, about/ });

  await test.step("what comes next is told with its bread, and leads there", async () => {
    await expect(next).toHaveText(`Next, about 09:13, at ${FORMULAS.braid}: Gather`);
    await next.click();
    await expect(tab(app, braid)).toHaveAttribute("aria-current", "true");
    await tab(app, buns).click();
  });

  await clock.pass(MINUTE);
  await bench.press();
  await expect(bench.title).toHaveText(`Now at ${FORMULAS.braid}`);
  await expect(bench.instruction).toHaveText("Gather");
  await expect(bench.main).toContainText(/Here Cook the cream has time until \d\d:\d\d\./);

  await test.step("one press leads there", async () => {
    await clock.pass(SECOND);
    await bench.mainAction.click();
    await expect(tab(app, braid)).toHaveAttribute("aria-current", "true");
    await expect(bench.title).toHaveText("Gather");
  });

  await test.step("who stays is asked for what was to wait, and after a reload too", async () => {
    await tab(app, buns).click();
    await bench.pressBeside("Stay here");
    await expect(bench.title).toHaveText("Cook the cream");
    await expect(bench.mainAction).toHaveText("Done");
    await app.reload();
    await expect(bench.title).toHaveText("Cook the cream");
  });

  await test.step("and then the Bench of the other says when its turn is", async () => {
    await tab(app, braid).click();
    await expect(bench.title).toHaveText(`Now at ${FORMULAS.buns}`);
    await expect(bench.instruction).toHaveText("Cook the cream");
  });
});

test("Today, the Bench's menu and the plan tell one end of each bread", async ({ app, page }) => {
  await startBoth(app);
  // The plan, which comes with the half of the app that is late, is there.
  await app.turnTo("#/plan");
  await expect(app.plan.bars.first()).toBeVisible();
  const list = await app.plan.list.innerText();
  const tables = [];
  for (const [name, short] of [[FORMULAS.buns, "Buns"], [FORMULAS.loaf, "Loaf"]]) {
    const ends = [...list.matchAll(new RegExp(`\\(${short}\\)\\s*until (?:about )?(\\d\\d:\\d\\d)`, "g"))];
    const last = ends.at(-1)[1];
    await app.turnTo("#/");
    const card = page.locator("section.card", { hasText: name });
    await expect(card).toContainText(new RegExp(`likely ${last}\\.`));
    const told = (await card.innerText()).match(/On the table.*likely \d\d:\d\d\./)[0];
    await card.getByRole("link").click();
    const more = await app.bench.openMore();
    await expect(more).toContainText(told);
    await more.getByRole("button", { name: "Close" }).click();
    tables.push(told);
  }
  expect(new Set(tables).size).toBe(2);
});

test("what is done in one bake leaves the other as it was", async ({ app }) => {
  await startBoth(app);
  await tab(app, BUNS).click();
  await expect(app.bench.title).toHaveText("Cook the cream");
  const buns = await app.bench.ask();
  await tab(app, LOAF).click();
  await expect(app.bench.title).toHaveText("Gather");
  await app.bench.press();
  await stay(app);
  await expect(app.bench.title).toHaveText("Mix the poolish");
  await app.bench.press();
  const loaf = await app.bench.ask();
  await tab(app, BUNS).click();
  await expect(app.bench.title).toHaveText(buns.title);
  expect(await app.bench.ask()).toEqual(buns);

  await app.reload();
  expect(await app.bench.ask()).toEqual(buns);
  await tab(app, LOAF).click();
  await expect(app.bench.title).toHaveText(loaf.title);
  expect(await app.bench.ask()).toEqual(loaf);
});

/** Starts another bread beside one that was taken up. */
async function besideTaken(app, formula) {
  await app.clock.pass(SECOND);
  await app.turnTo("#/");
  await app.formula.bake(formula);
  await expect(app.bench.whose).toBeVisible();
}

/** The other bread, whose turn comes after seven minutes, calls to be begun; as long as hands are at the first, a quarter of an hour later. */
async function hearToBegin({ alarm, clock }) {
  await clock.pass(8 * MINUTE);
  expect(await alarm.shown()).toBe("");
  await clock.pass(15 * MINUTE);
  await expect(alarm.title).toHaveText("Time to begin");
  await alarm.stop();
  expect(await alarm.shown()).toBe("");
}

test("a bread that rises leads to the hands' work at the other, and stays where somebody says so", async ({ app }) => {
  const { bench, clock } = app;
  await takeUp(app, "First rise", { asks: "wait" });
  const rise = await bench.ask();
  await besideTaken(app, FORMULAS.braid);
  await tab(app, FORMULAS.buns).click();
  await expect(bench.title).toHaveText(`Now at ${FORMULAS.braid}`);
  await expect(bench.instruction).toHaveText("Gather");
  await expect(bench.mainAction).toHaveText(`To ${FORMULAS.braid}`);
  // Its clock stays in sight, and what can be said of it one tap away.
  await expect(bench.running).toContainText("Buns: First rise");

  await test.step("whoever stays finds the rise as it was, after a reload too", async () => {
    await bench.pressBeside("Stay here");
    await expect(bench.title).toHaveText(rise.title);
    expect(await bench.ask()).toEqual(rise);
    await expect(bench.main.getByRole("link", { name: `Now at ${FORMULAS.braid}: Gather` })).toBeVisible();
    await app.reload();
    await expect(bench.title).toHaveText(rise.title);
  });

  await test.step("once it is folded the Bench leads on", async () => {
    await clock.pass(34 * MINUTE);
    await app.alarm.stopAll();
    await expect(bench.instruction).toHaveText("Fold the dough now.");
    await bench.press();
    await expect(bench.title).toHaveText(`Now at ${FORMULAS.braid}`);
    await clock.pass(SECOND);
    await bench.mainAction.click();
    await expect(tab(app, FORMULAS.braid)).toHaveAttribute("aria-current", "true");
  });
});

test("dough that waits at the other bread calls before it has waited too long, and once", async ({ app, page }) => {
  const { alarm, bench, clock } = app;
  await takeUp(app, "Round the pieces", { asks: "work" });
  await besideTaken(app, FORMULAS.braid);
  await expect(bench.title).toHaveText(`Now at ${FORMULAS.buns}`);
  await expect(bench.instruction).toHaveText("Round the pieces");
  await clock.pass(14 * MINUTE);
  expect(await alarm.shown()).toBe("");
  await clock.pass(7 * MINUTE);
  await expect(alarm.title).toHaveText("Round the pieces: begin now");
  await expect(alarm.text).toContainText(FORMULAS.buns);
  await expect(alarm.text).toContainText(/Best begun by \d\d:\d\d: waiting longer isn't good for it\./);
  await app.reload();
  await expect(alarm.title).toHaveText("Round the pieces: begin now");
  await alarm.stop();
  // The braid, too, but once.
  await clock.pass(5 * MINUTE);
  expect(await alarm.stopAll()).toEqual(["Time to begin"]);
  await clock.pass(15 * MINUTE);
  expect(await alarm.shown()).toBe("");
  await app.reload();
  expect(await alarm.shown()).toBe("");
  await expect(page.getByText(`Now at ${FORMULAS.buns}`)).toBeVisible();
});

test("what the Bench shows is asked for, and doesn't ring", async ({ app }) => {
  const { alarm, bench, clock } = app;
  await takeUp(app, "Round the pieces", { asks: "work" });
  await besideTaken(app, FORMULAS.braid);
  await tab(app, FORMULAS.buns).click();
  await expect(bench.title).toHaveText("Round the pieces");
  await hearToBegin(app);
  await clock.pass(20 * MINUTE);
  expect(await alarm.shown()).toBe("");
  // A glance at the other bread doesn't either.
  await tab(app, FORMULAS.braid).click();
  await clock.pass(4 * MINUTE);
  expect(await alarm.shown()).toBe("");
  await clock.pass(2 * MINUTE);
  await expect(alarm.title).toHaveText("Round the pieces: begin now");
});

test("what is planned for a table is known by it, on its tab and on Today", async ({ app, page }) => {
  const { bench, clock, plan } = app;
  await app.open();
  await app.formula.look(FORMULAS.buns);
  await plan.startFor("19:00");
  await clock.pass(SECOND);
  await app.turnTo("#/");
  const card = page.locator("section.card", { hasText: FORMULAS.buns });
  await expect(card).toContainText(/For the table at 19:00\. On the table between \d\d:\d\d and \d\d:\d\d, likely/);
  await app.formula.bake(FORMULAS.braid);
  await expect(tab(app, `${FORMULAS.buns}, for 19:00`)).toBeVisible();
  await expect(tab(app, `${FORMULAS.braid}, from 09:00`)).toBeVisible();
  await tab(app, FORMULAS.buns).click();
  await expect(bench.title).toHaveText(`Now at ${FORMULAS.braid}`);
  // What is kept back can be gathered.
  await expect(bench.main.getByRole("link", { name: "Gathering list" })).toBeVisible();
});

test("what goes on meanwhile is named by its bake, and so are alarms", async ({ app }) => {
  await startBoth(app);
  await tab(app, LOAF).click();
  await app.bench.press();
  await stay(app);
  await app.bench.press();
  await expect(app.bench.running).toContainText("Loaf: Poolish ripens");
  await app.bench.setTimer("Tea", 2);
  await app.clock.pass(2 * MINUTE);
  await expect(app.alarm.text).toContainText(FORMULAS.loaf);
  await app.alarm.stop();
});

test("a change of the kitchen is told of both, each by its name", async ({ app }) => {
  await startBoth(app);
  await tab(app, LOAF).click();
  await app.bench.press();
  await stay(app);
  await app.bench.press();
  await expect(app.bench.running).toContainText("Loaf: Poolish ripens");
  const preview = await app.bench.enterKitchen(17);
  await expect(preview).toContainText(/Loaf, since\s09:20\. Poolish ripens: [\dhmin\s]+ later, about/);
  await expect(preview).toContainText(/Buns, since\s09:00\. The liquid /);
  await expect(preview).toContainText(/On the table about \d\d:\d\d, not \d\d:\d\d, above all/);
  const foretold = await preview.innerText();
  await app.bench.setEnteredKitchen();
  await expect(app.bench.answer).toHaveText(foretold);

  await app.turnTo("#/kitchen");
  await app.kitchen.air.type(23);
  await expect(app.kitchen.told).toContainText(/Poolish ripens: [\dhmin\s]+ earlier, about/);
  await expect(app.kitchen.told).toContainText(/Buns, since\s09:00\./);
});

test("Today shows both, each with its own way to the Bench", async ({ app, page }) => {
  await startBoth(app);
  await app.turnTo("#/");
  for (const [name, title] of [
    [FORMULAS.loaf, "Gather"],
    [FORMULAS.buns, "Cook the cream"],
  ]) {
    await page.getByRole("main").getByRole("link", { name: new RegExp(name) }).click();
    await expect(app.bench.title).toHaveText(title);
    await app.turnTo("#/");
  }
});

test("finishing one leaves the other on the Bench", async ({ app, page }) => {
  await startBoth(app);
  await tab(app, BUNS).click();
  await app.bench.finishEarly();
  await app.turnTo("#/bench");
  await expect(app.bench.title).toHaveText("Gather");
  await expect(app.bench.whose).toHaveCount(0);
  await expect(page.getByText("Nothing is baking.")).toHaveCount(0);
});
