// How warm the liquid should be, and what to do where warm or cold alone is not enough.

import { FORMULAS } from "../pages/formula.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

const KNEADING = "You knead";
const FROZEN = /^Whole milk: \d+\sg from the fridge and \d+\sg frozen$/;
const HOURS = /Freezing takes hours\. Without it, the cold liquid brings the dough to \d+(\.5)?\s°C\./;
const FLOUR = /^Spread the flour thin, cover it and chill it for \d*[05]\smin in the fridge: \d+(\.5)?° nearer\.$/;

/** A kitchen on a hot day. */
async function hotKitchen(app, kneading) {
  await app.kitchen.choose(KNEADING, kneading);
  await app.kitchen.air.type(32);
  await app.kitchen.air.shows("32 °C");
}

async function openBuns(app) {
  await app.go("Formulas");
  await app.page.getByRole("main").getByRole("link", { name: FORMULAS.buns }).click();
  await expect(app.heading).toHaveText(FORMULAS.buns);
}

/** The card of a formula's page. */
function card(app) {
  return app.page.locator(".card", { has: app.page.locator(".liquid") });
}

async function tellsOfFreezing(app) {
  await expect(app.page.locator(".liquid")).toHaveText(FROZEN);
  // On the Bench the sentence stands alone, under the instruction.
  const rest = app.page.locator(".card", { hasText: HOURS });
  await expect(rest.getByRole("listitem").filter({ hasText: "flour" })).toHaveText(FLOUR);
}

test("on a hot day a mixer's baker is told what to freeze, what comes of not, and how long flour takes", async ({
  app,
}) => {
  await app.open("#/kitchen");
  await hotKitchen(app, "In a stand mixer");
  await openBuns(app);
  await tellsOfFreezing(app);

  // Two parts that are weighed apart make up the milk of the formula.
  const said = await app.page.locator(".liquid").innerText();
  const [rest, frozen] = said.match(/\d+/g).map(Number);
  expect(rest + frozen).toBe(155);
  expect(frozen).toBeGreaterThan(10);
});

test("hands are never given frozen milk, and where the liquid alone will do nothing is frozen", async ({
  app,
}) => {
  await app.open("#/kitchen");
  await hotKitchen(app, "By hand");
  await openBuns(app);
  await expect(app.page.locator(".liquid")).toHaveText(/^Whole milk at \d+(\.5)?\s°C$/);
  await expect(card(app)).toContainText("out of reach this way");

  await app.go("Kitchen");
  await app.kitchen.choose(KNEADING, "In a stand mixer");
  await app.kitchen.air.type(24);
  await openBuns(app);
  await expect(app.page.locator(".liquid")).toHaveText(/^Whole milk at 19(\.5)?\s°C$/);
  await expect(card(app).getByRole("listitem")).toHaveCount(0);
});

test("the Bench says the same at the step that mixes", async ({ app }) => {
  await takeUp(app, "Mix the dough");
  await app.turnTo("#/kitchen");
  await hotKitchen(app, "In a stand mixer");
  await expect(app.kitchen.told).toContainText(
    /The liquid should now be cold, with \d+\sg of it frozen, instead of at \d+(\.5)?\s°C\. The dough /,
  );
  await app.turnTo("#/bench");
  await expect(app.bench.title).toHaveText("Mix the dough");
  await tellsOfFreezing(app);
});
