// Hands are floury, and a press comes late: what it began counts since it happened.

import { MINUTE, SECOND } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

const BAKE = /^Bake/;

test("buns that went in 25 min before it was pressed bake since then, offline", async ({
  app,
  context,
}) => {
  const { alarm, bench, clock } = app;
  await takeUp(app, "Into the oven");
  await context.setOffline(true);
  await clock.sleep(25 * MINUTE);
  await alarm.stopAll();
  await bench.press();
  const pressed = await bench.likelyEnd(BAKE);

  await test.step("the card tells it, and what should be out by now calls at once", async () => {
    expect(await alarm.rings()).toBe(false);
    await bench.tellEarlier(BAKE, "Into the oven was before", /^25 min earlier/);
    await expect(alarm.title).toHaveText("Bake: look now");
    await alarm.stopAll();
    expect(await bench.likelyEnd(BAKE)).toBe(pressed - 25);
    await expect(bench.answer).toHaveText(/^That was at \d\d:\d\d\.$/);
  });

  await test.step("a reload keeps it, and undo gives it back", async () => {
    await app.reload();
    expect(await bench.likelyEnd(BAKE)).toBe(pressed - 25);
    await bench.pressBeside("Undo");
    // By the later moment the filling would have stood out for too long, so it is asked first.
    await expect(bench.sheet).toContainText(/Take back: that it was earlier, \d\d:\d\d\?/);
    await bench.sheet.getByRole("button", { name: "Take it back" }).click();
    await expect.poll(() => bench.likelyEnd(BAKE)).toBe(pressed);
    await expect(bench.answer).toHaveText("Taken back: that it was earlier.");
  });

  await test.step("what it follows was no later than that, and nothing changes", async () => {
    await bench.tellEarlier(BAKE, "Into the oven was before", /^At /, 90);
    await expect(bench.answer).toHaveText(/^By what was said before, that can't have been before \d\d:\d\d\.$/);
    expect(await bench.likelyEnd(BAKE)).toBe(pressed);
  });
});

test("beside bread that is lost by a late press stands how to say that it was sooner", async ({ app }) => {
  const { alarm, bench, clock } = app;
  await takeUp(app, "Into the oven");
  await clock.sleep(25 * MINUTE);
  await alarm.stopAll();
  await bench.press();
  await expect(bench.stood).toContainText("Don't eat it");
  const drawer = bench.main.locator(".asked details", { hasText: "Into the oven was before" });
  const summary = drawer.locator("summary");
  const pressed = await summary.innerText();
  await summary.click();
  await drawer.getByRole("button", { name: /^5 min earlier/ }).click();
  // Not soon enough, and counted from there.
  await expect(bench.stood).toContainText("Don't eat it");
  await expect(summary).not.toHaveText(pressed);
  // It stays open for whoever has more to say.
  await clock.pass(SECOND);
  await drawer.getByRole("button", { name: /^15 min earlier/ }).click();
  await expect(bench.stood).toBeHidden();
  await expect(drawer).toHaveCount(0);
});

test("what had called long before it was pressed is offered in one press, until another", async ({
  app,
}) => {
  const { alarm, bench, clock } = app;
  await takeUp(app, "First rise", { asks: "look" });
  await clock.sleep(20 * MINUTE);
  await alarm.stopAll();
  await bench.press();
  const offer = bench.main.getByRole("button", { name: /^Was it ready at \d\d:\d\d, when it called\?$/ });
  await expect(offer).toBeVisible();
  await offer.click();
  await expect(offer).toHaveCount(0);
  await expect(bench.answer).toHaveText(/^That was at \d\d:\d\d\.$/);
  await bench.pressBeside("Undo");
  await expect(bench.answer).toHaveText("Taken back: that it was earlier.");
  await expect(offer).toHaveCount(0);
});
