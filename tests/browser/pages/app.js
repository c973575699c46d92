// The app in one tab, and the ways between its pages.

import { expect } from "@playwright/test";
import { Alarm } from "./alarm.js";
import { Bench } from "./bench.js";
import { Desk } from "./desk.js";
import { FORMULAS, FormulaPage } from "./formula.js";
import { Kitchen } from "./kitchen.js";
import { NotePage } from "./note.js";
import { Plan } from "./plan.js";
import { Today } from "./today.js";

export class App {
  /** `origin` is needed only where the context has no base URL. */
  constructor(page, clock, origin = "") {
    this.page = page;
    this.clock = clock;
    this.origin = origin;
    this.alarm = new Alarm(this);
    this.bench = new Bench(this);
    this.desk = new Desk(this);
    this.formula = new FormulaPage(this);
    this.kitchen = new Kitchen(this);
    this.note = new NotePage(this);
    this.plan = new Plan(this);
    this.today = new Today(this);
  }

  /** Loads the app at a place, as from an address or the home screen. */
  async open(place = "#/") {
    await this.page.goto(`${this.origin}/${place}`);
    await this.#ready();
  }

  /** Loads the app and starts a bake. */
  async startBake(formula = FORMULAS.buns) {
    await this.open();
    await this.formula.bake(formula);
  }

  /** Loads the page again. */
  async reload() {
    await this.page.reload();
    await this.#ready();
  }

  /** Loads the app and waits until all of it lies on the phone, and its service worker is at work. */
  async install() {
    await this.open();
    await expect(this.page.getByText("The whole app is on this phone")).toBeVisible();
    const isControlled = () => this.page.evaluate(() => navigator.serviceWorker.controller !== null);
    await expect.poll(isControlled).toBe(true);
  }

  /** Goes to a page by the bar at the bottom. */
  async go(name) {
    await this.page.getByRole("navigation", { name: "Pages" }).getByRole("link", { name }).click();
    await expect(this.heading).toHaveText(name);
  }

  /** Goes to a place by its address, without loading anything. */
  async turnTo(place) {
    await this.page.evaluate((hash) => (location.hash = hash), place);
  }

  /** What the page is called. */
  get heading() {
    return this.page.getByRole("heading", { level: 1 });
  }

  /** The warning that stands over every page while nothing can be stored. */
  get standingWarning() {
    return this.page.locator(".standing");
  }

  /** What the page's clock says, in ms since 1970. */
  now() {
    return this.page.evaluate(() => Date.now());
  }

  async #ready() {
    // The first paint has a heading too; the app takes it away when it mounts.
    await expect(this.page.locator("#shell")).toHaveCount(0);
    // While an alarm rings there is nothing else to see.
    const shown = this.heading.or(this.alarm.dialog);
    await expect(shown.first()).toBeVisible();
  }
}
