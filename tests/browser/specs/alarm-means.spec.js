// By which means an alarm calls: the sound that grows, the flash, and how the baker tries them.

import { FORMULAS } from "../pages/formula.js";
import { MINUTE, SECOND } from "../support/clock.js";
import { entriesIn } from "../support/database.js";
import { withTimer } from "../support/mid-bake.js";
import { notifications, ringing, vibrations } from "../support/senses.js";
import { expect, test } from "../support/test.js";

/** Runs in the page: what is asked of the loudness, with its moment by the sound's own clock, in s. */
function noteLoudness() {
  window.loudness = [];
  for (const how of ["setValueAtTime", "linearRampToValueAtTime"]) {
    const real = AudioParam.prototype[how];
    AudioParam.prototype[how] = function (value, at) {
      window.loudness.push({ how, value, at });
      return real.call(this, value, at);
    };
  }
}

const loudness = (page) => page.evaluate(() => window.loudness);

/** It begins at a quarter of its loudness, and is at its full after half a minute. */
function expectGrowing([first, last]) {
  expect(first.how).toBe("setValueAtTime");
  expect(first.value).toBeGreaterThan(0);
  expect(last.how).toBe("linearRampToValueAtTime");
  expect(last.value / first.value).toBeCloseTo(4, 3);
  expect(last.at - first.at).toBeCloseTo(30, 3);
}

/** How the alarm's screen changes its colour by itself. */
function flashOf(app) {
  return app.alarm.dialog.evaluate((dialog) => {
    const { animationName, animationDuration, backgroundColor } = getComputedStyle(dialog);
    const frames = dialog.getAnimations().flatMap((one) => one.effect.getKeyframes());
    return {
      name: animationName,
      seconds: parseFloat(animationDuration),
      colours: frames.map((frame) => frame.backgroundColor).filter(Boolean),
      now: backgroundColor,
    };
  });
}

test("the sound grows louder over half a minute, and anew at every alarm", async ({ app, page }) => {
  await page.addInitScript(noteLoudness);
  await withTimer(app, 3);
  await app.bench.setTimer("Eggs", 5);
  expect(await loudness(page)).toEqual([]);
  await app.clock.pass(3 * MINUTE);
  await expect(app.alarm.title).toHaveText("Tea");
  const first = await loudness(page);
  expect(first).toHaveLength(2);
  expectGrowing(first);

  await app.clock.pass(MINUTE);
  expect(await loudness(page), "while it rings nothing begins again").toHaveLength(2);
  await app.alarm.stop();
  await app.clock.pass(MINUTE);
  await expect(app.alarm.title).toHaveText("Eggs");
  const both = await loudness(page);
  expect(both).toHaveLength(4);
  expectGrowing(both.slice(2));
});

test("the screen flashes no faster than once a second", async ({ app }) => {
  await withTimer(app, 3);
  await app.clock.pass(3 * MINUTE);
  await expect(app.alarm.dialog).toBeVisible();
  const { name, seconds, colours } = await flashOf(app);
  expect(name).toBe("flash");
  // WCAG 2.2, 2.3.1, allows three a second. A change there and back is one flash.
  const changes = colours.filter((colour, place) => place > 0 && colour !== colours[place - 1]);
  expect(changes.length).toBeGreaterThan(0);
  expect(Math.ceil(changes.length / 2) / seconds).toBeLessThanOrEqual(1);
});

test("where less motion is wanted, the alarm's colour stands, and the app says so", async ({
  app,
  page,
}) => {
  const SAID = "the alarm's colour stands and doesn't flash";
  await app.open("#/kitchen");
  await expect(app.kitchen.main).toContainText("A private window");
  await expect(app.kitchen.main).not.toContainText(SAID);

  await page.emulateMedia({ reducedMotion: "reduce" });
  await app.reload();
  await expect(app.kitchen.main).toContainText(SAID);
  const behind = await page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  await withTimer(app, 3);
  await app.clock.pass(3 * MINUTE);
  await expect(app.alarm.dialog).toBeVisible();
  const { name, colours, now } = await flashOf(app);
  expect({ name, colours }).toEqual({ name: "none", colours: [] });
  expect(now).toMatch(/^rgb\(/);
  expect(now).not.toBe(behind);
});

test.describe("testing the alarm", () => {
  const button = (app) => app.kitchen.main.getByRole("button", { name: "Test the alarm" });

  test("it rings as an alarm does until it is stopped, and no bake knows of it", async ({
    app,
    page,
  }) => {
    await page.addInitScript(noteLoudness);
    await withTimer(app, 10);
    const entries = await entriesIn(page);
    await app.turnTo("#/kitchen");
    await button(app).click();
    await expect(app.alarm.title).toHaveText("Only a test");
    expect(await ringing(page)).toBe(1);
    expectGrowing(await loudness(page));
    expect((await flashOf(app)).name).toBe("flash");

    await app.clock.pass(30 * SECOND);
    await expect(app.alarm.title).toHaveText("Only a test");
    expect(await ringing(page)).toBe(1);
    const shaken = (await vibrations(page)).filter((pattern) => pattern !== 0);
    expect(shaken.length, "it shakes again and again").toBeGreaterThanOrEqual(6);

    await app.alarm.stop();
    await expect(app.alarm.dialog).toBeHidden();
    await expect.poll(() => ringing(page)).toBe(0);
    expect((await vibrations(page)).at(-1)).toBe(0);
    await expect(app.heading).toHaveText("Kitchen");
    expect(await entriesIn(page)).toBe(entries);

    await app.clock.pass(9 * MINUTE);
    expect(await app.alarm.rings()).toBe(false);
    await app.clock.pass(MINUTE);
    await expect(app.alarm.title).toHaveText("Tea");
  });

  test("an alarm of the bake takes the place of the test, which doesn't come back", async ({
    app,
    page,
  }) => {
    await withTimer(app, 10);
    await app.clock.pass(9 * MINUTE);
    await app.turnTo("#/kitchen");
    await button(app).click();
    await expect(app.alarm.title).toHaveText("Only a test");
    await app.clock.pass(MINUTE);
    await expect(app.alarm.title).toHaveText("Tea");
    expect(await ringing(page)).toBe(1);
    await app.clock.pass(SECOND);
    await app.alarm.stop();
    await expect(app.alarm.dialog).toBeHidden();
    expect(await ringing(page)).toBe(0);
    await app.clock.pass(30 * SECOND);
    expect(await app.alarm.rings()).toBe(false);
  });

  test("with nothing baking it rings, and shows its notification where that is allowed", async ({
    app,
    baseURL,
    context,
    page,
  }) => {
    await context.grantPermissions(["notifications"], { origin: baseURL });
    await app.install();
    await app.turnTo("#/formulas/plum-almond-buns");
    await expect(app.heading).toHaveText(FORMULAS.buns);
    await button(app).click();
    await expect(app.alarm.title).toHaveText("Only a test");
    // The browser's own notification service starts with its first one, slowly on a busy machine.
    await expect.poll(() => notifications(page), { timeout: 30_000 }).toEqual([
      {
        title: "Only a test",
        body: "Alarms ring like this, louder for half a minute, until you stop them.",
      },
    ]);
    await app.alarm.stop();
    await expect.poll(() => notifications(page)).toEqual([]);
    expect(await ringing(page)).toBe(0);
  });
});
