// Undo says what it takes back, asks where that was long ago, and can be taken back itself.

import { FORMULAS } from "../pages/formula.js";
import { MINUTE } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

/** What the button says, as it is read. */
const words = (button) => button.innerText().then((text) => text.replace(/\s+/g, " ").trim());

test("what is taken back is said before and after, and a second press long after is asked about", async ({
  app,
}) => {
  const { alarm, bench } = app;
  await takeUp(app, "First rise", { asks: "look" });
  await alarm.stopAll();
  const undo = bench.main.locator(".act-side > .undo");
  const put = bench.main.getByRole("button", { name: "Put back: First rise done" });
  await bench.press();
  await expect(bench.title).toHaveText("Divide");
  expect(await words(undo)).toBe("Undo First rise done");

  await test.step("the slip is taken back at once", async () => {
    await bench.pressBeside("Undo");
    await expect(bench.answer).toHaveText("Taken back: First rise done.");
    await expect(bench.title).toHaveText("First rise");
    await expect(put).toBeVisible();
  });

  await test.step("what is next was long ago: it is told when, and asked", async () => {
    expect(await words(undo)).toMatch(/^Undo, \d\d:\d\d \S/);
    await bench.pressBeside("Undo");
    await expect(bench.sheet).toContainText(/Take back: .*, \d\d:\d\d\?/);
    await bench.sheet.getByRole("button", { name: "No, go back" }).click();
    await expect(bench.title).toHaveText("First rise");
  });

  await test.step("and it can be put back, through a reload", async () => {
    await app.reload();
    await put.click();
    await expect(bench.answer).toHaveText("Put back: First rise done.");
    await expect(bench.title).toHaveText("Divide");
    await expect(put).toHaveCount(0);
  });

  await test.step("until something else happens", async () => {
    await bench.pressBeside("Undo");
    await expect(put).toBeVisible();
    await bench.press();
    await expect(put).toHaveCount(0);
  });
});

test("what was asked of the plan is said, taken back and put back there", async ({ app }) => {
  const { clock, plan } = app;
  await app.open();
  await app.formula.look(FORMULAS.buns);
  await plan.startFor("19:00");
  await plan.later.click();
  await expect(plan.wished).toContainText("19:15");
  expect(await words(plan.undo)).toBe("Undo the table at 19:15");
  await clock.pass(MINUTE / 60);
  await plan.undo.click();
  await expect(plan.wished).toContainText("19:00");
  await clock.pass(MINUTE / 60);
  await app.page.getByRole("button", { name: "Put back: the table at 19:15" }).click();
  await expect(plan.wished).toContainText("19:15");
  await clock.sleep(6 * MINUTE);
  await plan.undo.click();
  await expect(plan.sheet).toContainText(/Take back: the table at 19:15, \d\d:\d\d\?/);
  await plan.sheet.getByRole("button", { name: "Take it back" }).click();
  await expect(plan.wished).toContainText("19:00");
});
