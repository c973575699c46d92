// What goes on by itself: put off, left out, and called ready before its time.

import { MINUTE, SECOND } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

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

test("it's ready now: what goes on by itself can be ended before its window", async ({ app }) => {
  await takeUp(app, "Rest", { asks: "wait" });
  await app.bench.press();
  await expect(app.bench.title).toHaveText("Roll out");
  await expect(app.bench.card(/^Rest/)).toHaveCount(0);
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
    await drawer.getByRole("button", { name: "Leave out" }).click();
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
  const say = async (name, drawer) => {
    await clock.pass(SECOND);
    await rise.click();
    await expect(bench.sheet.getByRole("heading")).toHaveText("First rise");
    // Its card counts to a fold, which is what the sheet begins with.
    const whole = bench.sheet.locator("details", { hasText: "The whole rise" });
    await whole.locator("summary", { hasText: "The whole rise" }).click();
    if (drawer) {
      await whole.locator("summary", { hasText: drawer }).click();
    }
    await whole.getByRole("button", { name }).click();
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
  await say("Leave out", "Leave it out");
  await expect(rise).toHaveCount(0);
  await undo();
  await say("It's ready now");
  await expect(rise).toHaveCount(0);
  await undo();
});

test("a fold is made, put off and left out at its card before it is due, and the rise goes on", async ({
  app,
}) => {
  const { bench } = app;
  await takeUp(app, "Toast almonds");
  const rise = bench.card(/^First rise/);
  const before = await rise.getAttribute("aria-label");
  for (const name of ["Folded now", "Leave this fold out"]) {
    await bench.sayAtCard(/^First rise/, name);
    // The clock counts to the end of the rise instead.
    await expect(rise).toHaveAttribute("aria-label", /^First rise: look in /);
    await bench.pressBeside("Undo");
    await expect(rise).toHaveAttribute("aria-label", /^First rise: fold: look in /);
  }
  await bench.sayAtCard(/^First rise/, /^10\smin longer$/);
  await expect(bench.answer).toHaveText(/^First rise: I'll call you at \d\d:\d\d\.$/);
  await expect(rise).not.toHaveAttribute("aria-label", before);
  await app.reload();
  await expect(rise).toHaveAttribute("aria-label", /^First rise: fold: look in /);
});

test("the oven is put off where it is called for, and put on before that", async ({ app }) => {
  const { alarm, bench, clock } = app;
  await takeUp(app, "Oven on");
  await alarm.stopAll();
  await bench.pressBeside(/^Not yet, 10\smin$/);
  await expect(bench.title).not.toHaveText("Oven on");
  await bench.sayAtCard(/^Final proof/, "The oven is on");
  await expect(bench.card(/^Oven heats/)).toBeVisible();
  await bench.pressBeside("Undo");
  await expect(bench.card(/^Oven heats/)).toHaveCount(0);
  await clock.pass(10 * MINUTE);
  await expect(alarm.title).toBeVisible();
  await alarm.stopAll();
  await expect(bench.title).toHaveText("Oven on");
});

test("the oven is turned on early as other work", async ({ app }) => {
  const { bench } = app;
  await takeUp(app, "Final proof", { asks: "wait" });
  const more = await bench.openMore();
  await more.getByRole("button", { name: "Oven on", exact: true }).click();
  await expect(bench.title).toHaveText("Oven on");
  await bench.press();
  await expect(bench.card(/^Oven heats/)).toBeVisible();
});
