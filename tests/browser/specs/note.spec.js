// What is written about a bake is stored while it is being written.

import { SECOND } from "../support/clock.js";
import { storedIn } from "../support/database.js";
import { takeUp } from "../support/mid-bake.js";
import { START } from "../support/phone.js";
import { setHidden } from "../support/senses.js";
import { expect, test } from "../support/test.js";
import { holdStorage } from "../support/trouble.js";

const NOTE = "Two of them leaked a little.";
const LESSON = "Pinch twice.";
/** The app waits two seconds after the last key. */
const PAUSE = 2.1 * SECOND;

/** A bake that was given up, which is the shortest way to a note. */
async function openNote(app) {
  await app.startBake();
  await app.bench.giveUp();
  return new URL(app.page.url()).hash;
}

/** Everything that is stored of notes, as one text. */
async function notesIn(page) {
  const { notebook } = await storedIn(page);
  return Object.values(notebook).join();
}

test("what was typed is there after the browser died, though the field was never left", async ({
  mortal,
}) => {
  let app = await mortal.start(START);
  const place = await openNote(app);
  await app.note.text.pressSequentially(NOTE);
  await expect(app.note.yours).toContainText("Kept as soon as you pause.");
  await app.clock.pass(PAUSE);
  await expect(app.note.yours).toContainText("Kept.");
  await expect(app.note.text).toBeFocused();
  app = await mortal.dieAndReturn(app, { place });
  await expect(app.note.text).toHaveValue(NOTE);
});

test("it is stored at a pause and not at every key, and typing goes on from there", async ({
  app,
  page,
}) => {
  await openNote(app);
  await app.note.text.pressSequentially("Two");
  await app.clock.pass(SECOND);
  await app.note.text.pressSequentially(" of");
  await app.clock.pass(1.5 * SECOND);
  expect(await notesIn(page)).not.toContain("Two");
  await app.clock.pass(SECOND);
  // No waiting here: what comes back from the storage must not take away what was typed meanwhile.
  await app.note.text.pressSequentially(" them");
  await expect.poll(() => notesIn(page)).toContain("Two of");
  await expect(app.note.text).toHaveValue("Two of them");
  await app.clock.pass(PAUSE);
  await expect.poll(() => notesIn(page)).toContain("Two of them");
  await expect(app.note.text).toHaveValue("Two of them");
});

test("it is stored when the page goes out of sight, before any pause", async ({ app, page }) => {
  await openNote(app);
  await app.note.text.pressSequentially(NOTE);
  await setHidden(page, true);
  await expect.poll(() => notesIn(page)).toContain(NOTE);
});

test("it is stored when the baker goes back to another page, before any pause", async ({
  app,
  page,
}) => {
  await openNote(app);
  await app.note.text.pressSequentially(NOTE);
  await app.turnTo("#/kitchen");
  await expect(app.heading).toHaveText("Kitchen");
  await expect.poll(() => notesIn(page)).toContain(NOTE);
});

test("what is written at a step stays at that step when another is chosen", async ({ app, page }) => {
  await openNote(app);
  const field = app.note.differently.getByRole("textbox");
  const steps = app.note.differently.getByRole("combobox");
  await field.pressSequentially(LESSON);
  // Before any pause, and without the field's being left.
  await steps.selectOption({ label: "Fill" });
  await expect(field).toHaveValue("");
  await expect.poll(() => notesIn(page)).toContain(LESSON);
  await app.clock.pass(PAUSE);
  await expect(field).toHaveValue("");
  await expect(app.note.differently.getByRole("listitem")).toHaveText(["Gather: Pinch twice."]);
});

test("it comes up once the end of the bake is stored, with the ways of a phone where nothing bakes", async ({
  app,
  page,
}) => {
  await takeUp(app, "", { asks: "all done" });
  await holdStorage(page, { isOnlySlow: true });
  await app.bench.mainAction.click();
  for (let picture = 0; picture < 3; picture += 1) await page.screenshot();
  await expect(app.bench.mainAction).toBeVisible();
  expect(new URL(page.url()).hash).toContain("bench");
  // Whatever the page shows from here on: all the ways are there at once.
  await page.evaluate(() => {
    window.numbersOfWays = new Set();
    new MutationObserver(() => {
      if (document.querySelector("main.bench")) return;
      const ways = document.querySelectorAll("nav.ways a").length;
      window.numbersOfWays.add(ways);
    }).observe(document.body, { childList: true, subtree: true });
    window.letGo();
  });
  await expect(app.note.text).toBeVisible();
  await expect(page.getByRole("navigation", { name: "Pages" }).getByRole("link")).toHaveCount(4);
  expect(await page.evaluate(() => [...window.numbersOfWays])).toEqual([4]);
});

test("whoever has left the Bench before the end of a bake is stored isn't led to its note", async ({ app, page }) => {
  await takeUp(app, "", { asks: "all done" });
  await holdStorage(page, { isOnlySlow: true });
  await app.bench.mainAction.click();
  await app.turnTo("#/formulas");
  await page.evaluate(() => window.letGo());
  // The bar tells that nothing bakes once the end is stored.
  await expect(page.getByRole("navigation", { name: "Pages" }).getByRole("link")).toHaveCount(4);
  await expect(app.heading).toHaveText("Formulas");
  expect(new URL(page.url()).hash).toBe("#/formulas");
});
