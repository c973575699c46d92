// A rise is drawn: behind its card, and against what another kitchen would make of it.

import { MINUTE } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";
import { SCREENS, expectLegible } from "./quality/measure/drawing.js";
import { recordShifts, shiftsOf } from "./quality/measure/shifts.js";

const RISE = /^First rise/;
const DEGREES = "Show temperatures in";

/** The drawing in the sheet that is open. */
const drawing = (app) => app.bench.sheet.getByRole("img", { name: /^The rise, drawn/ });

/** A first rise that has gone on for half an hour since it was measured. */
async function openRise(app) {
  await takeUp(app, "Toast almonds");
  await app.clock.sleep(30 * MINUTE);
  await app.alarm.stopAll();
  await app.clock.pass(MINUTE);
  await app.bench.card(RISE).click();
  await expect(drawing(app)).toBeVisible();
}

/** Minutes since midnight of a time of day. */
const minutesOf = (time) => time.split(":").reduce((hours, minutes) => 60 * Number(hours) + Number(minutes));

/** How far across the line of the present is, in percent. */
const present = (app) =>
  drawing(app)
    .locator("path.course-now")
    .evaluate((line) => Number(line.getAttribute("d").match(/^M([\d.]+)/)[1]));

test("behind its card a rise is drawn, and said: its start, the present and its window", async ({ app }) => {
  await openRise(app);
  const name = await drawing(app).getAttribute("aria-label");
  expect(name).toMatch(
    /^The rise, drawn\. Start \d\d:\d\d: 25\s°C\. Now \d\d:\d\d: 2[34](\.5)?\s°C, \d\d\s% risen\. Ready /,
  );
  const window = await app.bench.sheet.locator(".digits").first().innerText();
  expect(name).toContain(`Ready ${window}.`);
  const times = window.match(/\d\d:\d\d/g);
  expect(times).toHaveLength(3);
  for (const text of [...times, "now", "ready", "dough °C", "fold"]) {
    await expect(drawing(app).locator("text", { hasText: text })).toHaveCount(1);
  }
  // Nothing but its own lines: the other kitchen's are drawn where it is asked about.
  await expect(drawing(app).locator("path.course-otherwise")).toHaveCount(0);

  const before = await present(app);
  await app.clock.pass(5 * MINUTE);
  await expect.poll(() => present(app)).toBeGreaterThan(before + 3);
});

test("what was measured on the way is a mark on the line, and the line goes on from it", async ({ app }) => {
  await takeUp(app, "First rise", { asks: "wait" });
  await app.bench.card(RISE).click();
  const marks = () =>
    drawing(app)
      .locator("path.course-dots")
      .evaluate((dots) => dots.getAttribute("d").split("M").length - 1);
  const before = await marks();
  await app.page.keyboard.press("Escape");
  await app.bench.measureDough(20);
  await expect(app.bench.answer).toContainText("cooler than expected");
  await app.clock.pass(MINUTE);
  await app.bench.card(RISE).click();
  await expect(drawing(app)).toHaveAttribute("aria-label", /Now \d\d:\d\d: 20(\.5)?\s°C/);
  expect(await marks()).toBe(before + 1);
});

