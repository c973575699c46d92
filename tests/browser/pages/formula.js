// One formula: fitted, looked over, and started.

import { expect } from "@playwright/test";

export class FormulaPage {
  #app;

  constructor(app) {
    this.#app = app;
    this.start = app.page.getByRole("button", { name: "Start this bake" });
    this.holds = app.page.getByRole("region", { name: "How much" }).locator("details");
    this.fit = app.page.getByRole("region", { name: "How much" });
    this.table = app.page.getByRole("region", { name: "If you start now" }).getByText(/^On the table/);
    this.night = app.page.locator(".night");
    const ready = app.page.getByRole("region", { name: "Ready when it suits you" });
    this.ready = ready;
    this.wanted = ready.getByLabel("Ready at", { exact: true });
    this.ways = ready.getByRole("status").locator("p");
    this.changeYeast = ready.getByRole("button", { name: /yeast$/ });
    this.lessons = app.page.getByRole("region", { name: "Next time, you wrote" });
  }

  /** Opens a formula, by way of the formulas' page. */
  async look(name) {
    await this.#app.go("Formulas");
    await this.#app.page.getByRole("main").getByRole("link", { name }).click();
    await expect(this.#app.heading).toHaveText(name);
  }

  /** Says in what form the pieces bake. */
  async bakeAs(form) {
    const forms = this.fit.getByRole("group", { name: "In what form" });
    await forms.locator("label").filter({ hasText: form }).click();
    await expect(forms.getByRole("radio", { name: form, exact: true })).toBeChecked();
  }

  /** Says what kind of yeast there is. */
  async yeastIs(kind) {
    const kinds = this.fit.getByRole("group", { name: "Yeast" });
    await kinds.locator("label").filter({ hasText: kind }).click();
    await expect(kinds.getByRole("radio", { name: kind, exact: true })).toBeChecked();
  }

  /** When the bread is likely on the table, in minutes of the day. */
  async tableAt() {
    const said = await this.table.innerText();
    const [, hours, minutes] = said.match(/likely (\d\d):(\d\d)/).map(Number);
    return 60 * hours + minutes;
  }

  /** When a rise is likely ready as things are, in minutes of the day. */
  async readyAt(rise) {
    const said = this.ready.getByText(new RegExp(`^${rise}: ready at about`));
    const [, hours, minutes] = (await said.innerText()).match(/about (\d\d):(\d\d)/).map(Number);
    return 60 * hours + minutes;
  }

  /** Wants the rise that is chosen ready at a minute of the day. */
  async want(minute) {
    const two = (number) => String(number).padStart(2, "0");
    const time = `${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
    await this.wanted.fill(time);
    await this.wanted.blur();
    await expect(this.ways.first()).toContainText(time);
  }

  /** What the list of amounts has of something. */
  amount(name) {
    return this.#app.page.getByRole("region", { name: "Amounts" }).locator("li", { hasText: name });
  }

  /** Starts a bake of a formula, by way of the formulas' page. */
  async bake(name) {
    await this.look(name);
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
