// The propped view of a running bake.

import { expect } from "@playwright/test";
import { Stepper } from "./stepper.js";

/** The app takes a second press within 400 ms for the same press. */
const BETWEEN_PRESSES = 500;

export class Bench {
  #app;

  constructor(app) {
    const { page } = app;
    this.#app = app;
    this.main = page.locator("main.bench");
    this.bar = this.main.locator(".bench-bar");
    this.title = this.main.locator(".asked-title");
    this.stood = this.main.locator(".asked > .stood");
    this.instruction = this.main.getByRole("heading", { level: 1 });
    this.mainAction = this.main.locator(".act > .act-main");
    this.answer = this.main.locator(".asked .answer").first();
    this.moved = this.main.locator(".asked .plan-moved");
    this.lesson = this.main.locator(".card", { hasText: "Your notes from earlier bakes" });
    this.running = this.main.getByRole("region", { name: "Going on meanwhile" });
    this.whose = this.main.getByRole("navigation", { name: "Bakes" });
    this.honestLine = this.main.locator(".honest");
    this.kitchenButton = this.bar.getByRole("button", { name: /^Kitchen/ });
    this.sheet = page.locator("dialog.sheet[open]").last();
  }

  /** What is asked now, as one reading of the screen. */
  ask() {
    return this.main.evaluate((main) => {
      const text = (selector) => main.querySelector(selector)?.textContent.trim() ?? "";
      return {
        title: text(".asked-title"),
        instruction: text(".asked-instruction"),
        action: text(".act > .act-main"),
      };
    });
  }

  /** Waits until something else is asked than before. */
  async asksOtherThan(before) {
    await expect.poll(() => this.ask(), `after "${before.action}"`).not.toEqual(before);
  }

  /** Presses the main action and waits until the Bench asks for something else. */
  async press() {
    await this.#breathe();
    await this.#enterWhatIsExpected();
    const before = await this.ask();
    await this.mainAction.click();
    await this.asksOtherThan(before);
    return before;
  }

  /** Presses the main action where it ends the bake and leads to its note. */
  async finish() {
    await this.#breathe();
    await expect(this.mainAction).toHaveText("Finish");
    await this.mainAction.click();
    await expect(this.main).toHaveCount(0);
  }

  /** Presses one of the buttons beside the main action. */
  async pressBeside(name) {
    await this.#breathe();
    await this.main.locator(".act-side").getByRole("button", { name }).click();
  }

  /** Leaves out the fold that is asked for. */
  async leaveFoldOut() {
    await this.#breathe();
    await this.main.getByRole("button", { name: "Leave it out" }).click();
  }

  /** One of the things that go on meanwhile; its name tells it all to who can't see it. */
  card(name) {
    return this.running.getByRole("button", { name });
  }

  /** Says something of one of them in its sheet. */
  async sayAtCard(card, name) {
    await this.#breathe();
    await this.card(card).click();
    await this.sheet.getByRole("button", { name }).click();
    await expect(this.sheet).toHaveCount(0);
  }

  /** Says in its sheet that something was earlier: by one of the choices, or by so many minutes that are typed. */
  async tellEarlier(card, what, choice, minutes) {
    await this.#breathe();
    await this.card(card).click();
    const drawer = this.sheet.locator("details", { hasText: what });
    await drawer.locator("summary").click();
    if (minutes !== undefined) await new Stepper(drawer, "Minutes before that").type(minutes);
    await drawer.getByRole("button", { name: choice }).last().click();
    await expect(this.sheet).toHaveCount(0);
  }

  /** The clock of one of them, as it is drawn. */
  clockOf(name) {
    return this.card(name).locator(".runs-clock");
  }

  /** When one of them is likely ready, in minutes since midnight: "… 14:05 to 14:40, likely 14:20". */
  async likelyEnd(name) {
    const label = await this.card(name).getAttribute("aria-label");
    const [, hours, minutes] = label.match(/likely (\d\d):(\d\d)$/);
    return 60 * Number(hours) + Number(minutes);
  }

  /** All their clocks and windows, to compare before and after. */
  cards() {
    return this.running.getByRole("button").evaluateAll((cards) =>
      cards.map((card) => ({
        name: card.querySelector(".runs-name").textContent.trim(),
        clock: card.querySelector(".runs-clock").textContent.trim(),
        window: card.querySelector(".runs-when").textContent.trim(),
      })),
    );
  }

  /** That what is asked for now is asked for by whoever loads the page again, so it was stored. */
  async asksTheSameAgain() {
    const asked = await this.ask();
    await this.#app.reload();
    expect(await this.ask()).toEqual(asked);
  }

