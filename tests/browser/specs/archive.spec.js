// One file with everything: out, and back, or nothing.

import { randomBytes } from "node:crypto";
import { App } from "../pages/app.js";
import { FORMULAS } from "../pages/formula.js";
import { contentsOf, edited, isSound } from "../support/archive.js";
import { MINUTE } from "../support/clock.js";
import { promisesIn, putInto, storedIn } from "../support/database.js";
import { expect, test } from "../support/test.js";

const UNREADABLE = '{"version":1,"nothing":"that is known"}';

/** A phone that is used: a given-up bake with a note, a running one, settings, an unreadable record. */
async function lifeOnThePhone(app) {
  await app.startBake(FORMULAS.loaf);
  await app.bench.press();
  await app.bench.giveUp();
  await app.note.write("Out of flour.");
  await app.note.writeLesson("Gather", "Buy flour first.");
  await app.clock.pass(MINUTE);
  await app.formula.bake(FORMULAS.buns);
  await app.bench.press();
  await app.bench.setTimer("Tea", 90);
  await app.turnTo("#/kitchen");
  await app.kitchen.choose("Your oven", "Fan");
  await app.kitchen.fridge.type(4);
  // What is shown is stored; a reload before that would lose it, as it may.
  await app.kitchen.fridge.shows("4 °C");
  await putInto(app.page, "formulas", "strange", UNREADABLE);
  await app.reload();
  await expect(app.kitchen.setAside).toHaveCount(1);
}

test("writing an archive, erasing everything and restoring it changes nothing", async ({
  app,
  page,
}) => {
  await lifeOnThePhone(app);
  const before = await storedIn(page);
  const archive = await app.kitchen.writeArchive();
  expect(isSound(archive)).toBe(true);

  await app.kitchen.eraseEverything();
  await expect(app.kitchen.setAside).toHaveCount(0);
  await app.kitchen.fridge.shows("5 °C");
  const gone = await storedIn(page);
  for (const store of Object.keys(before)) expect(gone[store], store).toEqual({});
  expect(await promisesIn(page)).toBe("");
  await app.go("Notebook");
  await expect(app.page.getByText("Nothing here yet.")).toBeVisible();

  await app.go("Kitchen");
  await app.kitchen.restore(archive);
  await expect(app.kitchen.outcome).toHaveText("Everything in the archive is here now.");
  expect(await storedIn(page)).toEqual(before);
  await app.kitchen.fridge.shows("4 °C");
  await expect(app.kitchen.setAside).toContainText("strange");
  expect(contentsOf(await app.kitchen.writeArchive())).toEqual(contentsOf(archive));

  await app.turnTo("#/bench");
  await expect(app.bench.title).not.toHaveText("Gather");
  await expect(app.bench.card(/^Tea/)).toBeVisible();
});

test("an archive restores on another phone", async ({ app, context, page, server }) => {
  await lifeOnThePhone(app);
  const archive = await app.kitchen.writeArchive();
  const before = await storedIn(page);
  // A fresh phone: the same app, and nothing stored.
  await page.close();
  const other = await context.newPage();
  const cdp = await context.newCDPSession(other);
  await cdp.send("Storage.clearDataForOrigin", { origin: server.url, storageTypes: "all" });
  const fresh = new App(other, app.clock);
  await fresh.open("#/kitchen");
  await expect(fresh.kitchen.setAside).toHaveCount(0);
  await fresh.kitchen.restore(archive);
  await expect(fresh.kitchen.outcome).toHaveText("Everything in the archive is here now.");
  expect(await storedIn(other)).toEqual(before);
});

