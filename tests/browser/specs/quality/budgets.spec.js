// The time budgets, measured on the release build. They run alone: the project `budgets`.
//
// A phone is imitated: its screen, a processor as fast as a mid-tier phone's, and for the first visit a
// network of 150 ms and 1.6 Mbit/s. What counts is the median, because the machine has
// other things to do. The budgets for size are held by `cargo xtask test --only size`.

import { expect, test } from "@playwright/test";
import { App } from "../../pages/app.js";
import { DIST } from "../../support/builds.js";
import { Clock, MINUTE, SECOND } from "../../support/clock.js";
import { takeUp } from "../../support/mid-bake.js";
import { CHANCE, hold, least } from "./measure/budget.js";
import { serveSmall } from "./measure/packed-host.js";
import { slowdown } from "./measure/processor.js";
import { reforecasts, replans } from "./measure/reforecast.js";

const NETWORK = {
  offline: false,
  latency: 150,
  downloadThroughput: 1.6e6 / 8,
  uploadThroughput: 750e3 / 8,
};
const RUNS = 9;

const LARGEST_PAINT_MS = 1500;
const COLD_USABLE_MS = 2500;
const WARM_USABLE_MS = 500;
const KITCHEN_CHANGE_MS = 16;
const REFORECAST_MS = 5;
const REPLAN_MS = 16;

/**
 * By how many times at most two goals are missed, so that it doesn't grow unseen; what a plan misses is below. Within an
 * hour, on a machine with nothing else to do and as many points throughout, one build's warm start came to 576 to 687 ms
 * and its change of the kitchen to 22.9 to 32.6.
 */
const MISSED_WARM = 1.5;
const MISSED_KITCHEN = 2.2;

test("cold start", async ({ browser }) => {
  test.setTimeout(300_000);
  const rate = await slowdown(browser);
  const host = await serveSmall(DIST);
  await hold(async () => {
    const starts = [];
    for (let run = 0; run < RUNS; run += 1) {
      const context = await browser.newContext(test.info().project.use);
      starts.push(await start(context, host.url, rate, NETWORK));
      await context.close();
    }
    return [
      { what: "cold start, largest paint", runs: starts.map(({ paint }) => paint), goalMs: LARGEST_PAINT_MS },
      { what: "cold start, usable", runs: starts.map(({ usable }) => usable), goalMs: COLD_USABLE_MS },
    ];
  });
  await host.stop();
});

test("warm start with the server dead", async ({ browser, context }) => {
  test.setTimeout(300_000);
  const rate = await slowdown(browser);
  const host = await serveSmall(DIST);
  const page = await context.newPage();
  await page.goto(host.url);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => true));
  await page.close();
  await host.stop();
  await hold(async () => {
    const runs = [];
    for (let run = 0; run < RUNS; run += 1) runs.push((await start(context, host.url, rate)).usable);
    return [{ what: "warm start, server dead, usable", runs, goalMs: WARM_USABLE_MS, most: MISSED_WARM }];
  });
});

/** Opens the app in a new tab; when its largest paint came and when it could be used, in ms. */
async function start(context, url, rate, network) {
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate });
  if (network) {
    await session.send("Network.enable");
    await session.send("Network.emulateNetworkConditions", network);
  }
  await page.addInitScript(recordStart);
  await page.goto(url);
  const recorded = await page.evaluate(() => window.started);
  await page.close();
  return recorded;
}

