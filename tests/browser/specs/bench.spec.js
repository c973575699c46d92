// What the baker can do on the Bench besides what it asks for.

import { MINUTE, SECOND } from "../support/clock.js";
import { storedIn } from "../support/database.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

/** How many entries the log of the only bake has. */
async function entries(page) {
  return Object.keys((await storedIn(page)).bakes).length;
}

test("several timers set by hand run side by side, and each rings under its name", async ({ app }) => {
  await app.startBake();
  await app.bench.setTimer("Tea", 4);
  await app.bench.setTimer("Eggs", 7);
  await app.bench.setTimer("Laundry", 45);
  // Half a second passes before each is set.
  await expect(app.bench.clockOf(/^Tea/)).toHaveText("3:59");
  await expect(app.bench.clockOf(/^Eggs/)).toHaveText("7:00");
  await expect(app.bench.clockOf(/^Laundry/)).toHaveText("45min");
  await app.clock.pass(4 * MINUTE - SECOND);
  await expect(app.alarm.title).toHaveText("Tea");
  await app.alarm.stop();
  await expect(app.bench.card(/^Tea/)).toHaveCount(0);
  await expect(app.bench.clockOf(/^Eggs/)).toHaveText("3:01");
  await app.clock.pass(3 * MINUTE + SECOND);
  await expect(app.alarm.title).toHaveText("Eggs");
});

test("a timer that was put away doesn't ring", async ({ app, page }) => {
  await app.startBake();
  await app.bench.setTimer("Tea", 4);
  await app.bench.setTimer("Eggs", 7);
  await app.bench.bar.getByRole("button", { name: "Timer" }).click();
  await app.bench.sheet.getByRole("button", { name: "Stop Tea" }).click();
  await expect(app.bench.sheet.getByRole("button", { name: "Stop Tea" })).toHaveCount(0);
  await page.keyboard.press("Escape");
  await expect(app.bench.card(/^Tea/)).toHaveCount(0);
  await app.clock.pass(5 * MINUTE);
  expect(await app.alarm.rings()).toBe(false);
  await app.clock.pass(2 * MINUTE);
  await expect(app.alarm.title).toHaveText("Eggs");
});

test("not yet, 10 min: it calls again ten minutes later, and not before", async ({ app }) => {
  await takeUp(app, "Rest", { asks: "look" });
  await app.bench.pressBeside(/^Not yet, 10\smin$/);
  const at = (await app.now()) + 10 * MINUTE;
  const time = new Date(at).toLocaleTimeString("en-GB", {
    timeZone: "Europe/London",
    hour: "2-digit",
    minute: "2-digit",
  });
  await expect(app.bench.answer).toHaveText(`Rest: I'll call you at ${time}.`);
  await expect(app.bench.mainAction).toHaveText("It's ready now");
  await app.clock.pass(10 * MINUTE - SECOND);
  expect(await app.alarm.rings()).toBe(false);
  await app.clock.pass(SECOND);
  await expect(app.alarm.title).toHaveText("Rest: look now");
  await app.alarm.stop();
  await expect(app.bench.mainAction).toHaveText("It's ready");
});

