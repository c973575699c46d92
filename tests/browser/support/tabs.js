// More tabs of the same phone.

import { expect } from "@playwright/test";
import { App } from "../pages/app.js";

/** The app in a new tab, not loaded yet, with a trouble of its own where one is given. */
export async function tab(context, clock, trouble) {
  const app = new App(await context.newPage(), clock);
  if (trouble) await app.page.addInitScript(trouble);
  return app;
}

/** The Bench in a new tab, which was touched: a browser lets no tab sound that never was. */
export async function secondBench(context, clock) {
  const app = await tab(context, clock);
  await app.open("#/bench");
  await app.bench.title.click();
  await expect(app.bench.honestLine).toBeHidden();
  return app;
}
