// What the baker can do on the Bench besides what it asks for.

import { MINUTE, SECOND } from "../support/clock.js";
import { entriesIn } from "../support/database.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

test("a mass that was typed by mistake can be emptied, and stays so", async ({ app }) => {
  await takeUp(app, "Divide");
  const field = app.bench.massOf("Bun 1");
  await app.bench.weigh("Bun 1", 95);
  await expect(app.bench.main).toContainText("trim 10 g");
  await app.bench.weigh("Bun 1", "");
  await expect(app.bench.main).not.toContainText("trim 10 g");
  await app.reload();
  await expect(field).toHaveValue("");
});

test("what falls due announces itself and leaves work that is under way on the screen", async ({
  app,
}) => {
  await takeUp(app, "Mix the dough");
  await app.clock.pass(SECOND);
  await app.bench.main.getByRole("list", { name: "Checklist" }).getByRole("button").first().click();
  await app.clock.sleep(60 * MINUTE);
  await expect(app.alarm.title).toHaveText(/^Cream cools/);
  await app.alarm.stopAll();
  await expect(app.bench.title).toHaveText("Mix the dough");
  await app.clock.pass(SECOND);
  await app.bench.card(/^Cream cools/).click();
  await expect(app.bench.title).toHaveText("Cream cools");
  await expect(app.bench.mainAction).toHaveText("It's ready");
});

test("while a bake is paused only the baker's own timers ring, and what spoils", async ({ app }) => {
  await takeUp(app, "Mix the dough");
  await app.bench.setTimer("Tea", 5);
  const cream = app.bench.card(/^Cream cools/);
  await expect(cream).toBeVisible();
  const sheet = await app.bench.openMore();
  await sheet.getByRole("button", { name: "Pause" }).click();
  await expect(app.bench.main).toContainText("Paused. The dough isn't");
  await expect(app.bench.mainAction).toHaveText("I'm back");

  await app.clock.pass(5 * MINUTE);
  await expect(app.alarm.title).toHaveText("Tea");
  await app.alarm.stop();
  await app.clock.sleep(90 * MINUTE);
  expect(await app.alarm.rings()).toBe(false);
  await app.reload();
  await expect(app.bench.mainAction).toHaveText("I'm back");
  expect(await app.alarm.rings()).toBe(false);

  await test.step("a cooked filling has two hours to cool (FDA Food Code 3-501.14)", async () => {
    await app.clock.sleep(30 * MINUTE);
    await expect(app.alarm.title).toHaveText("Cream cools: under 21 °C (70 °F)?");
    await app.alarm.stop();
    await expect(app.alarm.dialog).toBeHidden();
  });

  await app.bench.press();
  await expect(app.alarm.title).toHaveText(/^Cream cools: look now/);
  await expect(app.alarm.text).toContainText("Overdue by");
});

test("a bake is given up only after the question, and stays in the notebook", async ({ app, page }) => {
  await app.startBake();
  const asked = await app.bench.ask();
  const giveUp = "Give up this bake";
  await (await app.bench.openMore()).getByRole("button", { name: giveUp }).click();
  await app.bench.sheet.getByRole("button", { name: "No, go back" }).click();
  await page.keyboard.press("Escape");
  await expect(app.bench.sheet).toHaveCount(0);
  expect(await app.bench.ask()).toEqual(asked);

  await (await app.bench.openMore()).getByRole("button", { name: giveUp }).click();
  await expect(app.bench.sheet).toContainText("stays in the notebook as far as it got");
  await app.bench.sheet.getByRole("button", { name: giveUp }).click();
  await expect(app.note.ended).toHaveText("Given up at 09:00");
  await app.reload();
  await expect(app.note.ended).toHaveText("Given up at 09:00");
  await app.turnTo("#/bench");
  await expect(app.heading).toHaveText("Nothing is baking.");
});

test("the baker can go back to a step that has ended", async ({ app }) => {
  await app.startBake();
  await app.bench.press();
  await app.bench.press();
  await expect(app.bench.title).toHaveText("Spread the cream");
  await app.bench.goBackTo("Cook the cream");
  await expect(app.bench.title).toHaveText("Cook the cream");
  await app.reload();
  await expect(app.bench.title).toHaveText("Cook the cream");
  await app.bench.press();
  await expect(app.bench.title).toHaveText("Spread the cream");
});

