// A number between two large buttons.

import { expect } from "@playwright/test";

export class Stepper {
  constructor(within, label) {
    this.value = within.getByRole("textbox", { name: label, exact: true });
    this.less = within.getByRole("button", { name: `Less: ${label}` });
    this.more = within.getByRole("button", { name: `More: ${label}` });
  }

  /** Types a number; the field takes it over when the baker leaves it. */
  async type(number) {
    await this.value.fill(String(number));
    await this.value.blur();
  }

  /** Waits until it shows a number with its unit, which nothing may tear apart. */
  async shows(text) {
    await expect(this.value).toHaveValue(new RegExp(`^${text.replaceAll(" ", "\\s")}$`));
  }
}
