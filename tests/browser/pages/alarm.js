// The alarm that covers every page while it rings.

import { expect } from "@playwright/test";

/** The app takes a press within 400 ms of the next alarm's coming for one that was meant for the last. */
const TO_READ_THE_NEXT = 500;
/** More alarms than this at once are no bake but a fault of the app or of the test. */
const MOST_AT_ONCE = 10;

export class Alarm {
  #app;

  constructor(app) {
    this.#app = app;
    this.dialog = app.page.locator("dialog.alarm[open]");
    this.title = this.dialog.getByRole("heading");
    this.text = this.dialog.locator(".alarm-body");
    this.stopButton = this.dialog.getByRole("button", { name: "Stop the alarm" });
  }

  /** Whether one rings now. Nothing is waited for: the clock stands still. */
  rings() {
    return this.dialog.isVisible();
  }

  /** Stops the one that is shown, and waits until it is gone or another stands there. */
  async stop() {
    const before = await this.shown();
    await this.stopButton.click();
    await expect.poll(() => this.shown(), "the alarm that was stopped").not.toBe(before);
    if (await this.rings()) await this.#app.clock.pass(TO_READ_THE_NEXT);
  }

  /** Stops every one that rings, and gives their titles. */
  async stopAll() {
    const titles = [];
    while (await this.rings()) {
      titles.push(await this.title.innerText());
      expect(titles.length, titles.join("; ")).toBeLessThanOrEqual(MOST_AT_ONCE);
      await this.stop();
    }
    return titles;
  }

  /** What is shown, or nothing. */
  shown() {
    return this.#app.page.evaluate(
      () => document.querySelector("dialog.alarm[open] .alarm-body")?.textContent ?? "",
    );
  }
}
