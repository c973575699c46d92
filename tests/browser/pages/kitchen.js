// The baker's temperatures, equipment, units, sounds, and data.

import { readFile } from "node:fs/promises";
import { expect } from "@playwright/test";
import { Stepper } from "./stepper.js";

export class Kitchen {
  #app;

  constructor(app) {
    const main = app.page.getByRole("main");
    this.#app = app;
    this.main = main;
    this.air = new Stepper(main, "Kitchen temperature now");
    this.fridge = new Stepper(main, "Fridge temperature");
    this.setAside = main.getByRole("listitem").filter({ hasText: "Its text" });
    this.ovenHeats = new Stepper(main, "Time to heat up");
    this.ovenOff = new Stepper(main, "Oven hotter than its dial by");
    this.altitude = new Stepper(main, "Height above the sea");
    this.told = main.getByRole("region", { name: "Temperatures" }).locator(".answer");
    this.toldOfEquipment = main.getByRole("region", { name: "Equipment" }).locator(".answer");
    this.outcome = main.getByRole("region", { name: "Your data" }).locator(".answer");
    this.sheet = app.page.locator("dialog.sheet[open]").last();
  }

  /** Chooses one of a few things, by the words of both. */
  async choose(legend, option) {
    // The button itself is hidden behind its label, which is what a finger meets.
    await this.#choices(legend).locator("label", { hasText: option }).click();
    await expect(this.choice(legend, option)).toBeChecked();
  }

  /** One of a few things. */
  choice(legend, option) {
    return this.#choices(legend).getByRole("radio", { name: option, exact: true });
  }

  /** Writes an archive and gives its text. */
  async writeArchive() {
    const downloading = this.#app.page.waitForEvent("download");
    await this.main.getByRole("button", { name: "Write an archive" }).click();
    const download = await downloading;
    expect(download.suggestedFilename()).toMatch(/^oventide-\d{4}-\d{2}-\d{2}\.json$/);
    return readFile(await download.path(), "utf8");
  }

  /** Gives the app a file to restore. Whether it was taken, the page says. */
  async restore(content, name = "archive.json") {
    await this.main.getByRole("button", { name: "Restore an archive" }).click();
    const choosing = this.#app.page.waitForEvent("filechooser");
    await this.sheet.getByRole("button", { name: "Choose the file" }).click();
    const chooser = await choosing;
    const buffer = Buffer.from(content);
    await chooser.setFiles({ name, mimeType: "application/json", buffer });
  }

  /** Erases everything, through both questions. */
  async eraseEverything() {
    await this.main.getByRole("button", { name: "Erase everything" }).click();
    await this.sheet.getByRole("button", { name: "Go on" }).click();
    await this.sheet.getByRole("button", { name: "Erase it all now" }).click();
    await expect(this.sheet).toHaveCount(0);
  }

  #choices(legend) {
    return this.main.getByRole("group", { name: legend });
  }
}
