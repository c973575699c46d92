// Storage that can't be had: a sentence each, and the bake goes on.

import { FORMULAS } from "../pages/formula.js";
import { putInto, storedIn } from "../support/database.js";
import { tab } from "../support/tabs.js";
import { expect, test } from "../support/test.js";
import {
  clingToDatabase,
  fullPhone,
  newerDatabase,
  refusingStorage,
  shutStorage,
} from "../support/trouble.js";

/** A bake from its start through two steps, all in memory. */
async function bakeOn(app, sentence) {
  await app.formula.bake(FORMULAS.buns);
  await expect(app.standingWarning).toContainText(sentence);
  await app.bench.press();
  await expect(app.bench.title).not.toHaveText("Gather");
  await app.bench.press();
  await expect(app.standingWarning).toContainText(sentence);
  await expect(app.standingWarning).toContainText("The bake goes on");
}

for (const [name, trouble] of [
  ["keeps its storage shut", shutStorage],
  ["refuses when it is asked for its storage", refusingStorage],
]) {
  test(`a browser that ${name}: the bake goes on in memory, and it is said`, async ({
    app,
    page,
  }) => {
    await page.addInitScript(trouble);
    await app.open();
    await expect(app.standingWarning).toContainText("This browser gives no storage");
    await bakeOn(app, "This browser gives no storage");
  });
}

test("a full phone: the bake goes on in memory and is saved once there is room", async ({
  app,
  page,
}) => {
  await page.addInitScript(fullPhone);
  await app.startBake();
  await app.bench.press();
  const saved = Object.keys((await storedIn(page)).bakes).length;
  await expect(app.standingWarning).toHaveCount(0);

  await page.evaluate(() => (window.full = true));
  await app.bench.press();
  await expect(app.standingWarning).toContainText("The phone is full.");
  await app.bench.press();
  await expect(app.standingWarning).toContainText("The phone is full.");
  expect(Object.keys((await storedIn(page)).bakes)).toHaveLength(saved);

  await page.evaluate(() => (window.full = false));
  await app.bench.press();
  await expect(app.standingWarning).toHaveCount(0);
  await app.bench.asksTheSameAgain();
});

test("a full phone at the start of a bake: it starts in memory and is saved once there is room", async ({
  app,
  page,
}) => {
  await page.addInitScript(fullPhone);
  await app.open();
  await page.evaluate(() => (window.full = true));
  await bakeOn(app, "The phone is full.");
  expect((await storedIn(page)).bakes).toEqual({});
  await page.evaluate(() => (window.full = false));
  await app.bench.press();
  await expect(app.standingWarning).toHaveCount(0);
  await app.bench.asksTheSameAgain();
});

test("a phone that has no room left at all says so, as the browser itself finds it", async ({
  app,
  context,
  page,
  server,
}) => {
  await app.open();
  const cdp = await context.newCDPSession(page);
  await cdp.send("Storage.overrideQuotaForOrigin", { origin: server.url, quotaSize: 1 });
  await bakeOn(app, "The phone is full.");
  await cdp.send("Storage.overrideQuotaForOrigin", { origin: server.url });
  await app.bench.press();
  await expect(app.standingWarning).toHaveCount(0);
});

test("another tab that holds the storage: the bake goes on in memory, and it is said", async ({
  clock,
  context,
}) => {
  const first = await tab(context, clock, clingToDatabase);
  await first.open();
  const second = await tab(context, clock, newerDatabase);
  await second.open();
  await expect(second.standingWarning).toContainText("Another tab of Oventide holds the storage.");
  await bakeOn(second, "Another tab of Oventide holds the storage.");

  await test.step("once that tab is closed, everything is saved by itself", async () => {
    const asked = await second.bench.ask();
    await first.page.close();
    await expect(second.standingWarning).toHaveCount(0);
    await second.reload();
    expect(await second.bench.ask()).toEqual(asked);
  });
});

test("a tab whose storage a newer version took over goes on in memory, and says so", async ({
  clock,
  context,
}) => {
  const first = await tab(context, clock);
  await first.startBake();
  const second = await tab(context, clock, newerDatabase);
  await second.open();
  await expect(second.standingWarning).toHaveCount(0);
  await expect(first.standingWarning).toContainText("A newer Oventide has been here.");
  await first.bench.press();
  await expect(first.bench.title).not.toHaveText("Gather");
});

test("an app that is older than the storage says so", async ({ clock, context }) => {
  const newer = await tab(context, clock, newerDatabase);
  await newer.open();
  await newer.page.close();
  const older = await tab(context, clock);
  await older.open();
  await expect(older.standingWarning).toContainText("A newer Oventide has been here.");
});

test("a record that can't be read is set aside, shown, and kept as it is", async ({ app, page }) => {
  await app.startBake();
  await app.bench.press();
  const [bake] = Object.keys((await storedIn(page)).bakes)[0].split("/");
  const broken = {
    bakes: [`${bake}/000001`, '{"version":1,"at_ms":5,"event":{"kind":"flown-to-the-moon"}}'],
    notebook: ["strange", "no note at all"],
    kitchen: ["kitchen", '{"version":99}'],
  };
  for (const [store, [key, text]] of Object.entries(broken)) await putInto(page, store, key, text);
  const before = await storedIn(page);

  await app.open();
  await app.reload();
  await expect(page.getByText("3 records on this phone can't be read.")).toBeVisible();
  await app.go("Kitchen");
  await expect(app.kitchen.setAside).toHaveCount(3);
  for (const [store, [key, text]] of Object.entries(broken)) {
    const record = app.kitchen.setAside.filter({ hasText: `${store}: ${key}` });
    await record.getByText("Its text").click();
    await expect(record.locator("pre")).toContainText(text);
  }
  expect(await storedIn(page)).toEqual(before);

  await test.step("it travels along in the archive", async () => {
    const archive = JSON.parse(await app.kitchen.writeArchive());
    const kept = archive.contents.set_aside.map(({ text }) => text);
    for (const [, text] of Object.values(broken)) expect(kept).toContain(text);
  });

  await test.step("what is written in its place moves it, and drops nothing", async () => {
    await app.kitchen.fridge.type(4);
    await expect
      .poll(async () => Object.values((await storedIn(page)).set_aside))
      .toContain(broken.kitchen[1]);
    await app.reload();
    await expect(app.kitchen.setAside).toHaveCount(3);
    await app.kitchen.fridge.shows("4 °C");
  });
});
