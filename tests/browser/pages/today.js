// Where the baker is today.

export class Today {
  constructor({ page }) {
    this.page = page;
    this.update = page.getByRole("button", { name: "Update to the new version" });
    this.toBench = page.getByRole("link", { name: /Bench/ });
    this.lessons = page.getByRole("region", { name: "Next time, you wrote" });
  }

  /** The card of a formula, where nothing bakes. */
  formula(name) {
    return this.page.getByRole("main").getByRole("link", { name });
  }
}
