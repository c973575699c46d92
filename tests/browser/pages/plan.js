// The plan of everything that runs: what it comes to, the wishes, and every item, drawn or as a list.

import { readFile } from "node:fs/promises";
import { expect } from "@playwright/test";
import { readCalendar } from "../support/calendar.js";
import { SECOND } from "../support/clock.js";
import { FORMULAS } from "./formula.js";

export class Plan {
  #app;

  constructor(app) {
    this.#app = app;
    const { page } = app;
    this.head = page.getByRole("region", { name: "What it comes to" });
    this.wished = page.getByRole("region", { name: "What you wish" }).getByRole("status");
    this.bars = page.locator(".bar");
    this.rows = page.locator(".plan-row");
    this.field = page.locator(".plan-field");
    this.now = page.locator(".plan-over .now");
    this.away = page.locator(".plan-away");
    this.lanes = page.locator(".plan-heads > span");
    this.moved = page.getByRole("region", { name: "What moved" });
    this.taken = page.getByRole("region", { name: "Take the plan with you" }).locator(".answer");
    /** The list, which is there for the paper where the plan is drawn. */
    this.list = page.getByRole("main").locator("ol.plan-list");
    this.sheet = page.locator("dialog.sheet[open]");
    this.ways = page.getByRole("region", { name: "Ways out" });
    this.undo = page.getByRole("button", { name: "Undo" });
    this.earlier = page.getByRole("button", { name: "15 min earlier" });
    this.later = page.getByRole("button", { name: "15 min later" });
  }

  /** From a formula's page: two presses, of which the second says the table. */
  async startFor(table) {
    await this.openTables();
    await this.sheet.getByRole("button", { name: table, exact: true }).click();
    await expect(this.#app.heading).toHaveText("Plan");
    await expect(this.bars.first()).toBeVisible();
  }

  /** A plan for the buns, for seven in the evening; it is nine in the morning. */
  async bunsForSeven() {
    await this.#app.open();
    await this.#app.formula.look(FORMULAS.buns);
    await this.startFor("19:00");
  }

  async openTables() {
    await this.#app.page.getByRole("button", { name: "On the table at…" }).click();
    await expect(this.sheet).toBeVisible();
  }

  /** A bar by the name of its item. */
  bar(name) {
    return this.#app.page.getByRole("button", { name: new RegExp(`^${name}( \\([^)]*\\))?: \\d`) });
  }

  /** What opens the sheet of an item, drawn or listed. */
  item(name) {
    const row = this.#app.page.getByRole("button").and(this.rows).filter({ hasText: name });
    return this.bar(name).or(row).first();
  }

  /** When something is planned, in minutes of the day. */
  async times(name) {
    return timesOf(await this.bar(name).getAttribute("aria-label"));
  }

  /** Every bar, as it is heard and where it is. */
  drawn() {
    return this.bars.evaluateAll((bars) =>
      bars.map((bar) => {
        const { top, height, left, right } = bar.getBoundingClientRect();
        const hands = bar.dataset.lane === "hands";
        return { label: bar.getAttribute("aria-label"), top, height, left, right, hands };
      }),
    );
  }

  async show(how) {
    await this.#app.page.locator("label", { hasText: how }).click();
    await expect(this.#app.page.getByRole("radio", { name: how })).toBeChecked();
  }

  /** When it is to begin, in minutes of the day. */
  async begins() {
    const [, time] = (await this.head.innerText()).match(/Begin at (\d\d:\d\d)/);
    return minuteOf(time);
  }

  /** Fixes when an item starts. */
  async fix(name, minute) {
    await this.bar(name).click();
    await this.sheet.getByLabel("Start it at").fill(timeOf(minute));
    await this.sheet.getByRole("button", { name: "Fix it there" }).click();
    await expect(this.sheet).toHaveCount(0);
  }

  /** Says that nothing begins before a minute of today, or, told none, that it may at any time. */
  async beginNotBefore(minute) {
    await this.openTables();
    const fold = this.sheet.locator("details");
    await fold.getByText("Begin nothing before").click();
    if (minute === undefined) {
      await fold.getByRole("button", { name: "At any time" }).click();
    } else {
      await fold.getByLabel("Time").fill(timeOf(minute));
      await fold.getByRole("button", { name: "Not before then" }).click();
    }
    await expect(this.sheet).toHaveCount(0);
  }

  /** Says that nobody is there today, from a minute to another. */
  async awayToday(from, to) {
    await this.#app.page.getByRole("button", { name: "Away, asleep" }).click();
    await this.sheet.getByLabel("From", { exact: true }).first().fill(timeOf(from));
    await this.sheet.getByLabel("To", { exact: true }).first().fill(timeOf(to));
    await this.sheet.getByRole("button", { name: "Add this time" }).click();
    await expect(this.sheet.getByRole("button", { name: /^Remove/ })).toHaveCount(1);
    await this.close();
  }

  /** When everything is likely ready, in minutes of the day. */
  async ready() {
    const [, time] = (await this.head.innerText()).match(/[Rr]eady about (\d\d:\d\d)/);
    return minuteOf(time);
  }

  /** Goes to the page, once the last press is no longer the same. */
  async turnTo() {
    await this.#app.clock.pass(SECOND);
    await this.#app.turnTo("#/plan");
    await expect(this.#calendarButton).toBeEnabled();
  }

  async putInCalendar() {
    await this.#app.clock.pass(SECOND);
    await this.#calendarButton.click();
  }

  /** Downloads the calendar's file, and reads it. */
  async calendar() {
    const downloading = this.#app.page.waitForEvent("download");
    await this.putInCalendar();
    const file = await downloading;
    expect(file.suggestedFilename()).toBe("oventide-plan.ics");
    const text = await readFile(await file.path(), "utf8");
    return { text, ...readCalendar(text) };
  }

  get #calendarButton() {
    return this.#app.page.getByRole("button", { name: "Put it in the calendar" });
  }

  /** Waits for the ways out: plans are made one at a time, with turns of the page between them. */
  async reckoned() {
    await expect(async () => {
      await this.#app.clock.pass(SECOND);
      await expect(this.ways).not.toContainText("Working it out…", { timeout: 50 });
    }).toPass();
    return this.ways;
  }

  async close() {
    await this.sheet.getByRole("button", { name: "Close" }).click();
    await expect(this.sheet).toHaveCount(0);
  }
}

/** Start and likely end of "Knead: 10:05 tomorrow to about 10:20, …", in minutes of the day. */
export function timesOf(label) {
  const [, start, end] = label.match(/: (\d\d:\d\d)(?: tomorrow| on \w+)? to (?:about )?(\d\d:\d\d)/);
  return { start: minuteOf(start), end: minuteOf(end) };
}

export function minuteOf(time) {
  const [hours, minutes] = time.split(":").map(Number);
  return 60 * hours + minutes;
}

export function timeOf(minute) {
  const two = (number) => String(number).padStart(2, "0");
  return `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}
