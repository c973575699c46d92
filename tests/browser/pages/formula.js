// One formula: fitted, looked over, and started.

import { expect } from "@playwright/test";

export class FormulaPage {
  #app;

  constructor(app) {
    this.#app = app;
    this.start = app.page.getByRole("button", { name: "Start this bake" });
    this.night = app.page.locator(".night");
    this.lessons = app.page.getByRole("region", { name: "Next time, you wrote" });
  }

  /** Starts a bake of a formula, by way of the formulas' page. */
  async bake(name) {
    await this.#app.go("Formulas");
    await this.#app.page.getByRole("main").getByRole("link", { name }).click();
    await expect(this.#app.heading).toHaveText(name);
    await this.start.click();
    await expect(this.#app.bench.mainAction).toBeVisible();
  }
}

/** The names of the formulas that come with the app. */
export const FORMULAS = {
  buns: "Plum and almond cream buns",
  braid: "Orange braid",
  loaf: "Overnight tin loaf",
};
