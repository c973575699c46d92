// What is set in Kitchen stays set and shows everywhere.

import { FORMULAS } from "../pages/formula.js";
import { Baker } from "../support/baker.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

const OVEN = "Your oven";
const DEGREES = "Show temperatures in";

test("the kitchen's settings survive a reload", async ({ app, page }) => {
  await app.open("#/kitchen");
  await app.kitchen.air.type(18.5);
  await app.kitchen.fridge.type(4);
  await app.kitchen.choose("You knead", "In a stand mixer");
  await app.kitchen.choose(OVEN, "Fan");
  await app.kitchen.choose(DEGREES, "°C");
  const flash = app.kitchen.main.getByRole("button", { name: "Flash the screen slowly" });
  await flash.click();
  await expect(flash).toHaveAttribute("aria-pressed", "false");

  await app.reload();
  await app.kitchen.air.shows("18.5 °C");
  await app.kitchen.fridge.shows("4 °C");
  await expect(app.kitchen.choice("You knead", "In a stand mixer")).toBeChecked();
  await expect(app.kitchen.choice(OVEN, "Fan")).toBeChecked();
  await expect(flash).toHaveAttribute("aria-pressed", "false");
  await app.formula.bake(FORMULAS.buns);
  await expect(app.bench.kitchenButton).toHaveText("Kitchen 18.5 °C");
  expect(page.url()).toContain("#/bench");
});

test("who bakes in °F says how high the kitchen lies in feet", async ({ app }) => {
  await app.open("#/kitchen");
  await app.kitchen.choose(DEGREES, "°F");
  // Nobody types feet into a field that still says metres.
  await app.kitchen.altitude.shows("0 ft");
  await app.kitchen.altitude.type(6000);
  await app.kitchen.altitude.shows("6000 ft");
  await app.kitchen.altitude.more.click();
  await app.kitchen.altitude.shows("6100 ft");
  await app.kitchen.choose(DEGREES, "°C");
  // A foot is 0.3048 m.
  await app.kitchen.altitude.shows("1859 m");
});

test("while a bake runs, the page says what a change does to it", async ({ app }) => {
  await takeUp(app, "Toast almonds");
  await app.turnTo("#/kitchen");
  await expect(app.kitchen.told).toHaveCount(0);
  await app.kitchen.air.type(17);
  await expect(app.kitchen.told).toContainText(
    /^Kitchen 17\s°C\. First rise: \d+\smin later, about \d\d:\d\d, because the dough, now about 2\d(\.5)?\s°C, cools faster/,
  );

  await expect(app.kitchen.toldOfEquipment).toHaveCount(0);

  await takeUp(app, "Oven heats");
  await app.turnTo("#/kitchen");
  await app.kitchen.ovenHeats.type(70);
  await expect(app.kitchen.toldOfEquipment).toContainText(
    /Oven heats: [\dhmin\s]+ later, about \d\d:\d\d, because the oven takes 1\sh 10\smin\./,
  );

  await takeUp(app, "Night in fridge", { asks: "wait", formula: FORMULAS.loaf });
  await app.turnTo("#/kitchen");
  await app.kitchen.fridge.type(10);
  await expect(app.kitchen.told).toHaveText(
    /^Fridge 10\s°C\. A fridge above 8\s°C \(46\s°F\) counts as out\. On the table about \d\d:\d\d, not \d\d:\d\d, above all because final proof takes [\dhmin\s]+ less: the yeast works faster with a warmer fridge\.$/,
  );
});

test("a temperature set by many presses is told as one change", async ({ app }) => {
  await takeUp(app, "Toast almonds");
  const before = await app.bench.likelyEnd(/^First rise/);
  await app.turnTo("#/kitchen");
  for (let press = 0; press < 8; press += 1) await app.kitchen.air.less.click();
  await app.kitchen.air.shows("17 °C");
  await expect(app.kitchen.told).toContainText(/^Kitchen 17\s°C\. First rise: \d+\smin later/);
  const [, told] = (await app.kitchen.told.innerText()).match(/(\d+)\smin later/);
  await app.turnTo("#/bench");
  const moved = (await app.bench.likelyEnd(/^First rise/)) - before;
  expect(moved).toBeGreaterThan(10);
  expect(Math.abs(moved - Number(told))).toBeLessThanOrEqual(1);
});