  /** A mark of a checklist, by all of its words. */
  mark(name) {
    return this.main.getByRole("button", { name, exact: true });
  }

  /** How many marks are set, and how many there are. */
  async marks() {
    const marks = this.main.getByRole("list", { name: "Checklist" }).locator("[aria-pressed]");
    const pressed = await marks.evaluateAll((all) =>
      all.map((mark) => mark.getAttribute("aria-pressed") === "true"),
    );
    return { set: pressed.filter(Boolean).length, all: pressed.length };
  }

  /** Takes the temperature that the step asks for. */
  get doughTemperature() {
    return new Stepper(this.main, "Dough temperature");
  }

  /** Takes the temperature in the middle, out of its drawer. */
  async measureCore(degrees) {
    const drawer = this.main.locator("details", { hasText: "Temperature in the middle" });
    if ((await drawer.getAttribute("open")) === null) await drawer.locator("summary").click();
    await new Stepper(drawer, "Temperature in the middle").type(degrees);
    await drawer.getByRole("button", { name: /^It is/ }).click();
    await expect(this.answer).toContainText("in the middle");
  }

  /** Takes the temperature of a dough that rises, out of its drawer. */
  async measureDough(degrees) {
    const drawer = this.main.locator("details", { hasText: "Dough temperature" });
    if ((await drawer.getAttribute("open")) === null) await drawer.locator("summary").click();
    await this.#breathe();
    await new Stepper(drawer, "Dough temperature").type(degrees);
    await drawer.getByRole("button", { name: /^It is/ }).click();
  }

  /** The field for what a piece weighs. */
  massOf(piece) {
    return this.main.getByRole("textbox", { name: `${piece}, Mass in g` });
  }

  /** Enters what a piece weighs. */
  async weigh(piece, grams) {
    const field = this.massOf(piece);
    await field.fill(String(grams));
    await field.blur();
  }

  /** Opens the kitchen's sheet and enters a temperature, without setting it. */
  async enterKitchen(degrees) {
    await this.kitchenButton.click();
    await new Stepper(this.sheet, "Kitchen temperature").type(degrees);
    return this.sheet.locator(".answer");
  }

  /** Sets what was entered in the kitchen's sheet. */
  async setEnteredKitchen() {
    await this.sheet.getByRole("button", { name: /^Kitchen is/ }).click();
    await expect(this.sheet).toHaveCount(0);
  }

  /** Sets a timer by hand. */
  async setTimer(name, minutes) {
    // Nothing else can have happened in the same millisecond, so its moment is exactly so long away.
    await this.#breathe();
    await this.bar.getByRole("button", { name: "Timer" }).click();
    await this.sheet.getByRole("textbox", { name: "Timer for" }).fill(name);
    await new Stepper(this.sheet, "Minutes").type(minutes);
    await this.sheet.getByRole("button", { name: "Set the timer" }).click();
    await expect(this.sheet).toHaveCount(0);
    await expect(this.card(new RegExp(`^${name}`))).toBeVisible();
  }

  /** Opens the sheet with everything else. */
  async openMore() {
    await this.bar.getByRole("button", { name: "More" }).click();
    await expect(this.sheet).toBeVisible();
    return this.sheet;
  }

  /** Gives the bake up, through the question. */
  async giveUp() {
    await this.#endBy("Give up this bake");
    await expect(this.#app.note.ended).toContainText("Given up at");
  }

  /** Finishes the bake before all of its steps have ended, through the question. */
  async finishEarly() {
    await this.#endBy("Finish and write a note");
    await expect(this.#app.note.ended).toContainText("On the table at");
  }

  async #endBy(name) {
    const sheet = await this.openMore();
    await sheet.getByRole("button", { name }).click();
    await this.sheet.getByRole("button", { name }).click();
  }

  /** Goes back to a step that has ended. */
  async goBackTo(title) {
    const sheet = await this.openMore();
    const drawer = sheet.locator("details", { hasText: "Go back to" });
    await drawer.locator("summary").click();
    await drawer.getByRole("button", { name: title, exact: true }).click();
    await expect(this.sheet).toHaveCount(0);
  }

  /** A temperature that is asked for has to be entered first: whoever has none to tell takes the expected one. */
  async #enterWhatIsExpected() {
    if ((await this.mainAction.getAttribute("aria-disabled")) !== "true") return;
    await this.doughTemperature.more.click();
    await expect(this.mainAction).toHaveText(/^It is /);
  }

  async #breathe() {
    await this.#app.clock.pass(BETWEEN_PRESSES);
  }
}
