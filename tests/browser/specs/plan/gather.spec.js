// Promise: one list of all that the bakes take, whose ticks stay.

import { FORMULAS } from "../../pages/formula.js";
import { SECOND } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";
import { recordShifts, shiftsOf } from "../quality/measure/shifts.js";

const line = (page, name) => page.getByRole("main").getByRole("button", { name });

/** The Bench has no bar that leads to the formulas. */
async function another(app, formula) {
  await app.clock.pass(SECOND);
  await app.turnTo("#/");
  await app.formula.bake(formula);
}

/** Two bakes from the same morning. */
async function twoBakes(app) {
  await app.startBake(FORMULAS.buns);
  await another(app, FORMULAS.braid);
  await app.clock.pass(SECOND);
}

async function toList(app) {
  await app.turnTo("#/gather");
  await expect(app.heading).toHaveText("Gathering list");
}

async function gatherDone(app, name) {
  await app.turnTo("#/bench");
  await app.bench.whose.getByRole("link", { name }).click();
  await expect(app.bench.title).toHaveText("Gather");
  await app.clock.pass(SECOND);
  await app.bench.press();
  await expect(app.bench.title).not.toHaveText("Gather");
}

test("two bakes share a list: allergens first, sums with what each part is for", async ({ app, page }) => {
  await twoBakes(app);
  await toList(app);
  const headings = await page.getByRole("heading", { level: 2 }).allTextContents();
  expect(headings).toEqual([
    "Allergens",
    "Flour, sugar and what keeps",
    "Milk, butter and eggs",
    "Fruit, nuts and spices",
    "From the tap",
    "Equipment",
  ]);
  const allergens = page.getByRole("region", { name: "Allergens" });
  await expect(allergens.getByRole("listitem")).toHaveText([
    "Cereals containing gluten: strong white flour.",
    "Eggs: beaten egg, egg yolks.",
    "Milk: whole milk, unsalted butter.",
    "Nuts: ground almonds, flaked almonds.",
    /^Raw flour/,
    /^Raw egg/,
  ]);
  await expect(allergens).toContainText("Read every packet");
  // 155 + 184 + 10 + 119 + 8 g, read off the formulas.
  await expect(line(page, /^whole milk/)).toHaveText(
    /^whole milk\s*476\sg\s*Buns: 155\sg for sweet bun dough, 184\sg for almond cream, 10\sg for egg wash; Braid: 119\sg for orange dough, 8\sg for egg wash$/,
  );
  await expect(line(page, /^beaten egg/)).toHaveText(/^beaten egg\s*185\sg\s*4 eggs\. Buns: 60\sg for /);
  await expect(line(page, /^egg yolks/)).toHaveText(/^egg yolks\s*40\sg\s*of 3 eggs\. Buns: for almond cream$/);
  await expect(page.getByText(/^7 eggs in all/)).toBeVisible();
  await expect(line(page, /^2 bowls with covers/)).toHaveText(
    /Buns: sweet bun dough; Braid: orange dough$/,
  );
});

test("ticks stay through a reload, begin no bake, and a bake that comes later asks anew", async ({ app, page }) => {
  await app.startBake(FORMULAS.braid);
  await app.clock.pass(SECOND);
  await toList(app);
  const milk = line(page, /^whole milk/);
  const flour = line(page, /^strong white flour/);
  const brush = line(page, /^Brush/);
  for (const one of [milk, flour, brush]) {
    await one.click();
    await expect(one).toHaveAttribute("aria-pressed", "true");
  }
  // A press that comes twice takes nothing back, and a later one does.
  await flour.click();
  await expect(flour).toHaveAttribute("aria-pressed", "true");
  await app.clock.pass(SECOND);
  await flour.click();
  await expect(flour).toHaveAttribute("aria-pressed", "false");
  await app.reload();
  await expect(milk).toHaveAttribute("aria-pressed", "true");
  await expect(brush).toHaveAttribute("aria-pressed", "true");
  await expect(flour).toHaveAttribute("aria-pressed", "false");
  // Nothing counts as weighed.
  await app.turnTo("#/bench");
  await expect(app.bench.mark(/^whole milk\s*119\sg/).first()).toHaveAttribute("aria-pressed", "false");

  await another(app, FORMULAS.loaf);
  await toList(app);
  await expect(milk).toHaveAttribute("aria-pressed", "false");
  // The loaf needs no almonds, so nothing about them changed; its brush is asked for with it.
  await expect(brush).toHaveAttribute("aria-pressed", "false");
});

test("the Bench's first step leads to the list, and the list back to the Bench of each bake", async ({
  app,
  context,
  page,
}) => {
  await recordShifts(context);
  await twoBakes(app);
  const toGathering = app.bench.main.getByRole("link", { name: "Gathering list" });
  // The plan has the hands at the buns first, and the braid's gathering, which rests, can be done all the same.
  await expect(app.bench.title).toHaveText(`Now at ${FORMULAS.buns}`);
  await expect(toGathering).toBeVisible();
  expect((await toGathering.boundingBox()).height).toBeGreaterThanOrEqual(72);
  await toGathering.click();
  await expect(app.heading).toHaveText("Gathering list");
  const back = page.getByRole("main").getByRole("link", { name: /^To the Bench/ });
  await expect(back).toHaveText(["To the Bench: Buns", "To the Bench: Braid"]);
  await back.first().click();
  await expect(app.bench.whose.locator("[aria-current=true]")).toHaveText(/^Buns/);
  await expect(toGathering).toBeVisible();
  await app.clock.pass(SECOND);
  await app.bench.press();
  await expect(app.bench.title).not.toHaveText("Gather");
  await expect(toGathering).toHaveCount(0);
  expect(await shiftsOf(page)).toEqual([]);
});

test("what is gathered leaves the list, unless everything is asked for", async ({ app, page }) => {
  await twoBakes(app);
  await gatherDone(app, FORMULAS.buns);
  await toList(app);
  const jam = line(page, /^plum jam/);
  await expect(line(page, /^whole milk/)).toHaveText(/127\sg/);
  await expect(jam).toHaveCount(0);
  await page.getByRole("group", { name: "For" }).locator("label", { hasText: "Everything that bakes" }).click();
  await expect(jam).toBeVisible();
  await expect(line(page, /^whole milk/)).toHaveText(/476\sg/);
  await gatherDone(app, FORMULAS.braid);
  await toList(app);
  await expect(page.getByText(/^All of it is gathered/)).toBeVisible();
  await expect(jam).toBeVisible();
  await expect(page.getByRole("group", { name: "For" })).toHaveCount(0);
});