test("without a bake the page has nothing to say of a change", async ({ app }) => {
  await app.open("#/kitchen");
  await app.kitchen.air.type(17);
  await app.kitchen.air.shows("17 °C");
  await expect(app.kitchen.told).toHaveCount(0);
});

/** Every line on the page with a temperature in °C that doesn't stand beside one in °F. */
async function celsiusAlone(page) {
  const text = await page.locator("body").innerText();
  return text.match(/[^\n]*\d\s?°C(?!\s?\([^)]*°F|, or \d+\s°F)[^\n]*/g) ?? [];
}

test("°F shows everywhere", async ({ app, page }) => {
  test.slow();
  await app.open("#/kitchen");
  await app.kitchen.choose(DEGREES, "°F");
  // 21 °C is 69.8 °F and 5 °C is 41 °F.
  await app.kitchen.air.shows("70 °F");
  await app.kitchen.fridge.shows("41 °F");
  // 72 °F is 22.2 °C.
  await app.kitchen.air.type(72);
  await app.kitchen.air.shows("72 °F");
  for (const place of ["#/", "#/kitchen", "#/formulas", "#/formulas/plum-almond-buns"]) {
    await app.turnTo(place);
    await app.reload();
    expect(await celsiusAlone(page), place).toEqual([]);
  }

  await app.formula.start.click();
  await expect(app.bench.kitchenButton).toHaveText("Kitchen 72 °F");
  const baker = new Baker(app, {});
  const seen = [];
  await test.step("on the Bench at every step", async () => {
    while ((await app.bench.ask()).action !== "Finish") {
      const { title } = await app.bench.ask();
      // What how and why say counts as well.
      await app.bench.main.evaluate((main) =>
        main.querySelectorAll("details").forEach((drawer) => (drawer.open = true)),
      );
      for (const line of await celsiusAlone(page)) seen.push(`${title}: ${line}`);
      if (title === "Dough temperature") {
        await app.bench.doughTemperature.type(77);
        await expect(app.bench.mainAction).toHaveText("It is 77 °F");
      }
      // 190 °C is 374 °F, and dials show steps of 25 °F.
      if (title === "Oven on") await expect(app.bench.main).toContainText("Set the oven to 375 °F");
      if (title === "Bake") await expect(app.bench.main).toContainText("194 °F");
      await baker.actOnce();
    }
    expect([...new Set(seen)]).toEqual([]);
  });
});

const DIALS = [
  // The fan's setting is 20 °C lower: the trade's usual rule, as in the makers' own handbooks.
  ["Fan", "°C", "Set the oven to 170 °C, fan on."],
  ["Top and bottom heat", "°C", "Set the oven to 190 °C."],
  // Gas mark 5 is 190 °C or 375 °F in the usual table of gas marks.
  ["Gas marks", "°C", "Set the oven to gas mark 5."],
  ["Gas marks", "°F", "Set the oven to gas mark 5."],
  ["Top and bottom heat", "°F", "Set the oven to 375 °F."],
];

test("whatever oven the kitchen turns out to have, a running bake says how its dial is set", async ({
  app,
}) => {
  await takeUp(app, "Oven on");
  for (const [kind, degrees, setting] of DIALS) {
    await app.turnTo("#/kitchen");
    await app.kitchen.choose(DEGREES, degrees);
    await app.kitchen.choose(OVEN, kind);
    await app.turnTo("#/bench");
    await expect(app.bench.main, `${kind}, ${degrees}`).toContainText(setting);
  }
  await app.reload();
  await expect(app.bench.main).toContainText(DIALS.at(-1)[2]);
});
