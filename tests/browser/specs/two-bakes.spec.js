// Two bakes at once.

import { FORMULAS } from "../pages/formula.js";
import { MINUTE } from "../support/clock.js";
import { expect, test } from "../support/test.js";

const BUNS = `${FORMULAS.buns}, since 09:00`;
const LOAF = `${FORMULAS.loaf}, since 09:20`;

async function startBoth(app) {
  await app.startBake();
  await app.bench.press();
  await expect(app.bench.whose).toHaveCount(0);
  await app.clock.pass(20 * MINUTE);
  await app.turnTo("#/");
  await app.formula.bake(FORMULAS.loaf);
}

function tab(app, name) {
  return app.bench.whose.getByRole("link", { name });
}

test("the Bench says whose step it is and turns from one bake to the other", async ({ app }) => {
  await startBoth(app);
  await tab(app, LOAF).click();
  await expect(tab(app, LOAF)).toHaveAttribute("aria-current", "true");
  await expect(tab(app, BUNS)).not.toHaveAttribute("aria-current");
  await expect(app.bench.title).toHaveText("Gather");

  await tab(app, BUNS).click();
  await expect(tab(app, BUNS)).toHaveAttribute("aria-current", "true");
  await expect(app.bench.title).toHaveText("Cook the cream");
});

test("what is done in one bake leaves the other as it was", async ({ app }) => {
  await startBoth(app);
  await tab(app, BUNS).click();
  await expect(app.bench.title).toHaveText("Cook the cream");
  const buns = await app.bench.ask();
  await tab(app, LOAF).click();
  await expect(app.bench.title).toHaveText("Gather");
  await app.bench.press();
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

test("what goes on meanwhile is named by its bake, and so are alarms", async ({ app }) => {
  await startBoth(app);
  await tab(app, LOAF).click();
  await app.bench.press();
  await app.bench.press();
  await expect(app.bench.running).toContainText("Loaf: Poolish ripens");
  await app.bench.setTimer("Tea", 5);
  await app.clock.pass(5 * MINUTE);
  await expect(app.alarm.text).toContainText(FORMULAS.loaf);
  await app.alarm.stop();
});

test("a change of the kitchen is told of both, each by its name", async ({ app }) => {
  await startBoth(app);
  await tab(app, LOAF).click();
  await app.bench.press();
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
