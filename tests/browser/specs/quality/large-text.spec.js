// Promise: text at 200 % and a screen of 320 px lose nothing.
//
// WCAG 2.2, success criteria 1.4.4 (resize text), 1.4.10 (reflow) and 2.4.11 (focus not obscured).
// Text is made larger both ways that phones have: the browser's own size, which media queries
// see, and the page's, which they don't.

import { FORMULAS } from "../../pages/formula.js";
import { takeUp } from "../../support/mid-bake.js";
import { expect, test } from "../../support/test.js";
import { brokenWords } from "./measure/broken.js";
import { bench } from "./measure/legibility.js";
import { everyPlace } from "./measure/places.js";
import { freeHeight, losses } from "./measure/reflow.js";

const NORMAL_PX = 16;
const SCREENS = [
  { width: 320, height: 640 },
  { width: 390, height: 844 },
];

const ENLARGE = {
  async "the browser's text at 200 %"(page) {
    const session = await page.context().newCDPSession(page);
    const size = 2 * NORMAL_PX;
    await session.send("Page.setFontSizes", { fontSizes: { standard: size, fixed: size } });
  },
  async "the page's text at 200 %"(page) {
    await page.addInitScript(() => {
      const enlarge = () => {
        if (document.documentElement) document.documentElement.style.fontSize = "200%";
      };
      document.addEventListener("readystatechange", enlarge);
      enlarge();
    });
  },
};

for (const [how, enlarge] of Object.entries(ENLARGE)) {
  for (const screen of SCREENS) {
    test(`nothing is lost with ${how} on ${screen.width} px`, async ({ app, page }) => {
      test.setTimeout(300_000);
      await page.setViewportSize(screen);
      await enlarge(page);
      for await (const place of everyPlace(app)) {
        expect.soft(await textSize(page), place).toBe(2 * NORMAL_PX);
        expect.soft(await losses(page), place).toEqual([]);
        expect.soft(await freeHeight(page), `${place}: free height`).toBeGreaterThan(0.25);
        if (place.startsWith("Bench, work")) await reachMainAction(app);
      }
    });
  }
}

for (const [how, enlarge] of Object.entries(ENLARGE)) {
  for (const screen of [...SCREENS, { width: 844, height: 390 }]) {
    test(`what is asked is read whole and all can be pressed with ${how} on ${screen.width} px`, async ({ app, page }) => {
      await page.setViewportSize(screen);
      await enlarge(page);
      await app.open();
      await app.formula.bake(FORMULAS.buns);
      await expect(app.bench.title).toHaveText("Gather");
      const { instruction } = await bench(page);
      expect.soft(instruction.hidden).toEqual([]);
      // The list below it may break a long ingredient.
      const broken = await brokenWords(page);
      expect.soft(broken.filter((word) => word.endsWith(JSON.stringify(instruction.text)))).toEqual([]);
      for (const button of await app.bench.bar.locator(".button").all()) {
        await expect.soft(button).toBeInViewport({ ratio: 0.95 });
      }
      await reachMainAction(app);
    });
  }
}

test("nothing of an instruction is hidden on 320 px with text as it comes", async ({ app, page }) => {
  await page.setViewportSize(SCREENS[0]);
  await app.open();
  await app.formula.bake(FORMULAS.buns);
  await expect(app.bench.title).toHaveText("Gather");
  expect((await bench(page)).instruction.hidden).toEqual([]);
});

test("what is to be entered is in sight beside a clock", async ({ app, page }) => {
  await page.setViewportSize(SCREENS[1]);
  await takeUp(app, "Dough temperature");
  const stepper = app.bench.main.locator(".stepper");
  await expect(stepper).toBeInViewport({ ratio: 1 });
  const [box, act] = [await stepper.boundingBox(), await page.locator(".act-side").boundingBox()];
  expect(box.y + box.height).toBeLessThan(act.y);
});

test("nothing is lost on 320 px with text as it comes", async ({ app, page }) => {
  test.setTimeout(300_000);
  await page.setViewportSize(SCREENS[0]);
  for await (const place of everyPlace(app)) {
    expect.soft(await losses(page), place).toEqual([]);
  }
});

test("a loss is found", async ({ app, page }) => {
  await app.open();
  expect(await losses(page)).toEqual([]);
  await page.evaluate(() => {
    document.querySelector("h1").style.whiteSpace = "nowrap";
    document.querySelector("h1").textContent = "far too long ".repeat(20);
  });
  expect(await losses(page)).not.toEqual([]);
});

async function reachMainAction({ bench }) {
  await bench.mainAction.scrollIntoViewIfNeeded();
  await expect(bench.mainAction).toBeInViewport({ ratio: 0.95 });
  // A press without pressing: nothing may lie over it.
  await bench.mainAction.click({ trial: true });
}

function textSize(page) {
  return page.evaluate(() => parseFloat(getComputedStyle(document.documentElement).fontSize));
}
