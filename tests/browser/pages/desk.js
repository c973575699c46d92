// Where a formula of the baker's own comes in, and the sheet that it is written on.

import { expect } from "@playwright/test";
import { Stepper } from "./stepper.js";

export class Desk {
  #app;

  constructor(app) {
    this.#app = app;
    const { page } = app;
    this.text = page.getByRole("textbox", { name: "The text" });
    this.refusal = page.getByRole("main").getByRole("alert").first();
    this.questions = page.getByRole("region", { name: "Before it can be baked" });
    this.sheet = page.locator("dialog[open]");
    this.name = page.getByRole("textbox", { name: "What it is called" });
    this.parts = page.getByRole("region", { name: "What goes in" });
    this.steps = page.getByRole("region", { name: "How it is made" });
    this.take = page.getByRole("button", { name: "Take it to the oven" });
    this.back = page.getByRole("button", { name: "Back one change" });
  }

  /** Goes to the desk, by way of the formulas' page. */
  async open() {
    await this.#app.go("Formulas");
    await this.#app.page.getByRole("link", { name: "Add a formula of your own" }).click();
    await expect(this.#app.heading).toHaveText("A formula of your own");
  }

  /** Pastes a text and has it read. */
  async paste(text) {
    await this.text.fill(text);
    await this.#app.page.getByRole("button", { name: "Read it" }).click();
  }

  /** Opens a file. */
  async openFile(name, mimeType, buffer) {
    const chooser = this.#app.page.waitForEvent("filechooser");
    await this.#app.page.getByRole("button", { name: "Open a file" }).click();
    await (await chooser).setFiles({ name, mimeType, buffer });
  }

  /** A number of the sheet that is open. */
  field(label) {
    return new Stepper(this.sheet, label);
  }

  /** Opens the sheet of an ingredient, or of a step. */
  async touch(within, line) {
    await within.getByRole("button", { name: line }).click();
    await expect(this.sheet).toBeVisible();
  }

  async close() {
    await this.sheet.getByRole("button", { name: "Close" }).click();
    await expect(this.sheet).toHaveCount(0);
  }
}
