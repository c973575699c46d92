// Works the app with keys alone, and holds each stop of the focus to WCAG 2.2.

import { expect } from "@playwright/test";

/** No page has more stops than this; more means that the focus can't get there. */
const MOST_STOPS = 150;
/** Between two presses of the same kind, the app wants this much time. */
const BETWEEN_PRESSES = 500;

export class Keys {
  #app;

  constructor(app) {
    this.#app = app;
    this.page = app.page;
  }

  /** Goes on by Tab until the focus is on what has this name. */
  async to(name, { backwards = false } = {}) {
    const seen = [];
    for (let stops = 0; stops < MOST_STOPS; stops += 1) {
      await this.page.keyboard.press(backwards ? "Shift+Tab" : "Tab");
      const focus = await this.focus();
      if (matches(focus.name, name)) {
        expect(focus.faults, focus.name).toEqual([]);
        return;
      }
      // The browser's own bar lies between the last stop and the first.
      if (focus.name !== "body") expect(focus.faults, focus.name).toEqual([]);
      seen.push(focus.name);
    }
    throw new Error(`the focus never comes to ${name}; it went over ${seen.join(", ")}`);
  }

  /** Goes there and presses Enter; the focus must not get lost by it. */
  async press(name, key = "Enter") {
    if (!matches((await this.focus()).name, name)) await this.to(name);
    await this.again(key);
  }

  /** Presses a key where the focus is. */
  async again(key = "Enter") {
    await this.#app.clock.pass(BETWEEN_PRESSES);
    const before = await this.focus();
    await this.page.keyboard.press(key);
    await expect
      .poll(async () => (await this.focus()).name, `focus after ${key} on "${before.name}"`)
      .not.toBe("body");
  }

  /** Types into the field that has the focus. */
  async type(text) {
    await this.page.keyboard.press("ControlOrMeta+a");
    await this.page.keyboard.type(text);
  }

  /** What has the focus, and what is wrong with how it shows. */
  focus() {
    return this.page.evaluate(() => {
      const active = document.activeElement;
      // What had the focus before a dialog opened gets it back with the next frame.
      const element = active?.closest("dialog:not([open])") ? document.body : (active ?? document.body);
      if (element === document.body || element === document.documentElement) {
        return { name: "body", faults: [] };
      }
      const label = element.labels?.[0];
      const spoken = element.getAttribute("aria-label") ?? label?.textContent ?? element.textContent;
      const faults = [];
      // A radio button is hidden behind its label, which then shows the focus.
      const shows = element.matches(".visually-hidden") ? element.closest("label") : element;
      const { outlineStyle, outlineWidth } = getComputedStyle(shows);
      const isRing = outlineStyle !== "none" && parseFloat(outlineWidth) >= 2;
      if (!isRing && !element.matches("h1, h2")) faults.push("the focus doesn't show (2.4.7)");
      if (isCovered(shows)) faults.push("all of it is covered (2.4.11)");
      return { name: spoken.trim().replace(/\s+/g, " "), faults };

      function isCovered(shown) {
        const box = shown.getBoundingClientRect();
        for (const across of [0.1, 0.5, 0.9]) {
          for (const down of [0.1, 0.5, 0.9]) {
            const [x, y] = [box.left + across * box.width, box.top + down * box.height];
            const top = document.elementFromPoint(x, y);
            if (top && (shown.contains(top) || top.contains(shown))) return false;
          }
        }
        return true;
      }
    });
  }
}

function matches(found, wanted) {
  return wanted instanceof RegExp ? wanted.test(found) : found === wanted;
}
