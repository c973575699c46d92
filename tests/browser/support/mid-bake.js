// A bake that is taken up in its middle, where walking there would show nothing new: the archive of
// that point is restored, as on a phone that takes the place of another.

import { expect } from "@playwright/test";
import { FORMULAS } from "../pages/formula.js";
import { MINUTE } from "./clock.js";
import { pointOf } from "./points.js";

/**
 * Takes up a bake where a step first asks for "work", a "fold", a "look", or to "wait"; or, with no
 * step, where it is "all done". What was on the phone before is gone.
 */
export async function takeUp(app, title, { asks, formula = FORMULAS.buns } = {}) {
  const { at_ms: at, archive } = await pointOf(formula, title, asks);
  const ahead = at - (await app.now());
  // Some seconds late it is still the same point, and time can't be turned back.
  expect(ahead, `ms until ${title}, which must not have been long before`).toBeGreaterThan(-MINUTE);
  await empty(app.page);
  if (ahead > 0) await app.clock.sleep(ahead);
  await app.open("#/kitchen");
  await app.kitchen.restore(archive);
  await expect(app.kitchen.outcome).toHaveText("Everything in the archive is here now.");
  await app.turnTo("#/bench");
  await expect(app.bench.mainAction).toBeVisible();
  if (title) await expect(app.bench.title).toHaveText(title);
}

/** Forgets what is stored, or else an older bake would ring in the time that is slept through. */
async function empty(page) {
  const { origin } = new URL(page.url());
  if (origin === "null") return;
  await page.goto("about:blank");
  const session = await page.context().newCDPSession(page);
  await session.send("Storage.clearDataForOrigin", { origin, storageTypes: "indexeddb" });
  await session.detach();
}

/** A bake of buns that has just begun, with a timer set by hand for tea. */
export async function withTimer(app, minutes = 10) {
  await app.startBake();
  await app.bench.setTimer("Tea", minutes);
}