test("a step can be skipped, and the skip can be taken back", async ({ app }) => {
  await app.startBake();
  await app.bench.press();
  await expect(app.bench.title).toHaveText("Cook the cream");
  await app.bench.pressBeside("Leave out");
  await expect(app.bench.title).toHaveText("Spread the cream");
  await app.bench.pressBeside("Undo");
  await expect(app.bench.title).toHaveText("Cook the cream");
});

test("two presses within 400 ms count once", async ({ app, page }) => {
  await app.startBake();
  await app.clock.pass(SECOND);
  const before = await entriesIn(page);
  await app.bench.mainAction.dblclick();
  await expect(app.bench.title).toHaveText("Cook the cream");
  await app.clock.pass(399);
  await app.bench.mainAction.click();
  await app.clock.pass(SECOND);
  await expect(app.bench.title).toHaveText("Cook the cream");
  expect(await entriesIn(page)).toBe(before + 1);
  await app.bench.mainAction.click();
  await expect(app.bench.title).toHaveText("Spread the cream");
});

test("other work can be taken up instead of what is asked, and the rest is laid out", async ({
  app,
}) => {
  const { bench } = app;
  await takeUp(app, "Toast almonds");
  await bench.card(/^First rise/).click();
  await bench.sheet.locator("summary", { hasText: "The whole rise" }).click();
  await bench.sheet.getByRole("button", { name: "It's ready now" }).click();
  await expect(bench.title).toHaveText("Divide");

  const sheet = await bench.openMore();
  await expect(sheet).toContainText("Coming up");
  await expect(sheet).toContainText(/On the table between \d\d:\d\d and \d\d:\d\d, likely \d\d:\d\d/);
  await sheet.getByRole("button", { name: "Toast almonds", exact: true }).click();
  await expect(bench.sheet).toHaveCount(0);
  await expect(bench.title).toHaveText("Toast almonds");
  await app.reload();
  await expect(bench.title).toHaveText("Toast almonds");
});

test("what burns is read without scrolling, before what is weighed for it", async ({ app, page }) => {
  for (const title of ["Cook the cream", "Into the oven", "Plum glaze", "Glaze and coat"]) {
    await takeUp(app, title);
    const caution = page.locator(".asked .caution").first();
    await expect(caution).toContainText(/scald|hot/i);
    await expect(caution, title).toBeInViewport({ ratio: 1 });
    const [text, buttons] = await Promise.all([caution.boundingBox(), page.locator(".act").boundingBox()]);
    expect(text.y + text.height, title).toBeLessThanOrEqual(buttons.y);
  }
});

test("what a list must not make one forget is said in short before it", async ({ app, page }) => {
  for (const [title, said] of [
    ["Gather", /Allergens: .*egg/],
    ["Mix the dough", /Raw flour/],
    ["Fill", /Perishable/],
  ]) {
    await takeUp(app, title);
    const line = page.locator(".cautions-short > li", { hasText: said });
    await expect(line, title).toBeInViewport({ ratio: 1 });
    const list = app.bench.main.getByRole("list", { name: "Checklist" });
    const [short, marks, act] = await Promise.all(
      [line, list, page.locator(".act")].map((one) => one.boundingBox()),
    );
    expect(short.y + short.height, title).toBeLessThanOrEqual(Math.min(marks.y, act.y));
  }
});

test("how warm the liquid should be is in sight with the instruction, on either side", async ({ app, page }) => {
  for (const [width, height] of [
    [390, 844],
    [844, 390],
  ]) {
    await page.setViewportSize({ width, height });
    await takeUp(app, "Mix the dough");
    const liquid = app.bench.main.locator(".liquid");
    await expect(liquid).toHaveText(/^Whole milk at \d+(\.5)?\s°C$/);
    await expect(liquid, `${width} × ${height}`).toBeInViewport({ ratio: 1 });
    await expect(app.bench.instruction).toBeInViewport({ ratio: 1 });
  }
});

test("what comes next and when is said whatever is asked", async ({ app }) => {
  for (const [title, asks] of [
    ["Spread the cream", "work"],
    ["First rise", "fold"],
    ["Rest", "look"],
  ]) {
    await takeUp(app, title, { asks });
    await expect(app.bench.main.locator(".asked-next"), title).toHaveText(/^Next, about \d\d:\d\d: \S/);
  }
});
