// The browser is asked to keep the data, once there is something to lose, and what it says is shown.

import { FORMULAS } from "../pages/formula.js";
import { expect, test } from "../support/test.js";

const MAY_CLEAR = "This browser may clear your data when space runs short.";
const PROMISED = "This browser has promised to keep your data.";

for (const [answer, says] of [
  [true, PROMISED],
  [false, MAY_CLEAR],
]) {
  test(`it is asked once, after the first step that was stored, and says ${answer ? "yes" : "no"}`, async ({
    app,
    page,
  }) => {
    await page.addInitScript((answer) => {
      window.asked = 0;
      StorageManager.prototype.persisted = async () => false;
      StorageManager.prototype.persist = async () => {
        window.asked += 1;
        return answer;
      };
    }, answer);
    const asked = () => page.evaluate(() => window.asked);
    await app.open("#/kitchen");
    await expect(app.kitchen.main).toContainText(MAY_CLEAR);
    expect(await asked(), "with nothing to lose").toBe(0);

    await app.turnTo("#/");
    await app.formula.bake(FORMULAS.buns);
    await expect.poll(asked).toBe(1);
    await app.bench.press();
    await app.bench.press();
    expect(await asked(), "after more steps").toBe(1);

    await app.turnTo("#/kitchen");
    await expect(app.kitchen.main).toContainText(says);
  });
}

test("that a private window forgets everything is said wherever a bake may begin", async ({ app }) => {
  await app.open("#/kitchen");
  const warning = "A private window forgets everything when it is closed";
  await expect(app.kitchen.main).toContainText(warning);
});
