// What moved in the plan, and why, in one line above the buttons.

import { MINUTE } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

const LINE = ".act .plan-moved";

test("a baker who divides twenty minutes late reads what moved, and nothing jumps", async ({
  app,
  page,
}) => {
  await takeUp(app, "Divide");
  const line = page.locator(LINE);
  await expect(line).toBeEmpty();
  const buttons = () => page.locator(".act-main").boundingBox();
  const before = await buttons();

  await test.step("while nobody says that it has ended, by what it is behind", async () => {
    await app.clock.pass(20 * MINUTE);
    await expect(line).toHaveText(
      /^Table \d\d:\d\d instead of \d\d:\d\d: Divide should have ended 1[234] min ago\.$/,
    );
    expect(await buttons()).toEqual(before);
  });

  await test.step("once it is done, by how much later", async () => {
    await app.clock.pass(7 * MINUTE);
    await app.bench.press();
    await expect(line).toHaveText(
      /^Table \d\d:\d\d instead of \d\d:\d\d: Divide was done (19|20|21) min later than planned\.$/,
    );
    expect(await buttons()).toEqual(before);
  });

  await test.step("and what follows on time is no news", async () => {
    await app.clock.pass(5 * MINUTE);
    await app.bench.press();
    await expect(line).toBeEmpty();
  });
});
