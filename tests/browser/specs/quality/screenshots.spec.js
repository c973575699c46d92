// Takes the README's and the manifest's pictures of the real app. Nothing is compared with them.
//
// They go to `results/screenshots`; with SCREENSHOTS=1 also to `public/screenshots`, from where
// the next build takes them. Clock, kitchen and formula are fixed, so that they come out the same
// each time.

import { copyFile, mkdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { FORMULAS } from "../../pages/formula.js";
import { MINUTE } from "../../support/clock.js";
import { PHONE } from "../../support/phone.js";
import { expect, test } from "../../support/test.js";
import { asksOf } from "./measure/walk.js";

const RESULTS = fileURLToPath(new URL("../../results/screenshots/", import.meta.url));
const PUBLIC = fileURLToPath(new URL("../../../../public/screenshots/", import.meta.url));
/** A picture that weighs more makes the README slow on a phone. */
const MOST_BYTES = 150_000;

const POSTURES = {
  portrait: PHONE.viewport,
  landscape: { width: PHONE.viewport.height, height: PHONE.viewport.width },
};

// One picture px for each CSS px: stores want them small, and the README shows them smaller still.
test.use({ deviceScaleFactor: 1, colorScheme: "light" });

test("pictures of a bake", async ({ app, page }) => {
  test.setTimeout(240_000);
  await app.open();
  await take(page, "today", ["portrait"]);
  await app.turnTo("#/formulas");
  await page.getByRole("main").getByRole("link", { name: FORMULAS.buns }).click();
  await expect(app.heading).toHaveText(FORMULAS.buns);
  await take(page, "formula", ["portrait"]);

  await app.formula.bake(FORMULAS.buns);
  for await (const ask of asksOf(app)) {
    if (ask.kind === "dough temperature") await app.bench.doughTemperature.type(24.5);
    if (ask.title === "Toast almonds") break;
  }
  // Half-way through the first rise, with the cream in its ice water.
  await app.clock.sleep(18 * MINUTE);
  await take(page, "bench", ["portrait", "landscape"]);

  for await (const ask of asksOf(app)) {
    if (ask.title === "Glaze and coat") break;
  }
  for (let marks = 0; marks < 5; marks += 1) await app.bench.press();
  await take(page, "pieces", ["portrait", "landscape"]);
});

async function take(page, name, postures) {
  await mkdir(RESULTS, { recursive: true });
  for (const posture of postures) {
    await page.setViewportSize(POSTURES[posture]);
    await page.evaluate(() => {
      document.activeElement?.blur();
      scrollTo(0, 0);
    });
    const file = `${name}-${posture}.png`;
    await page.screenshot({ path: join(RESULTS, file), animations: "disabled", caret: "hide" });
    expect((await stat(join(RESULTS, file))).size, file).toBeLessThan(MOST_BYTES);
    if (process.env.SCREENSHOTS === "1") {
      await mkdir(PUBLIC, { recursive: true });
      await copyFile(join(RESULTS, file), join(PUBLIC, file));
    }
  }
  await page.setViewportSize(PHONE.viewport);
}
