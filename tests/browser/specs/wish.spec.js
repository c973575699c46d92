// The reverse question: a rise that is wanted ready at another time, before the bake is started.

import { FORMULAS } from "../pages/formula.js";
import { SECOND } from "../support/clock.js";
import { expect, test } from "../support/test.js";

test("less yeast for a later rise: amounts and times follow, it can be undone, and the bake keeps it", async ({
  app,
  context,
  server,
}) => {
  const { bench, clock, formula, page } = app;
  // From here on all of it comes from the phone.
  await app.install();
  await server.stop();
  await context.setOffline(true);
  await formula.look(FORMULAS.braid);
  const yeast = formula.amount("instant yeast");
  await expect(yeast).toContainText(/^6\sg/);
  const usual = await formula.readyAt("First rise");
  const table = page.getByRole("region", { name: "If you start now" }).locator("p.digits");
  const before = await table.innerText();

  await test.step("the wish is answered", async () => {
    await formula.want(usual + 25);
    await expect(formula.ways).toHaveText([
      /^For \d\d:\d\d:$/,
      /^Use 5\sg of yeast: ready at about \d\d:\d\d, between \d\d:\d\d and \d\d:\d\d\.$/,
      /^Or keep the rising dough at 1\d(\.5)?\s°C\.$/,
      /^Or keep it in the fridge for the first \d+\smin, until about \d\d:\d\d\.$/,
    ]);
  });

  await test.step("taken, everything follows", async () => {
    await formula.changeYeast.click();
    await expect(formula.changeYeast).toHaveText(/^Back to 6\sg of yeast$/);
    await expect(formula.changeYeast).toBeFocused();
    await expect(yeast).toContainText(/^5\sg/);
    await expect(table).not.toHaveText(before);
    expect(Math.abs((await formula.readyAt("First rise")) - usual - 25)).toBeLessThanOrEqual(15);
  });

  await test.step("a press that comes twice undoes nothing, and a later one does", async () => {
    await formula.changeYeast.click();
    await expect(yeast).toContainText(/^5\sg/);
    await clock.pass(SECOND);
    await formula.changeYeast.click();
    await expect(yeast).toContainText(/^6\sg/);
    await expect(table).toHaveText(before);
    await clock.pass(SECOND);
    await formula.changeYeast.click();
    await expect(yeast).toContainText(/^5\sg/);
  });

  await test.step("the bake has it, also after a reload", async () => {
    await formula.start.click();
    await expect(bench.title).toHaveText("Gather");
    await expect(bench.mark(/^instant yeast\s*5\sg/)).toBeVisible();
    await app.reload();
    await expect(bench.mark(/^instant yeast\s*5\sg/)).toBeVisible();
  });

  await test.step("and the formula is as it was", async () => {
    await app.turnTo("#/formulas/orange-braid");
    await expect(yeast).toContainText(/^6\sg/);
  });
});

