// One bake looked back on, and what the baker writes about it.

import { expect } from "@playwright/test";

export class NotePage {
  constructor({ page }) {
    this.ended = page.locator(".page-head .digits");
    this.steps = page.getByRole("region", { name: "How it went" }).getByRole("listitem");
    this.measured = page.getByRole("region", { name: "What was measured" });
    this.yours = page.getByRole("region", { name: "Your note" });
    this.text = page.getByRole("textbox", { name: "How was it?" });
    this.differently = page.getByRole("region", { name: "What I'd do differently" });
  }

  /** Writes how it was, and leaves the field. */
  async write(text) {
    await this.text.fill(text);
    await this.text.blur();
    await expect(this.yours).toContainText("Kept.");
  }

  /** Writes what to do differently at a step. */
  async writeLesson(step, text) {
    await this.differently.getByRole("combobox").selectOption({ label: step });
    const field = this.differently.getByRole("textbox");
    await field.fill(text);
    await field.blur();
    await expect(this.differently).toContainText("Kept.");
  }
}
