// The page's clock stands still until a test moves it. It moves `Date`, timers and
// `performance.now`; service workers and sound are not touched, and it waits for the storage (`keeping-up.js`).

import { START } from "./phone.js";

export const SECOND = 1_000;
export const MINUTE = 60 * SECOND;
export const HOUR = 60 * MINUTE;
/** The app reckons everything anew every 15 s, by a clock of whole seconds, and tries again then what it could not store. */
export const BEAT = 16 * SECOND;

export class Clock {
  #clock;

  constructor(context) {
    this.#clock = context.clock;
  }

  /** Stops the clock at a moment. To be called before the first page is opened. */
  async stopAt(moment = START) {
    // It runs until it is stopped, and can only be stopped at a moment that is still to come.
    await this.#clock.install({ time: new Date(moment).getTime() - HOUR });
    await this.#clock.pauseAt(moment);
  }

  /** Lets time pass, and every timer in it fire at its moment. */
  async pass(ms) {
    await this.#clock.runFor(ms);
  }

  /** Sets the clock to another moment, as a phone does that is set by hand: nothing fires by it. */
  async set(moment) {
    await this.#clock.setSystemTime(moment);
  }

  /** Jumps ahead as a phone that slept: what was due meanwhile fires once, at the end. */
  async sleep(ms) {
    await this.#clock.fastForward(ms);
  }
}
