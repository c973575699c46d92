// Temperatures that the baker takes: asked for or not, and never one that nobody read.

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
