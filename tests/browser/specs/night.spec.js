// Before a bake is started, its page says when it would need hands at night.

import { FORMULAS } from "../pages/formula.js";
import { HOUR, MINUTE } from "../support/clock.js";
import { expect, test } from "../support/test.js";

const SAID =
  /^Started now, it needs your hands at night, from 23:\d\d to 0\d:\d\d; started at about (\d\d):(\d\d) it spares the night and comes out of the oven at about 1\d:\d\d on Sunday\.$/;

async function look(app, name) {
  await app.open();
  await app.go("Formulas");
  await app.page.getByRole("main").getByRole("link", { name }).click();
  await expect(app.heading).toHaveText(name);
}

test("the loaf of the morning needs hands at night, and the start it names doesn't", async ({ app }) => {
  await look(app, FORMULAS.loaf);
  await expect(app.formula.night).toHaveText(SAID);
  const [, hours, minutes] = (await app.formula.night.innerText()).match(SAID).map(Number);
  // The test's clock stands at nine.
  await app.clock.sleep((hours - 9) * HOUR + minutes * MINUTE);
  await expect(app.formula.night).toBeEmpty();
});

test("a bake that is over by the evening says nothing of the night", async ({ app }) => {
  await look(app, FORMULAS.buns);
  await expect(app.formula.start).toBeVisible();
  await expect(app.formula.night).toBeEmpty();
});