test("a look is a step of the line towards what was seen, and what comes is surer", async ({ app }) => {
  const { bench, clock } = app;
  const risen = async () => {
    const name = await drawing(app).getAttribute("aria-label");
    const [start, end] = name.match(/Ready (\d\d:\d\d) to (\d\d:\d\d)/).slice(1).map(minutesOf);
    return { share: Number(name.match(/(\d\d)\s% risen/)[1]), wide: end - start };
  };
  /** How far the line of the water jumps at once, in percent of the drawing. */
  const jump = () =>
    drawing(app)
      .locator("path.course-surface")
      .evaluate((line) => {
        // Its first part is the water; the second is the mark of the likely moment.
        const [, water] = line.getAttribute("d").split("M");
        const places = water.split("L").map((place) => place.trim().split(" ").map(Number));
        const steps = places.slice(1).map(([x, y], nth) => (x === places[nth][0] ? Math.abs(y - places[nth][1]) : 0));
        return Math.max(...steps);
      });
  await openRise(app);
  const before = await risen();
  // It is drawn to a tenth.
  expect(await jump()).toBeLessThan(0.2);
  await app.page.keyboard.press("Escape");

  await clock.pass(500);
  await bench.card(RISE).click();
  await bench.sheet.locator("summary", { hasText: "How far it has risen" }).click();
  await clock.pass(500);
  await bench.sheet.getByRole("button", { name: "Three quarters" }).click();
  await expect(bench.answer).toContainText("You saw three quarters");
  await clock.pass(MINUTE);

  await bench.card(RISE).click();
  await expect(drawing(app)).toBeVisible();
  const after = await risen();
  expect(after.share).toBeGreaterThan(before.share + 5);
  expect(after.share).toBeLessThan(85);
  expect(after.wide).toBeLessThan(before.wide);
  // The water has a third of the height, so that five in a hundred of its way are more than one of it.
  expect(await jump()).toBeGreaterThan(1);
});

test("another kitchen is drawn against this one, and it is said which is which", async ({
  app,
  context,
  page,
}) => {
  await recordShifts(context);
  await takeUp(app, "Toast almonds");
  await app.clock.sleep(10 * MINUTE);
  const { bench } = app;
  const likely = await bench.likelyEnd(RISE);
  const clock = (minutes) =>
    [Math.floor(minutes / 60), minutes % 60].map((part) => String(part).padStart(2, "0")).join(":");
  const said = bench.sheet.locator("figcaption");
  const otherwise = drawing(app).locator("path.course-otherwise");

  await bench.kitchenButton.click();
  await expect(said).toHaveText(new RegExp(`^Solid line: at \\d+(\\.5)?\\s°C, likely ${clock(likely)}\\.$`));
  await expect(otherwise).toHaveCount(0);
  const { height } = await bench.sheet.locator("figure").boundingBox();
  await page.keyboard.press("Escape");

  const preview = await bench.enterKitchen(27);
  await expect(preview).toContainText("earlier");
  const [, foretold] = (await preview.innerText()).match(/earlier, about (\d\d:\d\d)/);
  await expect(said).toHaveText(
    new RegExp(`^Solid line: at 27\\s°C, likely ${foretold}\\.\\s*Dashed line: as it is, likely ${clock(likely)}\\.$`),
  );
  await expect(otherwise).toHaveCount(1);
  await expect(drawing(app).locator("text", { hasText: `likely ${foretold}` })).toHaveCount(1);
  // Its room was kept.
  expect((await bench.sheet.locator("figure").boundingBox()).height).toBe(height);
  expect(await shiftsOf(page)).toEqual([]);

  await app.clock.pass(500);
  await bench.setEnteredKitchen();
  await bench.card(RISE).click();
  await expect(drawing(app).locator("text", { hasText: `likely ${foretold}` })).toHaveCount(1);
});

test("where nothing rises, nothing is drawn", async ({ app }) => {
  await app.startBake();
  await app.bench.enterKitchen(27);
  await expect(app.bench.sheet.getByRole("img")).toHaveCount(0);
  await expect(app.bench.sheet.locator("figure")).toBeHidden();
});

test("in °F the dough's degrees are °F", async ({ app }) => {
  await takeUp(app, "Toast almonds");
  await app.turnTo("#/kitchen");
  await app.kitchen.choose(DEGREES, "°F");
  await app.turnTo("#/bench");
  await app.bench.card(RISE).click();
  await expect(drawing(app)).toHaveAttribute("aria-label", /Start \d\d:\d\d: 77\s°F/);
  await expect(drawing(app).locator("text", { hasText: "dough °F" })).toHaveCount(1);
  const degrees = await drawing(app).locator("text.course-to").allTextContents();
  expect(degrees.map((text) => Number(text.replace("°", ""))).every((warm) => warm > 60)).toBe(true);
});

test("its texts are large, stand out, and don't lie over each other", async ({ app, page }) => {
  await openRise(app);
  for (const screen of SCREENS) await expectLegible(page, drawing(app), screen);
});
