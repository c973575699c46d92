// What was planned outlives the page: a reload, a page that was closed for a while, a second tab.

import { FORMULAS } from "../../pages/formula.js";
import { MINUTE, SECOND } from "../../support/clock.js";
import { promisesIn, putInto, storedIn } from "../../support/database.js";
import { takeUp } from "../../support/mid-bake.js";
import { tab } from "../../support/tabs.js";
import { expect, test } from "../../support/test.js";

/** Buns and a braid, begun one after the other, with the braid's gathering under way. */
async function twoBegun(app) {
  await app.startBake(FORMULAS.buns);
  await app.clock.pass(9 * MINUTE);
  await app.bench.press();
  await app.clock.pass(MINUTE);
  await app.turnTo("#/");
  await app.formula.bake(FORMULAS.braid);
  await app.clock.pass(8 * MINUTE);
}

/** All that the plan's page says, once what is planned is stored. */
async function plan(app) {
  await app.clock.pass(SECOND);
  await app.turnTo("#/plan");
  await expect(app.plan.bars.first()).toBeVisible();
  await expect.poll(() => promisesIn(app.page)).toContain('"items"');
  return said(app);
}

async function said(app) {
  await expect(app.plan.bars.first()).toBeVisible();
  const texts = [app.plan.head, app.plan.list, app.plan.moved].map((part) => part.innerText());
  return Promise.all(texts);
}

test("two breads under way are planned to the same minutes after a reload without a network, and in a second tab", async ({
  app,
  clock,
  context,
}) => {
  await app.install();
  await twoBegun(app);
  const before = await plan(app);
  await context.setOffline(true);

  await test.step("at once, and nothing is written for it", async () => {
    const kept = await promisesIn(app.page);
    await app.reload();
    expect(await said(app)).toEqual(before);
    expect(await promisesIn(app.page)).toEqual(kept);
  });

  await test.step("seconds after something was done", async () => {
    await app.turnTo("#/bench");
    await app.clock.pass(2 * SECOND);
    await app.bench.press();
    const after = await plan(app);
    await app.clock.pass(3 * SECOND);
    await app.reload();
    expect(await said(app)).toEqual(after);
  });

  await test.step("in a second tab, which stays with it when the first goes on", async () => {
    const second = await tab(context, clock);
    await second.open("#/plan");
    expect(await said(second)).toEqual(await said(app));
    await app.turnTo("#/bench");
    await app.clock.pass(4 * MINUTE);
    await app.bench.press();
    const after = await plan(app);
    await expect.poll(() => said(second)).toEqual(after);
  });
});

test("what moved while the page was closed is told when it opens, by what was promised", async ({
  app,
  clock,
  context,
  page,
}) => {
  await app.startBake(FORMULAS.buns);
  await app.clock.pass(MINUTE);
  const [head] = await plan(app);
  const [, ready] = head.match(/[Rr]eady about (\d\d:\d\d)/);
  const gathers = await app.plan.times("Gather");
  await page.close();
  await clock.sleep(40 * MINUTE);

  const again = await tab(context, clock);
  await again.open("#/plan");
  await expect(again.plan.bars.first()).toBeVisible();
  const now = await again.page.evaluate(() => 60 * new Date().getHours() + new Date().getMinutes());
  const ago = now - gathers.end;
  await expect(again.plan.moved).toContainText(
    new RegExp(`Ready at \\d\\d:\\d\\d instead of ${ready}: Gather should have ended ${ago}\\smin ago\\.`),
  );
});

test("what was told is told still after a reload, until something else is done", async ({ app }) => {
  await takeUp(app, "Divide");
  await app.clock.pass(27 * MINUTE);
  await app.bench.press();
  await expect(app.bench.moved).toContainText("Divide was done");
  const told = await app.bench.moved.innerText();
  await plan(app);
  await expect(app.plan.moved).toContainText("Divide was done");
  // The bake was taken up without a plan, which the page says until it is opened again; and what had just begun goes on.
  await app.reload();
  const before = await said(app);
  await expect(app.plan.moved).toContainText("Divide was done");
  await app.reload();
  expect(await said(app)).toEqual(before);
  await app.turnTo("#/bench");
  await expect(app.bench.moved).toHaveText(told);

  await app.clock.pass(5 * MINUTE);
  await app.bench.press();
  await expect(app.bench.moved).toBeEmpty();
  await app.turnTo("#/plan");
  await expect(app.plan.moved).toContainText("Divide was done");
});

test("what can't be read of it is made anew, and the page says so", async ({ app, page }) => {
  await app.startBake(FORMULAS.buns);
  await plan(app);
  await expect(app.plan.moved).toContainText("Nothing of what is baking has moved.");
  await putInto(page, "plan", "promises", '{"version":1,"shown":');
  await app.reload();
  await said(app);
  await expect(app.plan.moved).toContainText("What was planned before isn't known on this phone");

  await test.step("once: what is planned now is kept in its place, and nothing is set aside", async () => {
    await app.clock.pass(SECOND);
    await expect.poll(() => promisesIn(page)).toContain('"items"');
    expect((await storedIn(page)).set_aside).toEqual({});
    await app.reload();
    await said(app);
    await expect(app.plan.moved).toContainText("Nothing of what is baking has moved.");
  });
});
