// A script in a name stays text.

import { FORMULAS } from "../pages/formula.js";
import { edited, isSound } from "../support/archive.js";
import { MINUTE } from "../support/clock.js";
import { expect, test } from "../support/test.js";

const SCRIPT = '<img src=x onerror="window.caught=1">';

/** Shown letter by letter, and never run. */
async function staysText(app, where) {
  await expect(where).toContainText(SCRIPT);
  expect(await app.page.locator('img[src="x"]').count()).toBe(0);
  expect(await app.page.evaluate(() => window.caught)).toBeUndefined();
}

test("a script in the notes, names and timers of a restored archive stays text", async ({
  app,
  page,
}) => {
  await app.startBake();
  await app.bench.finishEarly();
  await app.note.write("NOTE");
  await app.note.writeLesson("Knead", "LESSON");
  await app.formula.bake(FORMULAS.braid);
  await app.bench.setTimer("TIMER", 10);
  await app.turnTo("#/kitchen");
  const archive = await app.kitchen.writeArchive();
  expect(isSound(archive)).toBe(true);

  const inJson = JSON.stringify(SCRIPT).slice(1, -1);
  const spoil = (text) =>
    text
      .replace('"NOTE"', `"${inJson} N"`)
      .replace('"LESSON"', `"${inJson} L"`)
      .replace('"TIMER"', `"${inJson} T"`)
      .replace('"name":"Orange braid"', `"name":"${inJson} F"`);
  const hostile = edited(archive, (contents) => {
    for (const note of contents.notes) note.text = spoil(note.text);
    for (const bake of contents.bakes) bake.entries = bake.entries.map(spoil);
    contents.set_aside = [{ key: `notebook: ${SCRIPT}`, text: SCRIPT }];
  });
  for (const letter of ["N", "L", "T", "F"]) expect(hostile).toContain(`> ${letter}`);
  await app.kitchen.restore(hostile);
  await expect(app.kitchen.outcome).toHaveText("Everything in the archive is here now.");

  await test.step("in Kitchen, among what was set aside", async () => {
    await staysText(app, app.kitchen.setAside);
  });
  await test.step("on Today", async () => {
    await app.go("Today");
    await staysText(app, page.getByRole("main"));
    await staysText(app, app.today.lessons);
  });
  await test.step("on the Bench, its timer and its alarm", async () => {
    await app.turnTo("#/bench");
    await staysText(app, app.bench.running);
    await app.clock.pass(10 * MINUTE);
    await staysText(app, app.alarm.dialog);
    await staysText(app, app.alarm.title);
    await app.alarm.stop();
  });
  await test.step("in the Notebook", async () => {
    await app.turnTo("#/notebook");
    await page.getByRole("main").getByRole("link", { name: FORMULAS.buns }).click();
    await expect(app.note.text).toHaveValue(`${SCRIPT} N`);
    await staysText(app, app.note.differently);
  });
});

test("a script typed as a timer's name stays text", async ({ app }) => {
  const short = "<img src=x onerror=alert(1)>";
  await app.startBake();
  await app.bench.bar.getByRole("button", { name: "Timer" }).click();
  await app.bench.sheet.getByRole("textbox", { name: "Timer for" }).fill(short);
  await app.bench.sheet.getByRole("button", { name: "Set the timer" }).click();
  await expect(app.bench.running).toContainText(short);
  expect(await app.page.locator('img[src="x"]').count()).toBe(0);
});
