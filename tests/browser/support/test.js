// `test` with what every spec needs: a server of its own, a stopped clock, a watch for what must
// never happen, and the app's pages.

import { test as base } from "@playwright/test";
import { App } from "../pages/app.js";
import { DIST } from "./builds.js";
import { Clock } from "./clock.js";
import { letStorageKeepUp } from "./keeping-up.js";
import { MortalBrowser } from "./mortal-browser.js";
import { addSenses } from "./senses.js";
import { Server } from "./server.js";
import { Watch } from "./watch.js";

export { expect } from "@playwright/test";

export const test = base.extend({
  server: async ({}, use) => {
    const server = await Server.start(DIST);
    await use(server);
    await server.stop();
  },

  baseURL: async ({ server }, use) => use(server.url),

  clock: async ({ context }, use) => {
    const clock = new Clock(context);
    await clock.stopAt();
    await use(clock);
  },

  watch: [
    async ({ context, server }, use) => {
      const watch = new Watch(context, server.url);
      await addSenses(context);
      await letStorageKeepUp(context);
      await use(watch);
      watch.check();
    },
    { auto: true },
  ],

  /** A browser that can be killed; whatever becomes of the test, it is ended and forgotten. */
  mortal: async ({ server }, use) => {
    const browser = await MortalBrowser.make(server.url);
    await use(browser);
    await browser.remove();
  },

  /** The app in the first tab; `app.open()` loads it. */
  app: async ({ page, clock }, use) => use(new App(page, clock)),
});
