// Promise: the keyboard alone can bake. No pointer is used in this file, but for restoring the
// archive by which a bake is taken up in its middle.
//
// WCAG 2.2, success criteria 2.1.1 (keyboard), 2.1.2 (no trap), 2.4.3 (order), 2.4.7 (focus
// visible) and 2.4.11 (focus not obscured).

import { FORMULAS } from "../../pages/formula.js";
import { MINUTE, SECOND } from "../../support/clock.js";
import { takeUp } from "../../support/mid-bake.js";
import { expect, test } from "../../support/test.js";
import { Keys } from "./measure/keys.js";
import { askNow } from "./measure/walk.js";

/** From Today to a bake that has just begun. */
async function startByKeys(app, keys) {
  await app.open();
  await keys.press(new RegExp(`^${FORMULAS.buns}`));
  await expect(app.heading).toHaveText(FORMULAS.buns);
  await keys.press("Start this bake");
  await expect(app.bench.instruction).toHaveText(/Weigh everything/);
}

/** Answers asks by Enter on the main action until one comes that is waited for. */
async function untilAsked(app, keys, isIt) {
  for (let presses = 0; presses < 200; presses += 1) {
    const ask = await askNow(app.page);
    if (isIt(ask)) return ask;
    if (["wait", "idle"].includes(ask.kind)) {
      await app.clock.sleep(5 * MINUTE);
      continue;
    }
    const button = ask.kind === "alarm" ? "Stop the alarm" : ask.action;
    const alarm = await app.alarm.shown();
    try {
      await keys.press(button);
      // The next press would be taken for the main action's, once this alarm has gone.
      if (alarm) await expect.poll(() => app.alarm.shown(), button).not.toBe(alarm);
    } catch (error) {
      // Pressing takes half a second of the app's clock, in which something else can fall due, and
      // an alarm that was stopped goes only when that is stored.
      if (JSON.stringify(await askNow(app.page)) === JSON.stringify(ask)) throw error;
      continue;
    }
    // The next alarm may look just like the one that was stopped.
    if (ask.kind !== "alarm") await expect.poll(() => askNow(app.page), button).not.toEqual(ask);
  }
  throw new Error("what was waited for was never asked");
}

const isKind = (kind) => (ask) => ask.kind === kind;

test("a bake starts, and its first marks are set and taken back", async ({ app, page }) => {
  const keys = new Keys(app);
  await startByKeys(app, keys);
  const mark = page.locator(".mark").first();
  const name = await mark.getAttribute("aria-label");
  await keys.press(name, "Space");
  await expect(mark).toHaveAttribute("aria-pressed", "true");
  await keys.again("Enter");
  await expect(mark).toHaveAttribute("aria-pressed", "false");
  await keys.press("Done");
  await expect(app.bench.instruction).not.toHaveText(/Weigh everything/);
  await keys.to(/^Undo/, { backwards: true });
  await keys.again();
  await expect(app.bench.instruction).toHaveText(/Weigh everything/);
});

test("the kitchen's temperature is changed", async ({ app, page }) => {
  const keys = new Keys(app);
  await startByKeys(app, keys);
  await keys.press(/^Kitchen /);
  await expect(app.bench.sheet).toBeVisible();
  await keys.press("Less: Kitchen temperature");
  await keys.again("Space");
  await keys.to("Kitchen temperature");
  await keys.type("17.5");
  await keys.press(/^Kitchen is 17.5/);
  await expect(page.locator("dialog.sheet[open]")).toHaveCount(0);
  await expect(app.bench.kitchenButton).toBeFocused();
  await expect(app.bench.kitchenButton).toHaveText("Kitchen 17.5 °C");
});

test("Escape closes every sheet, and the focus goes back", async ({ app, page }) => {
  const keys = new Keys(app);
  await startByKeys(app, keys);
  for (const name of [/^Kitchen /, "Timer", "More"]) {
    await keys.press(name);
    await expect(app.bench.sheet).toBeVisible();
    // Round once and out: a sheet is no trap.
    for (let stops = 0; stops < 12; stops += 1) await page.keyboard.press("Tab");
    await keys.again("Escape");
    await expect(page.locator("dialog.sheet[open]")).toHaveCount(0);
    expect((await keys.focus()).name).toMatch(name);
  }
});

test("the first half of a bake of buns: weighed, mixed, risen, divided, shaped", async ({
  app,
  page,
}) => {
  test.setTimeout(300_000);
  const keys = new Keys(app);
  await startByKeys(app, keys);
  await untilAsked(app, keys, isKind("dough temperature"));
  await keys.to("Dough temperature", { backwards: true });
  await keys.type("24");
  await keys.press(/^It is 24 °C/);
  await expect(app.bench.answer).toContainText("cool");

  await untilAsked(app, keys, isKind("divide"));
  const first = page.locator(".piece-row input").first();
  await keys.to(/^Bun 1/);
  await keys.type("140");
  await page.keyboard.press("Tab");
  await expect(first).toHaveValue(/140/);

  await untilAsked(app, keys, isKind("pieces"));
  const marks = page.locator(".piece-row .mark");
  await keys.press(await marks.nth(2).getAttribute("aria-label"), "Space");
  await expect(marks.nth(2)).toHaveAttribute("aria-pressed", "true");
  await keys.press(await app.bench.mainAction.textContent());
  await expect(marks.first()).toHaveAttribute("aria-pressed", "true");

  // Where the other half begins.
  const fill = await untilAsked(app, keys, (ask) => ask.title === "Fill");
  expect(fill.action).toMatch(/^Bun 1: /);
});

