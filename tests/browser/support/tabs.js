// More tabs of the same phone.

import { App } from "../pages/app.js";

/** The app in a new tab, not loaded yet, with a trouble of its own where one is given. */
export async function tab(context, clock, trouble) {
  const app = new App(await context.newPage(), clock);
  if (trouble) await app.page.addInitScript(trouble);
  return app;
}