// Runs in the page. It is usable once the formulas are drawn and the page answers again: two
// frames later, with nothing of the app's in between.
function recordStart() {
  const paints = [];
  const keep = (entries) => paints.push(...entries.map((entry) => entry.startTime));
  const observer = new PerformanceObserver((list) => keep(list.getEntries()));
  observer.observe({ type: "largest-contentful-paint", buffered: true });
  const frame = () => new Promise((drawn) => requestAnimationFrame(drawn));
  const turn = () => new Promise((done) => setTimeout(done));
  const drawn = new Promise((resolve) => {
    const watch = new MutationObserver(() => {
      if (!document.querySelector("main#app a.card")) return;
      watch.disconnect();
      resolve();
    });
    watch.observe(document, { childList: true, subtree: true });
  });
  window.started = (async () => {
    await drawn;
    await frame();
    await frame();
    await turn();
    const usable = performance.now();
    // The paint of what is there now may be reported only after the next ones.
    for (let frames = 0; frames < 5; frames += 1) await frame();
    await turn();
    keep(observer.takeRecords());
    return { usable, paint: paints.at(-1) };
  })();
}

test("a change of the kitchen's temperature", async ({ browser, context }) => {
  test.setTimeout(300_000);
  const rate = await slowdown(browser);
  const { app, clock, host, page } = await standingStill(context);
  await takeUp(app, "Toast almonds");
  await clock.sleep(10 * MINUTE);
  const session = await slowed(context, page, rate);
  await hold(async () => {
    const runs = [];
    for (let run = 0; run < 2 * RUNS; run += 1) {
      const degrees = run % 2 === 0 ? 18 : 22;
      await app.bench.enterKitchen(degrees);
      await expect(app.bench.sheet.locator(".answer")).toBeVisible();
      runs.push(await scriptFor(session, page, () => setKitchen(page, degrees)));
      await expect(app.bench.sheet).toHaveCount(0);
    }
    const what = "kitchen's temperature to all windows and the plan, script";
    return [{ what, runs, goalMs: KITCHEN_CHANGE_MS, most: MISSED_KITCHEN }];
  });
  await host.stop();
});

test("a step fixed elsewhere in the plan of forty steps, as it is drawn and listed", async ({ browser, context }) => {
  test.setTimeout(600_000);
  const rate = await slowdown(browser);
  const { app, clock, host, page } = await standingStill(context);
  await takeUp(app, "Gather", { formula: "Forty steps" });
  await app.turnTo("#/plan");
  await expect(app.plan.bars.first()).toBeVisible();
  const session = await slowed(context, page, rate);
  for (const how of ["Drawn", "As a list"]) {
    await app.plan.show(how);
    await hold(async () => {
      const runs = [];
      for (let run = 0; run < 2 * RUNS; run += 1) {
        const time = run % 2 === 0 ? "15:30" : "16:20";
        await app.plan.item("Cook the cream").click();
        await app.plan.sheet.getByLabel("Start it at").fill(time);
        await clock.pass(SECOND);
        runs.push(await scriptFor(session, page, () => fixStep(page, time)));
        await expect(app.plan.sheet).toHaveCount(0);
      }
      const what = `a step fixed elsewhere, 40 steps ${how.toLowerCase()}, script`;
      return [{ what, runs, goalMs: REPLAN_MS, most: MISSED_WITH_PAGE }];
    });
  }
  await host.stop();
});

test("one full reforecast", async ({ browser }) => {
  test.setTimeout(600_000);
  const rate = await slowdown(browser);
  await hold(async () =>
    (await reforecasts(browser, rate, RUNS)).map(({ point, runs }) => ({
      what: `reforecast with all windows at "${point}", script`,
      runs,
      goalMs: REFORECAST_MS,
      most: 1,
      counts: least,
    })),
  );
});

/**
 * By how many times at most a plan redone misses its goal; one that isn't here is held at it. Two breads are held there but
 * for chance: within two hours one build took 15 to 23 ms in one run and 19 to 40 in another. Two batches that want the same
 * place in a fridge have to be tried in both orders: 32 to 41 ms at the least of nine runs.
 */
const MISSED = new Map([
  ["two breads, 49 steps, for a table", CHANCE],
  ["two breads, 49 steps, for a table each", CHANCE],
  ["two breads, one in its first rise", CHANCE],
  ["two batches, room in the fridge for one bowl", 3],
]);

/** A step fixed elsewhere, with its sheet's closing, storing and the page: 37 ms drawn and 27 as a list. */
const MISSED_WITH_PAGE = 2.6;

