// The short promises in Firefox, on the release build.
//
// The clock runs: Time is only put forward, so that a minute needn't be waited for.

import assert from "node:assert/strict";
import fs from "node:fs/promises";
import os from "node:os";
import path from "node:path";
import puppeteer from "puppeteer-core";
import { DIST } from "../support/builds.js";
import { PHONE } from "../support/phone.js";
import { Server } from "../support/server.js";
import { PATIENCE_MS, Promises } from "./promises.mjs";

const FIREFOX = process.env.OVENTIDE_FIREFOX ?? "/usr/bin/firefox-esr";
const MINUTE_MS = 60_000;
// Two presses within 400 ms are one press to the app.
const BETWEEN_PRESSES_MS = 1000;

const downloads = await fs.mkdtemp(path.join(os.tmpdir(), "oventide-firefox-"));
const server = await Server.start(DIST);
const browser = await puppeteer.launch({
  browser: "firefox",
  executablePath: FIREFOX,
  headless: true,
  extraPrefsFirefox: {
    "browser.download.folderList": 2,
    "browser.download.dir": downloads,
    "browser.download.useDownloadDir": true,
    "browser.download.alwaysOpenPanel": false,
    "browser.helperApps.neverAsk.saveToDisk": "application/json",
  },
});
const page = await browser.newPage();
page.setDefaultTimeout(PATIENCE_MS);
await page.setViewport(PHONE.viewport);
await page.evaluateOnNewDocument(() => {
  const real = Date.now.bind(Date);
  const ahead = () => Number(sessionStorage.getItem("ahead") ?? 0);
  Date.now = () => real() + ahead();
  // Time that passed, not a clock that was set: the other clock goes along.
  const run = performance.now.bind(performance);
  performance.now = () => run() + ahead();
  window.putForward = (ms) => sessionStorage.setItem("ahead", String(ahead() + ms));
});

const putForward = (ms) => page.evaluate((by) => window.putForward(by), ms);

async function press(selector) {
  await putForward(BETWEEN_PRESSES_MS);
  // Through the page, because a fixed bar at the bottom can cover what was scrolled to.
  const found = await page.waitForSelector(selector, { visible: true });
  await found.evaluate((element) => element.scrollIntoView({ block: "center" }));
  await found.click();
  await found.dispose();
}

const named = (name) => `::-p-aria(${name})`;

async function shows(selector, text) {
  await page.waitForFunction(
    (wanted, words) =>
      [...document.querySelectorAll(wanted)].some((found) => found.textContent.includes(words)),
    {},
    selector,
    text,
  );
}

const textOf = (selector) => page.$eval(selector, (found) => found.textContent.trim());

async function within(limitMs, what, look) {
  const end = Date.now() + limitMs;
  for (;;) {
    const seen = await look();
    if (seen) return seen;
    assert.ok(Date.now() < end, `${what} did not come within ${limitMs} ms`);
    await new Promise((again) => setTimeout(again, 50));
  }
}

const promises = new Promises();

await promises.keep("starts", async () => {
  await page.goto(server.url);
  await shows("h1", "Today");
  await shows("a.card h2", "Plum");
});

await promises.keep("starts again with the server dead", async () => {
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await server.stop();
  await page.reload();
  await shows("h1", "Today");
  await shows("a.card h2", "Plum");
  assert.equal(await page.evaluate(() => navigator.serviceWorker.controller !== null), true);
});

await promises.keep("a formula starts a bake", async () => {
  const card = await page.$$("a.card");
  const names = await Promise.all(card.map((one) => one.evaluate((found) => found.textContent)));
  const plum = card[names.findIndex((name) => name.includes("Plum"))];
  await plum.evaluate((found) => found.scrollIntoView({ block: "center" }));
  await plum.click();
  await press(named("Start this bake"));
  await shows(".asked-instruction", "Weigh everything");
});

const firstMark = ".marks .mark";
const isMarked = (found) => found.getAttribute("aria-pressed") === "true";

await promises.keep("an event survives a reload", async () => {
  assert.equal(await page.$eval(firstMark, isMarked), false);
  await press(firstMark);
  await page.waitForSelector(`${firstMark}[aria-pressed="true"]`);
  await page.reload();
  await page.waitForSelector(`${firstMark}[aria-pressed="true"]`);
  assert.match(await textOf(".asked-instruction"), /Weigh everything/);
});

await promises.keep("a timer comes due", async () => {
  await press(named("Timer"));
  await (await page.waitForSelector("#timer-name", { visible: true })).type("Rack");
  for (let minutes = 10; minutes > 1; minutes -= 1) await press(named("Less: Minutes"));
  await press(named("Set the timer"));
  await shows(".runs-name", "Rack");
  assert.equal(await page.$("dialog.alarm[open]"), null);
  await putForward(MINUTE_MS);
  await page.waitForSelector("dialog.alarm[open]");
  assert.equal(await textOf("#alarm-title"), "Rack");
  await press(named("Stop the alarm"));
  await page.waitForFunction(() => !document.querySelector("dialog.alarm[open]"));
});

async function goTo(hash, heading) {
  await page.evaluate((to) => {
    location.hash = to;
  }, hash);
  await shows("h1", heading);
}

await promises.keep("an archive goes out and comes back in", async () => {
  await goTo("#/kitchen", "Kitchen");
  await press(named("Write an archive"));
  const name = await within(PATIENCE_MS, "the archive", async () => {
    const files = await fs.readdir(downloads);
    return files.every((file) => !file.endsWith(".part")) && files[0];
  });
  const file = path.join(downloads, name);
  const archive = await within(PATIENCE_MS, "the archive's end", async () => {
    const text = await fs.readFile(file, "utf8");
    return text.trimEnd().endsWith("}") && JSON.parse(text);
  });
  assert.equal(archive.contents.bakes.length, 1);

  await press(named("Erase everything"));
  await press(named("Go on"));
  await press(named("Erase it all now"));
  await goTo("#/bench", "Nothing is baking");

  await goTo("#/kitchen", "Kitchen");
  // A native window can't be worked from here; the file is put into the field it would have filled.
  await page.evaluate(() => {
    HTMLInputElement.prototype.click = function noWindow() {};
  });
  await press(named("Restore an archive"));
  await press(named("Choose the file"));
  const picker = await page.waitForSelector("input[type=file]");
  await picker.uploadFile(file);
  await shows("main", "Everything in the archive is here now.");
  await goTo("#/bench", "Weigh everything");
  await page.waitForSelector(`${firstMark}[aria-pressed="true"]`);
});

await browser.close();
await fs.rm(downloads, { recursive: true });
promises.close();
