// Takes the README's and the manifest's pictures of the real app. Nothing is compared with them.
//
// They go to `results/screenshots`; with SCREENSHOTS=1 also to `public/screenshots`, from where
// the next build takes them. Clock, kitchen and formula are fixed, so that they come out the same
// each time.

import { copyFile, mkdir, stat } from "node:fs/promises";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { FORMULAS } from "../../pages/formula.js";
import { minuteOf } from "../../pages/plan.js";
import { Baker } from "../../support/baker.js";
import { MINUTE, SECOND } from "../../support/clock.js";
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
  // Lengths are told once the cards can be seen, which takes time that stands still here.
  await app.clock.pass(SECOND);
  await expect(page.getByRole("main")).toContainText("from flour to table");
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

test("a picture of the plan, in the middle of a bake for a table", async ({ app, page }) => {
  await app.open();
  await app.formula.look(FORMULAS.buns);
  await app.plan.startFor("19:00");
  await app.clock.sleep(((await app.plan.begins()) - minuteOf("09:00")) * MINUTE);
  await app.turnTo("#/bench");
  // The dough begins to rise, the cream is in its ice water, and the hands have something to do.
  await new Baker(app).until("Toast almonds");
  await app.plan.turnTo();
  await take(page, "plan", ["portrait"], page.locator(".plan-lanes"));
});

/** Takes pictures of what is on the screen, from its top or from an element on. */
async function take(page, name, postures, from) {
  await mkdir(RESULTS, { recursive: true });
  for (const posture of postures) {
    await page.setViewportSize(POSTURES[posture]);
    await page.evaluate(() => {
      document.activeElement?.blur();
      scrollTo(0, 0);
    });
    await from?.evaluate((element) => {
      element.style.scrollMarginTop = "0.5rem";
      element.scrollIntoView({ behavior: "instant" });
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
