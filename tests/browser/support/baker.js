// A baker who does whatever the Bench asks for, in likely times, and stops each alarm as it rings.

import { expect } from "@playwright/test";
import { MINUTE, SECOND } from "./clock.js";

/** How long hands take for a step, and for one mark on one piece. */
const HANDS = 5 * MINUTE;
const ONE_MARK = 20 * SECOND;
/** The baker looks at the phone at least this often. */
const GLANCE = MINUTE;
/** Nothing in a bake of one day lasts longer. */
const LONGEST_WAIT = 24 * 60 * MINUTE;

/** What the thermometers say, and what the pieces weigh; without a reading the expected one is taken. */
const READINGS = {
  dough: 25,
  core: { Bake: 91, Cool: 34, "Cream cools": 4.5 },
  masses: { "Bun 1": 85, "Bun 2": 91, "Bun 3": 79 },
};

export class Baker {
  /** What was done, and what rang, in order. */
  story = [];
  rang = [];
  #app;
  #readings;

  constructor(app, readings = READINGS) {
    this.#app = app;
    this.#readings = readings;
  }

  /** Bakes until the Bench asks for a step, by its title, and for an action where one is given. */
  async until(title, action = /./) {
    await this.#while((ask) => !(ask.title === title && action.test(ask.action)));
  }

  /** Bakes until all is done. */
  async untilAllDone() {
    await this.#while((ask) => ask.action !== "Finish");
  }

  /** Does the one thing that is asked for now. */
  async actOnce() {
    await this.#stopAlarms();
    await this.#answer(await this.#app.bench.ask());
  }

  async #while(goesOn) {
    for (;;) {
      await this.#stopAlarms();
      const ask = await this.#app.bench.ask();
      if (!goesOn(ask)) return;
      await this.#answer(ask);
    }
  }

  async #answer(ask) {
    this.story.push(`${ask.title}: ${ask.action}`);
    expect(this.story.length, `going round in circles: ${this.story.slice(-8)}`).toBeLessThan(200);
    if (ask.action === "It's ready now" || ask.action === "") return this.#wait(ask);
    const { bench, clock } = this.#app;
    const pieceByPiece = /^\w+ \d+: /.test(ask.action);
    if (ask.action === "Done") await clock.sleep(HANDS);
    if (pieceByPiece) await clock.sleep(ONE_MARK);
    await this.#stopAlarms();
    // Something more urgent may have come up while the hands were busy.
    const now = await bench.ask();
    if (now.title !== ask.title || now.action !== ask.action) return;
    await this.#measure(ask);
    await bench.press();
  }

  /** Takes what there is to take at a step, before it is called done. */
  async #measure({ title, action }) {
    const { bench } = this.#app;
    const { dough, core = {}, masses = {} } = this.#readings;
    if (action === "Enter the temperature" && dough !== undefined) {
      await bench.doughTemperature.type(dough);
      await expect(bench.mainAction).toHaveText(`It is ${dough} °C`);
    }
    if (title in core) await bench.measureCore(core[title]);
    if (title === "Divide") {
      for (const [piece, grams] of Object.entries(masses)) await bench.weigh(piece, grams);
    }
  }

  /** Nothing to do: lets time pass until an alarm rings or something else is asked. */
  async #wait(ask) {
    const { alarm, bench, clock } = this.#app;
    for (let waited = 0; waited < LONGEST_WAIT; waited += GLANCE) {
      await clock.sleep(GLANCE);
      if (await alarm.rings()) return;
      const now = await bench.ask();
      if (now.title !== ask.title || now.action !== ask.action) return;
    }
    throw new Error(`nothing rang within a day of waiting at ${ask.title}`);
  }

  async #stopAlarms() {
    const titles = await this.#app.alarm.stopAll();
    this.rang.push(...titles);
  }
}
