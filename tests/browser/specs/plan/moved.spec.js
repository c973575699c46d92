// What moved in the plan, and why, in one sentence.

import { FORMULAS } from "../../pages/formula.js";
import { MINUTE } from "../../support/clock.js";
import { takeUp } from "../../support/mid-bake.js";
import { expect, test } from "../../support/test.js";

test("a baker who divides twenty minutes late reads what moved, and nothing jumps", async ({
  app,
  page,
}) => {
  await takeUp(app, "Divide");
  const line = app.bench.moved;
  await expect(line).toBeEmpty();
  const buttons = () => page.locator(".bench .act-main").boundingBox();
  const before = await buttons();

  await test.step("while nobody says that it has ended, by what it is behind, on the plan's page", async () => {
    await app.clock.pass(20 * MINUTE);
    await expect(line).toBeEmpty();
    await app.turnTo("#/plan");
    await expect(app.plan.moved).toContainText(
      /Ready at \d\d:\d\d instead of \d\d:\d\d: Divide should have ended 1[234]\smin ago\./,
    );
    await app.turnTo("#/bench");
    expect(await buttons()).toEqual(before);
  });

  await test.step("once it is done, by how much later", async () => {
    await app.clock.pass(7 * MINUTE);
    await app.bench.press();
    await expect(line).toHaveText(
      /^Ready at \d\d:\d\d instead of \d\d:\d\d: Divide was done (19|20|21)\smin later than planned\.$/,
    );
    expect(await buttons()).toEqual(before);
  });

  await test.step("and what follows on time is no news", async () => {
    await app.clock.pass(5 * MINUTE);
    await app.bench.press();
    await expect(line).toBeEmpty();
  });
});

test("what moved is forgotten with the bake that was put away", async ({ app, page }) => {
  await takeUp(app, "Divide");
  await app.clock.pass(27 * MINUTE);
  await app.bench.press();
  await app.turnTo("#/plan");
  const moved = page.getByRole("region", { name: "What moved" });
  await expect(moved).toContainText("Divide was done");
  await app.turnTo("#/bench");
  await app.bench.giveUp();
  await app.turnTo("#/");
  await app.formula.bake(FORMULAS.braid);
  await app.turnTo("#/plan");
  await expect(moved).toContainText("Nothing of what is baking has moved.");
  await expect(moved.getByRole("listitem")).toHaveCount(0);
});
