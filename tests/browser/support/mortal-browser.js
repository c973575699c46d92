// A browser whose process can be killed in the middle of anything, and started again on the same
// profile, as when a phone's battery dies.

import { spawn } from "node:child_process";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "@playwright/test";
import { App } from "../pages/app.js";
import { EXECUTABLE, FLAGS } from "./chromium.js";
import { Clock } from "./clock.js";
import { letStorageKeepUp } from "./keeping-up.js";
import { PHONE } from "./phone.js";
import { addSenses } from "./senses.js";
import { Watch } from "./watch.js";

export class MortalBrowser {
  #origin;
  #profile;
  #process = null;
  #watch = null;

  /** A browser that has never been used. */
  static async make(origin) {
    const browser = new MortalBrowser();
    browser.#origin = origin;
    browser.#profile = await mkdtemp(join(tmpdir(), "oventide-profile-"));
    return browser;
  }

  /** Starts the browser with its clock stopped at a moment, and gives the app in its first tab. */
  async start(moment) {
    const port = join(this.#profile, "DevToolsActivePort");
    await rm(port, { force: true });
    this.#process = spawn(
      EXECUTABLE,
      [
        "--headless",
        ...FLAGS,
        `--lang=${PHONE.locale}`,
        "--remote-debugging-port=0",
        `--user-data-dir=${this.#profile}`,
        `--window-size=${PHONE.viewport.width},${PHONE.viewport.height}`,
        "about:blank",
      ],
      // A group of its own, so that every process of the browser can be killed at once.
      { stdio: "ignore", detached: true, env: { ...process.env, TZ: PHONE.timezoneId } },
    );
    const browser = await chromium.connectOverCDP(`http://localhost:${await portIn(port)}`);
    const [context] = browser.contexts();
    await addSenses(context);
    await letStorageKeepUp(context);
    this.#watch = new Watch(context, this.#origin);
    const clock = new Clock(context);
    await clock.stopAt(moment);
    const [page] = context.pages();
    await page.setViewportSize(PHONE.viewport);
    return new App(page, clock, this.#origin);
  }

  /** Dies, and is started again so many ms later by its clock; gives the app, loaded at a place. */
  async dieAndReturn(app, { after = 0, place = "#/bench" } = {}) {
    const moment = (await app.now()) + after;
    await this.kill();
    const again = await this.start(moment);
    await again.open(place);
    return again;
  }

  /** Kills every process of the browser, at once and without a word to any of them. */
  async kill() {
    const { pid } = this.#process;
    const gone = new Promise((resolve) => this.#process.once("exit", resolve));
    process.kill(-pid, "SIGKILL");
    await gone;
    this.#watch.check();
    this.#process = null;
  }

  /** Ends it and forgets its profile. */
  async remove() {
    try {
      if (this.#process) await this.kill();
    } finally {
      await rm(this.#profile, { recursive: true, force: true, maxRetries: 5 });
    }
  }
}

/** The port that the browser writes into its profile once it listens. */
async function portIn(path) {
  for (let look = 0; look < 300; look += 1) {
    const text = await readFile(path, "utf8").catch(() => "");
    if (text.includes("\n")) return text.split("\n")[0];
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  throw new Error("the browser didn't start within 15 s");
}
