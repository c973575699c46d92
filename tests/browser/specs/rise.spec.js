// A rise is drawn: behind its card, and against what another kitchen would make of it.

import { MINUTE } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";
import { recordShifts, shiftsOf } from "./quality/measure/shifts.js";

const RISE = /^First rise/;
const DEGREES = "Show temperatures in";
const LEAST_PX = 16;
const CONTRAST = 7;
/** Phones, upright and on their side. */
const SCREENS = [
  [390, 844],
  [320, 640],
  [844, 390],
];

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

/** How far across the line of the present is, in percent. */
const present = (app) =>
  drawing(app)
    .locator("path.rise-now")
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
  await expect(drawing(app).locator("path.rise-otherwise")).toHaveCount(0);

  const before = await present(app);
  await app.clock.pass(5 * MINUTE);
  await expect.poll(() => present(app)).toBeGreaterThan(before + 3);
});

test("what was measured on the way is a mark on the line, and the line goes on from it", async ({ app }) => {
  await takeUp(app, "First rise", { asks: "wait" });
  await app.bench.card(RISE).click();
  const marks = () =>
    drawing(app)
      .locator("path.rise-dots")
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
  const otherwise = drawing(app).locator("path.rise-otherwise");

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
  const degrees = await drawing(app).locator("text.rise-to").allTextContents();
  expect(degrees.map((text) => Number(text.replace("°", ""))).every((warm) => warm > 60)).toBe(true);
});

test("its texts are large, stand out, and don't lie over each other", async ({ app, page }) => {
  await openRise(app);
  for (const [width, height] of SCREENS) {
    await page.setViewportSize({ width, height });
    for (const colorScheme of ["light", "dark"]) {
      await page.emulateMedia({ colorScheme });
      const { texts, ratio } = await drawing(app).evaluate(measure);
      const where = `${width} × ${height}, ${colorScheme}`;
      expect.soft(ratio, where).toBeGreaterThanOrEqual(CONTRAST);
      expect.soft(texts.length, where).toBeGreaterThan(8);
      for (const text of texts) {
        expect.soft(text.px, `${where}: ${text.says}`).toBeGreaterThanOrEqual(LEAST_PX);
        expect.soft(text.over, `${where}: ${text.says}`).toEqual([]);
        expect.soft(text.outside, `${where}: ${text.says}`).toBe(false);
      }
    }
  }
});

/** Runs in the page: sizes, overlaps and the contrast of the texts with the sheet they stand on. */
function measure(svg) {
  const texts = [...svg.querySelectorAll("text")];
  const rects = texts.map((text) => text.getBoundingClientRect());
  const sheet = svg.closest("dialog").getBoundingClientRect();
  // Letters don't fill the font's box: a tenth of it is free above and below.
  const meet = (a, b) =>
    a.left < b.right && b.left < a.right && a.top + 2 < b.bottom - 2 && b.top + 2 < a.bottom - 2;
  const luminance = (colour) => {
    const shares = colour.match(/\d+/g).slice(0, 3).map((part) => part / 255);
    const [red, green, blue] = shares.map((share) =>
      share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4,
    );
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const { fill, stroke } = getComputedStyle(texts[0]);
  const ground = getComputedStyle(svg.closest("dialog")).backgroundColor;
  // The letters' rim has the ground's colour, so they stand out from whatever lies behind.
  const [dark, light] = [luminance(fill), luminance(stroke)].sort((a, b) => a - b);
  return {
    ratio: stroke === ground ? (light + 0.05) / (dark + 0.05) : 0,
    texts: texts.map((text, nth) => ({
      says: text.textContent,
      px: parseFloat(getComputedStyle(text).fontSize),
      over: texts.filter((_, other) => other !== nth && meet(rects[nth], rects[other])).map((one) => one.textContent),
      outside: rects[nth].left < sheet.left || rects[nth].right > sheet.right,
    })),
  };
}
