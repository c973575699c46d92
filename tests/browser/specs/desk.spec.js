// A formula of the baker's own: pasted, mended, baked; and what can't be read changes nothing.

import { storedIn } from "../support/database.js";
import { expect, test } from "../support/test.js";
import { SECOND } from "../support/clock.js";

/** Written for this spec; nobody's recipe. The butter has no amount, and the oven no scale. */
const BUNS = `Caraway potato buns

Makes 8

For the dough
400 g strong white flour
180 ml milk
150 g mashed potato
1 egg
8 g salt
7 g instant yeast
butter

Filling
120 g cream cheese
1 tbsp caraway seeds

1. Mix everything for the dough and knead for 10 minutes.
2. Leave to rise for 1 hour.
3. Divide into 8, flatten, fill with the cheese and caraway, and close.
4. Prove for 40 minutes.
5. Bake at 190 °C for 18 to 20 minutes.`;

const HOSTILE = '<script>window.caught=1</script><img src=x onerror="window.caught=1">';

test("a pasted text becomes a bake on the Bench, offline, in a few taps", async ({
  app,
  context,
  page,
}) => {
  await app.install();
  await context.setOffline(true);
  let taps = 0;
  const tap = async (what) => {
    await what;
    taps += 1;
  };
  await tap(app.go("Formulas"));
  await tap(page.getByRole("link", { name: "Add a formula of your own" }).click());
  await tap(app.desk.text.fill(BUNS));
  await tap(page.getByRole("button", { name: "Read it" }).click());
  await expect(app.heading).toHaveText("Caraway potato buns");
  await expect(app.desk.take).toBeDisabled();
  await tap(app.desk.questions.getByRole("button", { name: /^How much butter/ }).click());
  await tap(app.desk.field("Grams").type(40));
  await tap(app.desk.close());
  await expect(app.desk.take).toBeEnabled();
  await tap(app.desk.take.click());
  await expect(app.heading).toHaveText("Caraway potato buns");
  await app.clock.pass(SECOND);
  await tap(app.formula.start.click());
  await expect(app.bench.mainAction).toBeVisible();
  await expect(app.bench.title).toHaveText("Gather");
  // Two minutes at ten seconds a tap, with the reading between.
  expect(taps).toBeLessThanOrEqual(12);
});

test("what is written on the sheet survives a reload after every change", async ({ app, page }) => {
  await app.open();
  await app.desk.open();
  await app.desk.paste(BUNS);
  await expect(app.heading).toHaveText("Caraway potato buns");

  await test.step("a name, though its field was never left", async () => {
    await app.desk.name.fill("Potato clouds");
    await app.clock.pass(3 * SECOND);
    await expect(app.heading).toHaveText("Potato clouds");
    await app.reload();
    await expect(app.heading).toHaveText("Potato clouds");
  });
  await test.step("an amount", async () => {
    await app.desk.touch(app.desk.parts, /salt/);
    await app.desk.field("Grams").type(9);
    await app.desk.close();
    await app.reload();
    await expect(app.desk.parts.getByRole("button", { name: /salt/ })).toContainText("9 g");
  });
  await test.step("an ingredient more, by its measure", async () => {
    await app.desk.parts.getByRole("textbox", { name: /Another ingredient/ }).first().fill("2 tbsp honey");
    await app.desk.parts.getByRole("button", { name: "Add", exact: true }).first().click();
    await expect(app.desk.parts.getByRole("button", { name: /honey/ })).toContainText("42 g");
    await app.reload();
    await expect(app.desk.parts.getByRole("button", { name: /honey/ })).toContainText("42 g");
  });
  await test.step("a step's time, and a change taken back", async () => {
    await app.desk.touch(app.desk.steps, /^Knead/);
    await app.desk.field("Takes at most").type(17);
    await app.desk.close();
    const knead = app.desk.steps.getByRole("button", { name: /^Knead/ });
    await expect(knead).toContainText("17 min");
    await app.clock.pass(SECOND);
    await app.desk.back.click();
    await expect(knead).not.toContainText("17 min");
    await app.reload();
    await expect(knead).not.toContainText("17 min");
  });
  await test.step("half done, it waits among the formulas", async () => {
    await app.go("Formulas");
    await page.getByRole("main").getByRole("link", { name: "Potato clouds" }).click();
    await expect(app.heading).toHaveText("Potato clouds");
  });
});

test("a script in a name stays text", async ({ app, page }) => {
  await app.open();
  await app.desk.open();
  await app.desk.paste(BUNS.replace("strong white flour", `strong white flour ${HOSTILE}`));
  await expect(app.desk.parts).toContainText("<script>window.caught=1</script>");
  await app.desk.name.fill(HOSTILE);
  await app.clock.pass(3 * SECOND);
  await expect(app.heading).toHaveText(HOSTILE);
  expect(await page.locator('img[src="x"]').count()).toBe(0);
  expect(await page.evaluate(() => window.caught)).toBeUndefined();
});

test("five megabytes of garbage are refused in a sentence, and nothing is changed", async ({
  app,
  page,
}) => {
  await app.open();
  await app.desk.open();
  await app.desk.paste(BUNS);
  await expect(app.heading).toHaveText("Caraway potato buns");
  await expect(app.desk.questions).toBeVisible();
  const before = await storedIn(page);
  await app.desk.open();
  const garbage = Buffer.alloc(5_000_000, "500 g flour\n<script>alert(1)</script>{\"@type\":\"Recipe\"\n");
  await app.desk.openFile("garbage.txt", "text/plain", garbage);
  await expect(app.desk.refusal).toContainText("no formula is that large");
  await expect(app.desk.refusal).toContainText("Nothing was changed.");
  for (const [text, why] of [
    ["Dear Ann, the meeting is at seven.", "doesn't look like a formula"],
    ['{"@type":"Recipe","recipeIngredient":["500 g', "cut short or damaged"],
    ["", "nothing stands in it"],
  ]) {
    await app.desk.paste(text);
    await expect(app.desk.refusal).toContainText(why, { ignoreCase: true });
  }
  expect(await storedIn(page)).toEqual(before);
});

test("a formula that was handed on as a page comes back as it was", async ({ app, page }) => {
  await app.open();
  await app.formula.look("Orange braid");
  const download = page.waitForEvent("download");
  await page.getByRole("button", { name: "Hand it on as a page" }).click();
  const stream = await (await download).createReadStream();
  const parts = [];
  for await (const part of stream) parts.push(part);
  const handed = Buffer.concat(parts);
  await app.desk.open();
  await app.desk.openFile("braid.html", "text/html", handed);
  await expect(app.heading).toHaveText("Orange braid");
  await expect(app.desk.take).toBeEnabled();
  await app.desk.take.click();
  await expect(app.formula.start).toBeVisible();
  const { formulas } = await storedIn(page);
  const [kept] = Object.values(formulas).map((text) => JSON.parse(text));
  expect(kept.name).toBe("Orange braid");
  expect(kept.steps.length).toBeGreaterThan(15);
});