/** Ways an archive can be spoilt, and what is said. */
const DAMAGES = [
  ["cut off", (archive) => archive.slice(0, -200), /no Oventide archive, or is cut off/],
  ["cut off in its first half", (archive) => archive.slice(0, 300), /no Oventide archive/],
  ["empty", () => "", /no Oventide archive/],
  [
    "with one letter changed",
    (archive) => archive.replace("Out of flour.", "Out of flout."),
    /changed or damaged after it was written/,
  ],
  [
    "with one digit changed",
    (archive) => archive.replace(/\\"fridge_c\\":4/, '\\"fridge_c\\":5'),
    /changed or damaged after it was written/,
  ],
  ["not JSON", () => "Flour, water, salt.", /no Oventide archive/],
  ["of a newer version", (archive) => archive.replace('"version":1', '"version":2'), /newer Oventide/],
  ["another app's JSON", () => JSON.stringify({ recipes: [{ name: "bread" }] }), /no Oventide archive/],
  ["a list", () => "[1, 2, 3]", /no Oventide archive/],
  ["5 MB of garbage", () => randomBytes(5_000_000), /can't be read as text/],
  ["5 MB of letters", () => "flour ".repeat(840_000), /no Oventide archive/],
  [
    "with a bake that has no start",
    (archive) => edited(archive, ({ bakes }) => bakes[0].entries.shift()),
    /doesn't begin with its start/,
  ],
  [
    "with a record of the future",
    (archive) =>
      edited(archive, (contents) => {
        const [note] = contents.notes;
        note.text = note.text.replace('"version":1', '"version":9');
      }),
    /version 9/,
  ],
];

/** What is wrong, and then perhaps what to do. */
const ONE_SENTENCE = /^Nothing was changed: [^.]+\.( Choose another file\.)?$/;

test("a damaged archive changes nothing and says one sentence", async ({ app, page }) => {
  test.slow();
  await lifeOnThePhone(app);
  const archive = await app.kitchen.writeArchive();
  const before = await storedIn(page);
  for (const [name, damage, words] of DAMAGES) {
    await test.step(name, async () => {
      const damaged = damage(archive);
      expect(damaged, "it is damaged").not.toEqual(archive);
      await app.reload();
      await app.kitchen.restore(damaged);
      await expect(app.kitchen.outcome).toHaveCount(1);
      await expect(app.kitchen.outcome).toHaveText(ONE_SENTENCE);
      await expect(app.kitchen.outcome).toHaveText(words);
      expect(await storedIn(page)).toEqual(before);
    });
  }
  await app.turnTo("#/bench");
  await expect(app.bench.card(/^Tea/)).toBeVisible();
});

test("a changed byte anywhere in the contents is found", async ({ app, page }) => {
  test.slow();
  await lifeOnThePhone(app);
  const archive = await app.kitchen.writeArchive();
  const before = await storedIn(page);
  const from = archive.indexOf('"contents"');
  const places = Array.from({ length: 16 }, (_, part) =>
    from + Math.floor(((archive.length - from - 1) * (part + 0.5)) / 16),
  );
  for (const place of places) {
    await test.step(`at ${place}`, async () => {
      const bytes = Buffer.from(archive);
      bytes[place] ^= 1;
      await app.reload();
      await app.kitchen.restore(bytes);
      await expect(app.kitchen.outcome).toHaveText(/^Nothing was changed: /);
      expect(await storedIn(page)).toEqual(before);
    });
  }
});

test("closing the file picker, or leaving the question, changes nothing", async ({ app, page }) => {
  await lifeOnThePhone(app);
  const before = await storedIn(page);
  for (const question of ["Restore an archive", "Erase everything"]) {
    await app.kitchen.main.getByRole("button", { name: question }).click();
    await app.kitchen.sheet.getByRole("button", { name: "No, go back" }).click();
    await expect(app.kitchen.sheet).toHaveCount(0);
  }
  await app.kitchen.main.getByRole("button", { name: "Erase everything" }).click();
  await app.kitchen.sheet.getByRole("button", { name: "Go on" }).click();
  await app.kitchen.sheet.getByRole("button", { name: "No, go back" }).click();
  await expect(app.kitchen.sheet).toHaveCount(0);
  expect(await storedIn(page)).toEqual(before);
});