test("a plan redone at an event", async ({ browser }) => {
  test.setTimeout(600_000);
  const rate = await slowdown(browser);
  await hold(async () =>
    (await replans(browser, rate, RUNS)).map(({ point, runs }) => ({
      what: `a plan redone at an event, ${point}, script`,
      runs,
      goalMs: REPLAN_MS,
      most: MISSED.get(point) ?? 1,
      counts: least,
    })),
  );
});

/** The app from a small server, with a clock that stands still and so ticks nothing into the measurement. */
async function standingStill(context) {
  const host = await serveSmall(DIST);
  const page = await context.newPage();
  await page.addInitScript(provideTurns);
  const clock = new Clock(context);
  await clock.stopAt();
  return { app: new App(page, clock, host.url.replace(/\/$/, "")), clock, host, page };
}

/** A page whose scripts are counted, on a phone that is so much slower. */
async function slowed(context, page, rate) {
  const session = await context.newCDPSession(page);
  await session.send("Performance.enable");
  await session.send("Emulation.setCPUThrottlingRate", { rate });
  return session;
}

/** How long the page's scripts ran for something, in ms. */
async function scriptFor(session, page, work) {
  const ran = async () => {
    const { metrics } = await session.send("Performance.getMetrics");
    return 1000 * metrics.find(({ name }) => name === "ScriptDuration").value;
  };
  const before = await ran();
  await work();
  return (await ran()) - before;
}

/** Fixes the step whose sheet is open, and waits likewise until it is planned for that time. */
function fixStep(page, time) {
  return page.evaluate(async (wanted) => {
    const buttons = [...document.querySelectorAll("dialog.sheet[open] button")];
    // The drawing has the times of an item in its bar's label, the list in its row. Both stay where they are told
    // otherwise, and looking through all of them at every change took longer than some of the changes.
    const items = [...document.querySelectorAll(".bar, .plan-row")];
    const says = (item) => item.getAttribute("aria-label") ?? item.textContent;
    const item = items.find((item) => /^(\d\d:\d\d)?Cook the cream/.test(says(item)));
    const fixed = [`Cook the cream: ${wanted}`, `${wanted}Cook the cream`];
    const seen = () => fixed.some((start) => says(item).startsWith(start));
    if (seen()) throw new Error(`it is fixed to ${wanted} already`);
    const done = new Promise((resolve) => {
      const watch = new MutationObserver(() => seen() && resolve());
      watch.observe(document, { childList: true, subtree: true, characterData: true, attributes: true });
    });
    buttons.find((one) => one.textContent === "Fix it there").click();
    await done;
    await window.turns();
  }, time);
}

/** Runs in the page. Timers stand still; messages between two ports don't, and come after what is queued now. */
function provideTurns() {
  window.turns = async () => {
    for (let turn = 0; turn < 5; turn += 1) {
      await new Promise((resolve) => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = resolve;
        port2.postMessage(null);
      });
    }
  };
}

/** Presses the button and waits, inside the page, until everything that follows has been drawn. */
function setKitchen(page, degrees) {
  return page.evaluate(async (wanted) => {
    const sheet = document.querySelector("dialog.sheet[open]");
    const button = [...sheet.querySelectorAll("button")].find((one) =>
      one.textContent.startsWith("Kitchen is"),
    );
    // Between a number and its unit no line may break, so that space is another one.
    const says = (selector) => {
      const text = document.querySelector(selector)?.textContent.replace(/\s/g, " ") ?? "";
      return text.includes(`Kitchen ${wanted} °C`);
    };
    const seen = () => says(".bench-bar") && says(".asked .answer");
    const done = new Promise((resolve) => {
      const watch = new MutationObserver(() => seen() && resolve());
      watch.observe(document, { childList: true, subtree: true, characterData: true });
    });
    button.click();
    await done;
    await window.turns();
  }, degrees);
}
