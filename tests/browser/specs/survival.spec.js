// Nothing is lost, whatever happens to the page or to the phone.

import { FORMULAS } from "../pages/formula.js";
import { Baker } from "../support/baker.js";
import { MINUTE, SECOND } from "../support/clock.js";
import { storedIn } from "../support/database.js";
import { takeUp } from "../support/mid-bake.js";
import { MortalBrowser } from "../support/mortal-browser.js";
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

test("a browser killed at eight points of a bake loses nothing", async ({ server }) => {
  test.slow();
  // The server dies with the phone's network; from then on everything comes from the phone.
  const browser = await MortalBrowser.make(server.url);
  try {
    let app = await browser.start(START);
    await app.install();
    await server.stop();
    await app.formula.bake(FORMULAS.buns);
    let baker = new Baker(app);
    for (const { title, action } of POINTS) {
      await baker.until(title, action);
      await test.step(`at ${title}`, async () => {
        const before = await snapshot(app);
        const moment = await app.now();
        await browser.kill();
        app = await browser.start(moment);
        await app.open("#/bench");
        await expect(app.bench.title).toHaveText(title);
        expect(await snapshot(app)).toEqual(before);
        baker = new Baker(app);
      });
    }
  } finally {
    await browser.remove();
  }
});

test("a timer is right to the second after the browser was killed and time went on", async ({
  server,
}) => {
  const browser = await MortalBrowser.make(server.url);
  try {
    let app = await browser.start(START);
    await app.open();
    await app.formula.bake(FORMULAS.buns);
    await app.bench.setTimer("Tea", 9);
    const set = await app.now();
    await browser.kill();
    // It was dead for 3 min 21 s.
    app = await browser.start(set + 3 * MINUTE + 21 * SECOND);
    await app.open("#/bench");
    await expect(app.bench.clockOf(/^Tea/)).toHaveText("5:39");
    await app.clock.pass(5 * MINUTE + 38 * SECOND);
    expect(await app.alarm.rings()).toBe(false);
    await app.clock.pass(SECOND);
    await expect(app.alarm.title).toHaveText("Tea");
  } finally {
    await browser.remove();
  }
});

test("a step that was called done just before the browser was killed stays done", async ({
  server,
}) => {
  const browser = await MortalBrowser.make(server.url);
  try {
    let app = await browser.start(START);
    await app.open();
    await app.formula.bake(FORMULAS.buns);
    // The screen shows it only once it is stored, so the moment it shows is late enough to die at.
    await app.bench.press();
    const asked = await app.bench.ask();
    const moment = await app.now();
    await browser.kill();
    app = await browser.start(moment);
    await app.open("#/bench");
    await expect(app.bench.title).toHaveText(asked.title);
  } finally {
    await browser.remove();
  }
});

test("an alarm that rang when the browser was killed rings again, overdue", async ({ server }) => {
  const browser = await MortalBrowser.make(server.url);
  try {
    let app = await browser.start(START);
    await app.open();
    await app.formula.bake(FORMULAS.buns);
    await app.bench.setTimer("Tea", 3);
    await app.clock.pass(3 * MINUTE);
    await expect(app.alarm.title).toHaveText("Tea");
    const moment = await app.now();
    await browser.kill();
    app = await browser.start(moment + 4 * MINUTE);
    await app.open();
    await expect(app.alarm.title).toHaveText("Tea");
    await expect(app.alarm.text).toContainText("Overdue by 4 min");
    await app.alarm.stop();
    await browser.kill();
    app = await browser.start(moment + 5 * MINUTE);
    await app.open();
    expect(await app.alarm.rings()).toBe(false);
  } finally {
    await browser.remove();
  }
});
