// What cools is drawn behind its card: how warm it is in the middle and on average, and by when how cold.

import { FORMULAS } from "../pages/formula.js";
import { MINUTE, SECOND } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";
import { SCREENS, expectLegible } from "./quality/measure/drawing.js";

const CREAM = /^Cream cools/;
const LINES = "Solid line: the middle. Dashed line: all of it, on average.";

/** The drawing in the sheet that is open. */
const drawing = (app) => app.bench.sheet.getByRole("img", { name: /^The cooling, drawn/ });
/** What is said under it. */
const said = (app) => app.bench.sheet.locator("figcaption");
const labels = (app, text) => drawing(app).locator("text", { hasText: text });

/** A cream that has been in ice water for some minutes: while the dough is made, or once nothing else is to do. */
async function openCream(app, minutes = 8, [title, asks] = ["Cream cools", "wait"]) {
  await takeUp(app, title, { asks });
  await app.clock.sleep(minutes * MINUTE);
  await app.alarm.stopAll();
  await app.clock.pass(SECOND);
  await app.bench.card(CREAM).click();
  await expect(drawing(app)).toBeVisible();
}

test("behind its card a cream is drawn with its window, and what food that spoils has to keep to", async ({
  app,
}) => {
  await openCream(app);
  const window = await app.bench.sheet.locator(".digits").first().innerText();
  const name = await drawing(app).getAttribute("aria-label");
  expect(name).toMatch(
    /^The cooling, drawn\. Start \d\d:\d\d: 80\s°C\. Now \d\d:\d\d: [\d.]+\s°C in the middle, [\d.]+\s°C on average\. 5\s°C in the middle: /,
  );
  expect(name).toContain(`: ${window}.`);
  const [, middle, mean] = name.match(/: ([\d.]+)\s°C in the middle, ([\d.]+)\s°C on average/);
  expect(Number(mean)).toBeLessThan(Number(middle));
  for (const text of ["middle °C", "now", "80°", "21°", "5°", ...window.match(/\d\d:\d\d/g)]) {
    await expect(labels(app, new RegExp(`^(likely )?${text}$`))).toHaveCount(1);
  }
  const lines = (await said(app).innerText()).split("\n");
  expect(lines).toHaveLength(3);
  expect(lines[0]).toBe(LINES);
  for (const [nth, cold, hours] of [
    [1, 21, 2],
    [2, 5, 6],
  ]) {
    const line = new RegExp(
      `^${cold}\\s°C by (\\d\\d:\\d\\d), ${hours}\\sh after 57\\s°C: likely \\d\\d:\\d\\d, in time\\.$`,
    );
    const [, by] = lines[nth].match(line);
    await expect(labels(app, new RegExp(`^by ${by}$`))).toHaveCount(1);
  }
});

test("what was measured is a mark on the drawing, and the line goes on from it", async ({ app }) => {
  await openCream(app);
  const dots = drawing(app).locator("path.course-dots");
  expect(await dots.getAttribute("d")).toBe("");
  await app.page.keyboard.press("Escape");
  await app.bench.measureCore(60);
  await app.clock.pass(SECOND);
  await app.bench.card(CREAM).click();
  await expect(drawing(app)).toHaveAttribute(
    "aria-label",
    /Now (\d\d:\d\d): 60\s°C in the middle.* Measured \1: 60\s°C\.$/,
  );
  expect((await dots.getAttribute("d")).split("M")).toHaveLength(2);
});

test("a cream that is left in the kitchen is never in time, and that is said in words", async ({ app }) => {
  // After twenty minutes in ice water it would come to 21 °C in the kitchen as well.
  await openCream(app, 1, ["Mix the dough", "work"]);
  const { bench, clock } = app;
  await bench.sheet.locator("summary", { hasText: "It stands in ice water" }).click();
  await clock.pass(SECOND);
  await bench.sheet.getByRole("button", { name: "In the kitchen" }).click();
  await clock.pass(SECOND);
  await expect(bench.card(CREAM)).toHaveAttribute("aria-label", "Cream cools: never cold enough there");
  await expect(bench.clockOf(CREAM)).toHaveText("–");
  await bench.card(CREAM).click();
  await expect(drawing(app)).toHaveAttribute("aria-label", /5\s°C in the middle: never\.$/);
  await expect(bench.sheet.locator(".digits").first()).toHaveText("never cold enough there");
  await expect(said(app)).toContainText(/21\s°C by .*, too late\./);
  await expect(said(app)).toContainText(/5\s°C by .*: not in this place\./);
  await expect(labels(app, /^late: after \d\d:\d\d$/)).toHaveCount(2);
});

test("what has been baked is drawn as it cools, with no rule to keep to", async ({ app }) => {
  await takeUp(app, "Cool", { asks: "wait", formula: FORMULAS.braid });
  await app.clock.sleep(5 * MINUTE);
  await app.bench.card(/^Cool/).click();
  await expect(drawing(app)).toHaveAttribute("aria-label", /Start \d\d:\d\d: 95\s°C.*32\s°C in the middle: \d/);
  await expect(said(app)).toHaveText(LINES);
});

test("its texts are large, stand out, and don't lie over each other", async ({ app, page }) => {
  await openCream(app);
  for (const screen of SCREENS) await expectLegible(page, drawing(app), screen);
});