test("a fold can be put off and left out, and either can be taken back", async ({ app }) => {
  await takeUp(app, "First rise", { asks: "fold" });
  await app.bench.pressBeside(/^Not yet, 10\smin$/);
  await expect(app.bench.answer).toHaveText(/^First rise: I'll call you at \d\d:\d\d\.$/);
  await expect(app.bench.mainAction).not.toHaveText("Folded");
  await app.clock.pass(10 * MINUTE - SECOND);
  expect(await app.alarm.rings()).toBe(false);
  await app.clock.pass(SECOND);
  await expect(app.alarm.title).toHaveText("Fold the dough");
  await app.alarm.stop();
  await expect(app.bench.mainAction).toHaveText("Folded");

  await app.bench.leaveFoldOut();
  await expect(app.bench.mainAction).not.toHaveText("Folded");
  await app.bench.pressBeside("Undo");
  await expect(app.bench.answer).toHaveText("Taken back: fold 1 left out.");
  await expect(app.bench.mainAction).toHaveText("Folded");
  await app.bench.leaveFoldOut();
  await expect(app.bench.mainAction).not.toHaveText("Folded");
  await app.reload();
  await expect(app.bench.mainAction).not.toHaveText("Folded");
});

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

test("a temperature in the middle is answered with how much longer it takes", async ({ app }) => {
  await takeUp(app, "Bake", { asks: "look" });
  await app.bench.measureCore(80);
  await expect(app.bench.answer).toHaveText(
    /^80\s°C in the middle, 90\s°C wanted: about [3-9]\smin more\.$/,
  );
  await expect(app.bench.mainAction).toHaveText("It's ready now");
});

test("it's ready now: what goes on by itself can be ended before its window", async ({ app }) => {
  await takeUp(app, "Rest", { asks: "wait" });
  await app.bench.press();
  await expect(app.bench.title).toHaveText("Roll out");
  await expect(app.bench.card(/^Rest/)).toHaveCount(0);
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
  const giveUp = "Give this bake up";
  await (await app.bench.openMore()).getByRole("button", { name: giveUp }).click();
  await app.bench.sheet.getByRole("button", { name: "No, leave it" }).click();
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
  await app.bench.pressBeside("Skip");
  await expect(app.bench.title).toHaveText("Spread the cream");
  await app.bench.pressBeside("Undo");
  await expect(app.bench.title).toHaveText("Cook the cream");
});

test("two presses within 400 ms count once", async ({ app, page }) => {
  await app.startBake();
  await app.clock.pass(SECOND);
  const before = await entries(page);
  await app.bench.mainAction.dblclick();
  await expect(app.bench.title).toHaveText("Cook the cream");
  await app.clock.pass(399);
  await app.bench.mainAction.click();
  await app.clock.pass(SECOND);
  await expect(app.bench.title).toHaveText("Cook the cream");
  expect(await entries(page)).toBe(before + 1);
  await app.bench.mainAction.click();
  await expect(app.bench.title).toHaveText("Spread the cream");
});

test("other work can be taken up instead of what is asked, and the rest is laid out", async ({
  app,
}) => {
  await takeUp(app, "Toast almonds");
  const sheet = await app.bench.openMore();
  await expect(sheet).toContainText("Coming up");
  await expect(sheet).toContainText(/On the table between \d\d:\d\d and \d\d:\d\d, likely \d\d:\d\d/);
  await app.page.keyboard.press("Escape");
  await app.bench.card(/^First rise/).click();
  await app.page.keyboard.press("Escape");
  await expect(app.bench.title).toHaveText("Toast almonds");
});

test("ten minutes longer: a wait is put off before it is due, and left out", async ({ app }) => {
  const { alarm, bench, clock } = app;
  await takeUp(app, "Rest", { asks: "wait" });

  await test.step("it calls ten minutes later than it would have", async () => {
    await bench.pressBeside(/^10\smin longer$/);
    await expect(bench.answer).toHaveText(/^Rest: I'll call you at \d\d:\d\d\.$/);
    // It has just begun, and the formula says 15 min.
    await clock.sleep(16 * MINUTE);
    expect(await alarm.rings()).toBe(false);
    await clock.sleep(8 * MINUTE);
    expect(await alarm.rings()).toBe(false);
    await clock.sleep(2 * MINUTE);
    await expect(alarm.title).toHaveText(/^Rest/);
    await alarm.stopAll();
  });

  await test.step("once due it is put off by ten minutes from now", async () => {
    await bench.pressBeside(/^Not yet, 10\smin$/);
    await expect(bench.mainAction).toHaveText("It's ready now");
    await expect(bench.clockOf(/^Rest/)).toHaveText(/^\s?(10min|9:59)$/);
  });

  await test.step("left out behind a word on what follows, and taken back", async () => {
    const drawer = bench.main.locator("details", { hasText: "Leave it out" });
    await drawer.locator("summary").click();
    await expect(drawer).toContainText("spring back, and can tear. Undo takes it back.");
    await drawer.getByRole("button", { name: "Skip" }).click();
    await expect(bench.title).toHaveText("Roll out");
    await bench.pressBeside("Undo");
    await expect(bench.title).toHaveText("Rest");
    await expect(bench.card(/^Rest/)).toBeVisible();
  });
});

test("what goes on meanwhile is put off, left out and ended at its card, whatever is asked", async ({
  app,
}) => {
  const { bench, clock, page } = app;
  await takeUp(app, "Toast almonds");
  const rise = bench.card(/^First rise/);
  const cards = await bench.cards();
  /** Says something of the rise; the focus of whoever uses keys doesn't go with its card. */
  const say = async (name) => {
    await clock.pass(SECOND);
    await rise.click();
    await expect(bench.sheet.getByRole("heading")).toHaveText("First rise");
    await bench.sheet.getByRole("button", { name }).click();
    await expect(bench.sheet).toHaveCount(0);
    await expect(page.locator(":focus")).toHaveCount(1);
  };
  const undo = async () => {
    await bench.pressBeside("Undo");
    await expect.poll(async () => (await bench.cards()).map(({ window }) => window)).toEqual(
      cards.map(({ window }) => window),
    );
  };

  await say(/^10\smin longer$/);
  await expect(bench.title).toHaveText("Toast almonds");
  await expect(bench.answer).toHaveText(/^First rise: I'll call you at \d\d:\d\d\.$/);
  await undo();
  await say("Leave it out");
  await expect(rise).toHaveCount(0);
  await undo();
  await say("It's ready now");
  await expect(rise).toHaveCount(0);
  await undo();
});

test("the dough's temperature is answered with what it does to the window", async ({ app }) => {
  await takeUp(app, "Dough temperature");
  await app.bench.doughTemperature.type(23);
  await app.bench.press();
  await expect(app.bench.answer).toHaveText(
    /^2° cool: first rise will take about \d+\smin longer, fold at \d\d:\d\d, ready about \d\d:\d\d\.$/,
  );
});

test("no temperature is recorded that nobody entered", async ({ app, page }) => {
  const { bench, clock } = app;
  const { doughTemperature, mainAction } = bench;
  await takeUp(app, "Dough temperature");
  const before = await entries(page);

  await test.step("a careless press on the main action", async () => {
    await doughTemperature.shows("");
    await expect(mainAction).toHaveText("Enter the temperature");
    await clock.pass(SECOND);
    // What is disabled can still be hit by a finger.
    await mainAction.click({ force: true });
    await clock.pass(SECOND);
    await expect(bench.title).toHaveText("Dough temperature");
    expect(await entries(page)).toBe(before);
  });

  await test.step("the first press of a button lands on what is expected, the next goes on", async () => {
    await doughTemperature.less.click();
    await expect(mainAction).toHaveText("It is 25 °C");
    await doughTemperature.less.click();
    await expect(mainAction).toHaveText("It is 24.5 °C");
  });

  await test.step("what was entered doesn't wait at the step when the baker comes back to it", async () => {
    await bench.press();
    await bench.pressBeside("Undo");
    await expect(bench.title).toHaveText("Dough temperature");
    await expect(mainAction).toHaveText("Enter the temperature");
    await doughTemperature.shows("");
  });

  await test.step("in the middle of a bun, and again after a reading", async () => {
    await takeUp(app, "Bake", { asks: "look" });
    const drawer = bench.main.locator("details", { hasText: "Temperature in the middle" });
    const take = drawer.locator(".button-main");
    await drawer.locator("summary").click();
    const stored = await entries(page);
    await expect(take).toHaveText("Enter the temperature");
    await take.click({ force: true });
    await clock.pass(SECOND);
    expect(await entries(page)).toBe(stored);
    await bench.measureCore(80);
    await expect(take).toHaveText("Enter the temperature");
    await take.click({ force: true });
    await clock.pass(SECOND);
    expect(await entries(page)).toBe(stored + 1);
  });
});

test("a number that can't be right is refused with a sentence, and nothing is stored", async ({
  app,
  page,
}) => {
  await takeUp(app, "Dough temperature");
  const before = await entries(page);
  await app.bench.doughTemperature.type(95);
  await app.clock.pass(SECOND);
  await app.bench.mainAction.click();
  await expect(app.bench.answer).toContainText("can't be right for the dough temperature");
  await expect(app.bench.title).toHaveText("Dough temperature");
  expect(await entries(page)).toBe(before);
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