test("the second half: filled, proved, baked, glazed, and written up in the Notebook", async ({
  app,
  page,
}) => {
  test.setTimeout(300_000);
  await takeUp(app, "Fill");
  const keys = new Keys(app);
  const asked = [];
  await untilAsked(app, keys, (ask) => {
    asked.push(ask.title);
    return ask.kind === "done";
  });
  for (const step of ["Final proof", "Oven on", "Egg wash", "Bake", "Cool", "Glaze and coat", "Serve"]) {
    expect(asked.join(), step).toContain(step);
  }
  await keys.press("Finish");
  await expect(app.heading).toHaveText(FORMULAS.buns);
  await expect(app.note.ended).toContainText("On the table at");

  await keys.to("How was it?");
  await page.keyboard.type("None leaked.");
  await app.clock.pass(3 * SECOND);
  await expect(app.note.yours).toContainText("Kept.");
  await keys.to("At which step");
  await page.keyboard.press("ArrowDown");
  await keys.to("What to do there");
  await page.keyboard.type("Stir all the while.");
  await page.keyboard.press("Tab");
  await expect(app.note.differently).toContainText("Kept.");

  await keys.press("All bakes");
  await expect(app.heading).toHaveText("Notebook");
  await keys.press(new RegExp(`^${FORMULAS.buns}`));
  await expect(app.note.text).toHaveValue("None leaked.");
  await expect(app.note.differently).toContainText("Stir all the while.");
});

test("a timer is set, rings, and is stopped", async ({ app, page }) => {
  const keys = new Keys(app);
  await startByKeys(app, keys);
  await keys.press("Timer");
  await keys.to("Timer for");
  await keys.type("Oven rack");
  await keys.to("Minutes");
  await keys.type("3");
  await keys.press("Set the timer");
  await expect(app.bench.card(/^Oven rack/)).toBeVisible();
  const before = (await keys.focus()).name;
  await app.clock.pass(3 * MINUTE);
  await expect(app.alarm.dialog).toBeVisible();
  await keys.press("Stop the alarm");
  await expect(app.alarm.dialog).toHaveCount(0);
  expect((await keys.focus()).name).toBe(before);

  await keys.press("Timer");
  await keys.type("");
  await keys.press("Set the timer");
  await keys.press("Timer");
  await keys.press(/^Stop/);
  expect((await keys.focus()).name).not.toBe("body");
  await keys.again("Escape");
  await expect(page.locator("dialog.sheet[open]")).toHaveCount(0);
});

test("every stop of every page shows", async ({ app, page }) => {
  test.setTimeout(240_000);
  const keys = new Keys(app);
  await app.open();
  const pages = ["#/", "#/formulas", "#/formulas/plum-almond-buns", "#/notebook", "#/kitchen"];
  for (const place of pages) {
    await app.turnTo(place);
    await page.evaluate(() => document.activeElement?.blur());
    const all = await page.evaluate(() => {
      const stops = "main a, main button, main input, main select, main textarea, main summary, nav a";
      const shown = [...document.querySelectorAll(stops)].filter((one) => one.checkVisibility());
      // Of a group of radio buttons, only the chosen one is a stop.
      return shown.filter((one) => one.type !== "radio" || one.checked).length;
    });
    expect(all, place).toBeGreaterThan(4);
    for (let stop = 0; stop < all; stop += 1) {
      await page.keyboard.press("Tab");
      const { name, faults } = await keys.focus();
      expect.soft(name, `${place}: stop ${stop + 1} of ${all}`).not.toBe("body");
      expect.soft(faults, `${place}: ${name}`).toEqual([]);
    }
  }
});

test("a choice is made with the arrow keys", async ({ app, page }) => {
  const keys = new Keys(app);
  await app.open("#/kitchen");
  await keys.to("°C");
  await keys.again("ArrowRight");
  await expect(page.getByRole("radio", { name: "°F" })).toBeChecked();
  expect((await keys.focus()).faults).toEqual([]);
});

test("a page that opens takes the focus along", async ({ app }) => {
  const keys = new Keys(app);
  await app.open();
  for (const name of ["Formulas", "Notebook", "Kitchen", "Today"]) {
    await keys.press(name);
    await expect(app.heading).toHaveText(name);
    await keys.page.keyboard.press("Tab");
    expect((await keys.focus()).name, `after ${name}`).not.toBe("body");
  }
});
