// Promise: axe finds nothing, wherever the baker is, by day and by night, upright and on its side.
//
// Checked against the rules of axe-core for WCAG 2.2 AA and its best practices.

import { PHONE } from "../../support/phone.js";
import { expect, test } from "../../support/test.js";
import { findings, RULES } from "./measure/axe.js";
import { everyPlace } from "./measure/places.js";

/** Those of the rules that look at colours; the others find by night what they find by day. */
const COLOUR_RULES = ["color-contrast", "link-in-text-block"];
const { width, height } = PHONE.viewport;
const POSTURES = [
  { width, height },
  { width: height, height: width },
];

for (const [colorScheme, choose] of [
  ["light", (axe) => axe.withTags(RULES)],
  ["dark", (axe) => axe.withRules(COLOUR_RULES)],
]) {
  test(`axe finds nothing in ${colorScheme}`, async ({ app, page }) => {
    test.setTimeout(420_000);
    await page.emulateMedia({ colorScheme });
    let places = 0;
    for await (const place of everyPlace(app)) {
      places += 1;
      for (const posture of POSTURES) {
        await page.setViewportSize(posture);
        expect.soft(await findings(app, choose), `${place}, ${posture.width} px wide`).toEqual([]);
      }
      await page.setViewportSize(PHONE.viewport);
    }
    expect(places).toBeGreaterThan(35);
  });
}

test("axe does find what is wrong, and what is too faint", async ({ app, page }) => {
  await app.open();
  await page.evaluate(() => {
    document.querySelector("main").append(document.createElement("button"));
  });
  expect(await findings(app, (axe) => axe.withTags(RULES))).toEqual([expect.stringContaining("button-name")]);
  await page.evaluate(() => (document.querySelector("h1").style.color = "silver"));
  const byColour = await findings(app, (axe) => axe.withRules(COLOUR_RULES));
  expect(byColour).toEqual([expect.stringContaining("color-contrast")]);
});
