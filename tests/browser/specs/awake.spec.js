// Promise: the screen stays on while a bake runs, and no longer.

import { SECOND } from "../support/clock.js";
import { setHidden } from "../support/senses.js";
import { expect, test } from "../support/test.js";

/** Runs in the page: a phone that notes what it is asked, and lets a test take it away. */
function noteWhatIsAsked() {
  const wake = { asked: [], held: new Set() };
  const letGo = (lock) => wake.held.delete(lock) && lock.dispatchEvent(new Event("release"));
  wake.takeAway = () => [...wake.held].forEach(letGo);
  const request = async (what) => {
    if (document.visibilityState === "hidden") throw new DOMException("hidden", "NotAllowedError");
    const lock = new EventTarget();
    lock.release = async () => void letGo(lock);
    wake.asked.push(what);
    wake.held.add(lock);
    return lock;
  };
  window.wake = wake;
  Object.defineProperty(navigator, "wakeLock", { value: { request } });
}

/** How often it was asked for, and how many are held. */
const wake = (page) => page.evaluate(() => [window.wake.asked.length, window.wake.held.size]);

test("the screen is kept awake from the start of a bake to its end, and on every return", async ({
  app,
  page,
}) => {
  await page.addInitScript(noteWhatIsAsked);
  await app.open();
  await app.clock.pass(30 * SECOND);
  expect(await wake(page), "with nothing baking").toEqual([0, 0]);

  await app.startBake();
  await expect.poll(() => wake(page)).toEqual([1, 1]);
  expect(await page.evaluate(() => window.wake.asked)).toEqual(["screen"]);
  await app.bench.press();
  await app.clock.pass(30 * SECOND);
  expect(await wake(page), "while it is held").toEqual([1, 1]);

  await test.step("browsers take it from a page that is left", async () => {
    await setHidden(page, true);
    await page.evaluate(() => window.wake.takeAway());
    await app.clock.pass(30 * SECOND);
    expect(await wake(page)).toEqual([1, 0]);
    await setHidden(page, false);
    await expect.poll(() => wake(page)).toEqual([2, 1]);
  });

  await test.step("with the bake it is given back", async () => {
    await app.bench.giveUp();
    await expect.poll(() => wake(page)).toEqual([2, 0]);
    await setHidden(page, true);
    await app.clock.pass(SECOND);
    await setHidden(page, false);
    await app.clock.pass(30 * SECOND);
    expect(await wake(page), "after the bake").toEqual([2, 0]);
  });
});

test("a bake that is found running at the start keeps it awake, too", async ({ app, page }) => {
  await page.addInitScript(noteWhatIsAsked);
  await app.startBake();
  await app.reload();
  await expect.poll(() => wake(page)).toEqual([1, 1]);
});
