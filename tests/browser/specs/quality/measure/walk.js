// Walks a whole bake, and stops at everything that the Bench asks on the way.

import { expect } from "@playwright/test";
import { HOUR, MINUTE } from "../../../support/clock.js";

/** How long is slept at once while there is nothing to do. */
const NAP = 5 * MINUTE;
/** No starter waits longer for anything. */
const LONGEST_WAIT = 24 * HOUR;
/** No starter asks so much; more means that the walk goes round in circles. */
const MOST_PRESSES = 400;

/**
 * Gives each ask of a running bake from where it stands to its end, and answers it afterwards. The
 * marks of one step are one ask. `before` is called ahead of each press.
 */
export async function* asksOf(app, { before = async () => {} } = {}) {
  let last = "";
  for (let presses = 0; presses < MOST_PRESSES; presses += 1) {
    const ask = await askNow(app.page);
    const name = `${ask.kind}: ${ask.title}`;
    if (name !== last) yield { ...ask, name };
    last = name;
    if (ask.kind === "done") return;
    if (ask.kind === "alarm") await app.alarm.stop();
    else if (ask.kind === "wait" || ask.kind === "idle") await waitOut(app, ask);
    else {
      await before();
      await app.bench.press();
    }
  }
  throw new Error(`the bake has not ended after ${MOST_PRESSES} presses; it stands at ${last}`);
}

/** What is asked now, with what kind of asking it is. */
export function askNow(page) {
  return page.evaluate(() => {
    const text = (selector) => document.querySelector(selector)?.textContent.trim() ?? "";
    // An alarm that was stopped loses its words before it goes.
    const alarm = text("dialog.alarm[open] #alarm-title");
    if (alarm) return { kind: "alarm", title: alarm, instruction: "", action: "" };
    const action = document.querySelector(".act > .act-main");
    const kinds = { Finish: "done", Folded: "fold", "It's ready": "look", "It's ready now": "wait" };
    const has = (selector) => document.querySelector(`.asked ${selector}`) !== null;
    const work = () => {
      if (has(".piece-row input")) return "divide";
      if (has(".piece-row .mark")) return "pieces";
      if (has(".field .stepper") && !has("details .stepper")) return "dough temperature";
      if (has(".liquid")) return "mix";
      return has(".marks .mark") ? "ingredients" : "work";
    };
    return {
      kind: action.disabled ? "idle" : (kinds[action.textContent.trim()] ?? work()),
      title: text(".asked-title"),
      instruction: text(".asked-instruction"),
      action: action.textContent.trim(),
    };
  });
}

async function waitOut(app, ask) {
  for (let slept = 0; slept < LONGEST_WAIT; slept += NAP) {
    await app.clock.sleep(NAP);
    const now = await askNow(app.page);
    if (now.kind !== ask.kind || now.title !== ask.title) return;
  }
  expect(await askNow(app.page), "after a day of waiting").not.toEqual(ask);
}
