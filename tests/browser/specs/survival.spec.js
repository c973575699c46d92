// Nothing is lost, whatever happens to the page or to the phone.

import { FORMULAS } from "../pages/formula.js";
import { Baker } from "../support/baker.js";
import { MINUTE, SECOND } from "../support/clock.js";
import { storedIn } from "../support/database.js";
import { takeUp, withTimer } from "../support/mid-bake.js";
import { START } from "../support/phone.js";
import { expect, test } from "../support/test.js";

/** Eight points of a bake of plum buns: what is asked there, and by which action it is known. */
const POINTS = [
  { title: "Gather", action: /./ },
  { title: "Mix the dough", action: /./ },
  { title: "Dough temperature", action: /./ },
  { title: "First rise", asks: "fold", action: /^(Folded|It's ready)/ },
  { title: "Round the pieces", action: /^Bun 4/ },
  { title: "Fill", action: /^Bun 3: sealed/ },
  { title: "Bake", action: /./ },
  { title: "Glaze and coat", action: /^Bun 6: almonds/ },
];

/** What the Bench shows, and everything that is stored. */
async function snapshot(app) {
  await app.alarm.stopAll();
  const { bench, page } = app;
  return {
    ask: await bench.ask(),
    cards: await bench.cards(),
    marks: await bench.marks(),
    stored: await storedIn(page),
  };
}

for (const { title, asks, action } of POINTS) {
  test(`a reload loses nothing: ${title}`, async ({ app }) => {
    await takeUp(app, title, { asks });
    while (!action.test((await app.bench.ask()).action)) await app.bench.press();
    await expect(app.bench.title).toHaveText(title);
    const before = await snapshot(app);
    await app.reload();
    await expect(app.bench.title).toHaveText(title);
    expect(await snapshot(app)).toEqual(before);
  });
}

test("a browser killed at eight points of a bake loses nothing", async ({ mortal, server }) => {
  test.slow();
  // The server dies with the phone's network; from then on everything comes from the phone.
  let app = await mortal.start(START);
  await app.install();
  await server.stop();
  await app.formula.bake(FORMULAS.buns);
  let baker = new Baker(app);
  for (const { title, action } of POINTS) {
    await baker.until(title, action);
    await test.step(`at ${title}`, async () => {
      const before = await snapshot(app);
      app = await mortal.dieAndReturn(app);
      await expect(app.bench.title).toHaveText(title);
      expect(await snapshot(app)).toEqual(before);
      baker = new Baker(app);
    });
  }
});

test("a timer is right to the second after the browser was killed and time went on", async ({ mortal }) => {
  let app = await mortal.start(START);
  await withTimer(app, 9);
  app = await mortal.dieAndReturn(app, { after: 3 * MINUTE + 21 * SECOND });
  await expect(app.bench.clockOf(/^Tea/)).toHaveText("5:39");
  await app.clock.pass(5 * MINUTE + 38 * SECOND);
  expect(await app.alarm.rings()).toBe(false);
  await app.clock.pass(SECOND);
  await expect(app.alarm.title).toHaveText("Tea");
});

test("a step that was called done just before the browser was killed stays done", async ({ mortal }) => {
  let app = await mortal.start(START);
  await app.startBake();
  // The screen shows it only once it is stored, so the moment it shows is late enough to die at.
  await app.bench.press();
  const asked = await app.bench.ask();
  app = await mortal.dieAndReturn(app);
  await expect(app.bench.title).toHaveText(asked.title);
});

test("an alarm that rang when the browser was killed rings again, overdue", async ({ mortal }) => {
  let app = await mortal.start(START);
  await withTimer(app, 3);
  await app.clock.pass(3 * MINUTE);
  await expect(app.alarm.title).toHaveText("Tea");
  app = await mortal.dieAndReturn(app, { after: 4 * MINUTE, place: "#/" });
  await expect(app.alarm.title).toHaveText("Tea");
  await expect(app.alarm.text).toContainText("Overdue by 4 min");
  await app.alarm.stop();
  app = await mortal.dieAndReturn(app, { after: MINUTE, place: "#/" });
  expect(await app.alarm.rings()).toBe(false);
});
