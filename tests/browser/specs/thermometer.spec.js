// Temperatures that the baker takes: asked for or not, and never one that nobody read.

import { FORMULAS } from "../pages/formula.js";
import { SECOND } from "../support/clock.js";
import { entriesIn } from "../support/database.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

test("a temperature in the middle is answered with how much longer it takes", async ({ app }) => {
  await takeUp(app, "Bake", { asks: "look" });
  await app.bench.measureCore(80);
  await expect(app.bench.answer).toHaveText(
    /^80\s°C in the middle, 90\s°C wanted: about [3-9]\smin more\.$/,
  );
  await expect(app.bench.mainAction).toHaveText("It's ready now");
});

test("the dough's temperature is answered with what it does to the window", async ({ app }) => {
  await takeUp(app, "Dough temperature");
  await app.bench.doughTemperature.type(23);
  await app.bench.press();
  await expect(app.bench.answer).toHaveText(
    /^2° cool: first rise will take about \d+\smin longer, fold at \d\d:\d\d, ready about \d\d:\d\d\.$/,
  );
});

test("a dough measured later is compared with what its forecast had it at", async ({ app }) => {
  const { bench } = app;
  await takeUp(app, "Final proof", { asks: "wait", formula: FORMULAS.loaf });
  const before = await bench.likelyEnd(/^Final proof/);
  // Out of the fridge it is far from the 24 °C or so that it once should have come off the bench at.
  await bench.measureDough(4);
  await expect(bench.answer).toHaveText(
    /^[\d.]+° cooler than expected: final proof will take about \d+\smin longer, ready about \d\d:\d\d\.$/,
  );
  const [, off, longer] = (await bench.answer.innerText()).match(/^([\d.]+)°.* (\d+)\smin longer/);
  expect(Number(off)).toBeLessThan(10);
  const moved = (await bench.likelyEnd(/^Final proof/)) - before;
  expect(moved).toBeGreaterThan(0);
  expect(Math.abs(moved - Number(longer))).toBeLessThanOrEqual(1);

  await bench.measureDough(4);
  await expect(bench.answer).toHaveText(
    /^As warm as expected: final proof keeps its time, ready about \d\d:\d\d\.$/,
  );
  await bench.measureDough(10);
  await expect(bench.answer).toHaveText(
    /^6° warmer than expected: final proof will take about \d+\smin less, ready about \d\d:\d\d\.$/,
  );
});

test("no temperature is recorded that nobody entered", async ({ app, page }) => {
  const { bench, clock } = app;
  const { doughTemperature, mainAction } = bench;
  await takeUp(app, "Dough temperature");
  const before = await entriesIn(page);

  await test.step("a careless press on the main action", async () => {
    await doughTemperature.shows("");
    await expect(mainAction).toHaveText("Enter the temperature");
    await clock.pass(SECOND);
    // What is disabled can still be hit by a finger.
    await mainAction.click({ force: true });
    await clock.pass(SECOND);
    await expect(bench.title).toHaveText("Dough temperature");
    expect(await entriesIn(page)).toBe(before);
  });

  await test.step("the first press of a button lands on what is expected, the next goes on", async () => {
    await doughTemperature.less.click();
    await expect(mainAction).toHaveText("It is 25 °C");
    await doughTemperature.less.click();
    await expect(mainAction).toHaveText("It is 24.5 °C");
  });

  await test.step("what was entered doesn't wait at the step when the baker comes back to it", async () => {
    await bench.press();
    await bench.pressBeside("Undo");
    await expect(bench.title).toHaveText("Dough temperature");
    await expect(mainAction).toHaveText("Enter the temperature");
    await doughTemperature.shows("");
  });

  await test.step("in the middle of a bun, and again after a reading", async () => {
    await takeUp(app, "Bake", { asks: "look" });
    const drawer = bench.main.locator("details", { hasText: "Temperature in the middle" });
    const take = drawer.locator(".button-main");
    await drawer.locator("summary").click();
    const stored = await entriesIn(page);
    await expect(take).toHaveText("Enter the temperature");
    await take.click({ force: true });
    await clock.pass(SECOND);
    expect(await entriesIn(page)).toBe(stored);
    await bench.measureCore(80);
    await expect(take).toHaveText("Enter the temperature");
    await take.click({ force: true });
    await clock.pass(SECOND);
    expect(await entriesIn(page)).toBe(stored + 1);
  });
});

test("a number that can't be right is refused with a sentence, and nothing is stored", async ({
  app,
  page,
}) => {
  await takeUp(app, "Dough temperature");
  const before = await entriesIn(page);
  await app.bench.doughTemperature.type(95);
  await app.clock.pass(SECOND);
  await app.bench.mainAction.click();
  await expect(app.bench.answer).toContainText("can't be right for the dough temperature");
  await expect(app.bench.title).toHaveText("Dough temperature");
  expect(await entriesIn(page)).toBe(before);
});