test("a wish that can't be met says so in a sentence, and a far one leads to the fridge", async ({ app }) => {
  const { formula } = app;
  await app.open();
  await formula.look(FORMULAS.buns);
  const usual = await formula.readyAt("First rise");

  await test.step("too early", async () => {
    await formula.want(usual - 75);
    await expect(formula.ways).toHaveText([
      /^For \d\d:\d\d:$/,
      "Yeast won't do it: even two and a half times as much is too slow.",
      /^Warmth won't do it: even at 35\s°C it isn't ready by then\.$/,
    ]);
    await expect(formula.changeYeast).toBeHidden();
  });

  await test.step("too late for yeast alone", async () => {
    await formula.want(usual + 8 * 60);
    await expect(formula.ways.nth(1)).toHaveText("Yeast won't do it: even with a quarter of it, it is ready sooner.");
    await expect(formula.ways.nth(2)).toHaveText(/^Or keep the rising dough at [\d.]+\s°C\.$/);
    await expect(formula.ways.nth(3)).toHaveText(
      /^Or keep it in the fridge for the first \d+\sh( \d+\smin)?, until about \d\d:\d\d\.$/,
    );
    await expect(formula.ways.nth(4)).toHaveText(
      "A dough with egg or milk shouldn't stand out of the fridge this long; local food-safety rules come first.",
    );
    await expect(formula.changeYeast).toBeHidden();
  });

  await test.step("too late for the filling that comes into the dough afterwards", async () => {
    await formula.want(usual + 60);
    await expect(formula.ways.nth(1)).toHaveText(
      "Yeast won't do it: with its filling in, the dough would then stand out too long.",
    );
    await expect(formula.ways.nth(2)).toHaveText(/^Or keep the rising dough at [\d.]+\s°C\.$/);
    await expect(formula.changeYeast).toBeHidden();
  });

  await test.step("near enough", async () => {
    await formula.want(usual);
    await expect(formula.ways).toHaveText([/^For \d\d:\d\d:$/, "It is ready near enough then already."]);
  });

  await test.step("near the scales' step", async () => {
    // Half a gram less is none less on scales of whole grams.
    await formula.want(usual + 10);
    await expect(formula.ways.nth(1)).toHaveText("Yeast won't do it: your scales can't weigh it finely enough.");
    await expect(formula.changeYeast).toBeHidden();
  });

  await test.step("the filling stays in the way of the final proof", async () => {
    await formula.ready.getByText("Final proof", { exact: true }).click();
    const proofed = await formula.readyAt("Final proof");
    expect(proofed).toBeGreaterThan(usual);
    // To the late end of its rise the cream would stand out for more than two hours, also after a stay in the fridge.
    await formula.want(proofed + 4 * 60);
    await expect(formula.ways).toHaveText([
      /^For \d\d:\d\d( on \w+)?:$/,
      "With its filling in, it shouldn't stand out that long.",
    ]);
    await expect(formula.changeYeast).toBeHidden();
  });

  await test.step("where nothing is in it, the final proof takes the first rise along", async () => {
    await formula.look(FORMULAS.braid);
    const first = await formula.readyAt("First rise");
    await formula.ready.getByText("Final proof", { exact: true }).click();
    const proofed = await formula.readyAt("Final proof");
    await formula.want(proofed + 60);
    await expect(formula.changeYeast).toHaveText(/^Use [45]\sg of yeast$/);
    await formula.changeYeast.click();
    expect(Math.abs((await formula.readyAt("Final proof")) - proofed - 60)).toBeLessThanOrEqual(25);
    await formula.ready.getByText("First rise", { exact: true }).click();
    expect(await formula.readyAt("First rise")).toBeGreaterThan(first);
  });
});

test("with another kind of yeast its amount and the liquid follow, a wish is met with it, and it is what is weighed", async ({
  app,
  page,
}) => {
  const { bench, formula } = app;
  await app.open("#/kitchen");
  // So cold that the milk should be warmer than yeast bears.
  await app.kitchen.choose("You knead", "In a stand mixer");
  await app.kitchen.air.type(10);
  await app.kitchen.air.shows("10 °C");
  await formula.look(FORMULAS.braid);
  const milk = async () => {
    const said = await page.locator(".liquid").innerText();
    return Number(said.match(/at (\d+)/)[1]);
  };
  await expect(formula.amount("instant yeast")).toContainText(/^6\sg/);
  const [before, table] = [await milk(), await formula.tableAt()];

  // 6 g of instant are 7.3 of active dry and 18.2 of fresh yeast, in a braid that stays as heavy.
  await formula.yeastIs("Active dry");
  await expect(formula.amount("active dry yeast")).toContainText(/^7\sg/);
  expect(await milk()).toBeLessThan(before - 3);
  await formula.yeastIs("Fresh");
  await expect(formula.amount("fresh yeast")).toContainText(/^18\sg/);
  await expect(formula.fit).toContainText("Keep fresh yeast in the fridge");
  expect(Math.abs((await formula.tableAt()) - table)).toBeLessThanOrEqual(5);
  await expect(formula.amount("instant yeast")).toHaveCount(0);

  await formula.want((await formula.readyAt("First rise")) + 45);
  await expect(formula.changeYeast).toHaveText(/^Use 1\d\sg of yeast$/);
  const [less] = (await formula.changeYeast.innerText()).match(/\d+/);
  await formula.changeYeast.click();
  const weighed = new RegExp(`^fresh yeast\\s*${less}\\sg`);
  await expect(formula.amount("fresh yeast")).toContainText(new RegExp(`^${less}\\sg`));
  await formula.start.click();
  await expect(bench.mark(weighed)).toBeVisible();
  await app.reload();
  await expect(bench.mark(weighed)).toBeVisible();
});
