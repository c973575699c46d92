// An oven that isn't what its dial says, a kitchen high up, pieces in another form, and what a formula's dough holds.

import { FORMULAS } from "../pages/formula.js";
import { MINUTE, SECOND } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

test("an oven that runs cool is set higher, after a reload too, until that is undone", async ({
  app,
}) => {
  await takeUp(app, "Oven on");
  await expect(app.bench.main).toContainText("Set the oven to 190 °C.");

  await app.turnTo("#/kitchen");
  await app.kitchen.ovenOff.shows("");
  await app.kitchen.ovenOff.type(-10);
  await app.kitchen.ovenOff.shows("−10°");
  const equipment = app.kitchen.main.getByRole("region", { name: "Equipment" });
  await expect(equipment).toContainText("Yours runs 10° cool, and the Bench says what to set instead.");

  await app.turnTo("#/bench");
  await expect(app.bench.main).toContainText("Set the oven to 200 °C: it runs 10° cool.");
  await app.reload();
  await expect(app.bench.main).toContainText("Set the oven to 200 °C: it runs 10° cool.");

  await app.bench.pressBeside("Undo");
  await expect(app.bench.main).toContainText("Set the oven to 190 °C.");
  await app.turnTo("#/kitchen");
  await app.kitchen.ovenOff.shows("");
});

test("when an oven that is on is found to run cool, it is said what to turn it to", async ({ app }) => {
  await takeUp(app, "Oven heats");
  await app.turnTo("#/kitchen");
  await app.kitchen.ovenOff.less.click();
  // The first press says that it was looked at, and nothing has to be turned.
  await app.kitchen.ovenOff.shows("0°");
  await app.kitchen.ovenOff.type(-15);
  await expect(app.kitchen.toldOfEquipment).toContainText(
    /Set the oven to 205\s°C: it runs 15° cool\./,
  );
  await app.kitchen.choose("Show temperatures in", "°F");
  await app.kitchen.ovenOff.shows("−27°");
  await expect(app.kitchen.toldOfEquipment).toContainText(/Set the oven to 400\s°F: it runs 27° cool\./);
});

test("high up, the kitchen and every rise say that double is enough", async ({ app }) => {
  await takeUp(app, "Cover the bowl");
  await app.turnTo("#/kitchen");
  const equipment = app.kitchen.main.getByRole("region", { name: "Equipment" });
  await app.kitchen.altitude.type(950);
  await expect(equipment).toContainText("Water boils at 97 °C there");
  await expect(equipment).toContainText(/Rises are forecast 8\s% shorter, and bakes a little longer\./);
  await expect(equipment).not.toContainText("double");
  await app.kitchen.altitude.type(1650);
  await expect(equipment).toContainText("Dough rises further in thin air: stop at double");

  await takeUp(app, "First rise", { asks: "wait", formula: FORMULAS.braid });
  await expect(app.bench.main).not.toContainText("Stop at double its size");
  await app.turnTo("#/kitchen");
  await app.kitchen.altitude.type(1650);
  await app.kitchen.altitude.shows("1650 m");
  await app.turnTo("#/bench");
  await expect(app.bench.main).toContainText("At this height dough rises faster, and its times allow for that. Stop at double its size.");
});

test("buns that touch bake and cool longer, and the bake remembers that they do", async ({
  app,
  page,
}) => {
  await app.open("#/formulas/plum-almond-buns");
  const said = app.formula.fit.getByRole("status").filter({ hasText: "of dough" });
  await expect(said).toHaveText(/^8 buns of 85\sg: /);
  const apart = await app.formula.tableAt();
  await app.formula.bakeAs("Touching, on a tray or in a tin");
  await expect(said).toContainText(/^8 buns of 85\sg, touching: .*forecast for that form/);
  // Reckoned by SciPy's roots, 1.4 times 18 min in the oven.
  await expect.poll(() => app.formula.tableAt()).toBeGreaterThan(apart + 7);
  await app.formula.bakeAs("Round, apart");
  await expect.poll(() => app.formula.tableAt()).toBe(apart);
  await expect(said).not.toContainText("forecast for that form");

  await app.formula.bakeAs("Touching, on a tray or in a tin");
  await app.formula.start.click();
  await expect(app.bench.mainAction).toBeVisible();
  await app.reload();
  await app.bench.giveUp();
  await expect(page.locator(".page-head")).toContainText(/8 buns of 85\sg, touching/);
});

test("a formula tells where its water, sugar and fat come from", async ({ app }) => {
  await app.open("#/formulas/plum-almond-buns");
  const { holds } = app.formula;
  await expect(holds.getByRole("listitem").first()).toBeHidden();
  await holds.getByText(/^Hydration 56\s% of the flour/).click();
  // By hand from USDA SR28: 155 g of milk, 60 g of egg and of butter on 345 g of flour.
  await expect(holds.getByRole("listitem").first()).toHaveText(
    /^Water 56\s%: 40 from whole milk, 13 from beaten egg, 3 from soft unsalted butter$/,
  );
  await expect(holds).toContainText(/Yeast, counted as fresh 4\.4\s%/);
  await expect(holds).not.toContainText("preferment");
  // exp(-0.11 (13.9 - 3)), and what is known of that.
  await expect(holds.getByRole("listitem").last()).toHaveText(
    /^Sugar 14\s% and salt 2\s%: its yeast works at about 30\s% of a lean dough's pace, 15 to 70\s%\. Its times hold that already\.$/,
  );

  await app.turnTo("#/formulas/overnight-tin-loaf");
  await expect(app.heading).toHaveText(FORMULAS.loaf);
  await holds.getByText(/^Hydration/).click();
  await expect(holds).toContainText(/Flour in the preferment 30\s%/);
});

test("what has baked is told of, and calls every few minutes until it is out", async ({ app }) => {
  const { alarm, bench, clock } = app;
  await takeUp(app, "Out of the oven");
  await alarm.stopAll();
  for (let nth = 0; nth < 2; nth += 1) {
    await clock.sleep(2 * MINUTE);
    expect(await alarm.rings()).toBe(false);
    await clock.sleep(2 * MINUTE);
    expect(await alarm.stopAll()).toEqual(["Out of the oven: now"]);
    await expect(bench.main).toContainText(/Baked at \d\d:\d\d, \d\smin ago/);
  }
  await clock.pass(SECOND);
  await bench.press();
  await expect(bench.title).not.toHaveText("Out of the oven");
  await clock.sleep(10 * MINUTE);
  expect(await alarm.shown()).not.toContain("hot oven");
});
