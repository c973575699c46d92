// Promise: the plan and the gathering list come out of a printer as clean pages, black on white.

import { FORMULAS } from "../../pages/formula.js";
import { minuteOf } from "../../pages/plan.js";
import { SECOND } from "../../support/clock.js";
import { sheets, toPaper, wrongOnPaper } from "../../support/paper.js";
import { expect, test } from "../../support/test.js";

const printedFrom = (page) => page.getByText(/^Printed from Oventide at 09:\d\d on Saturday 28 November\./);

async function twoBakes(app) {
  await app.startBake(FORMULAS.buns);
  await app.clock.pass(SECOND);
  await app.turnTo("#/");
  await app.formula.bake(FORMULAS.braid);
  await app.clock.pass(SECOND);
}

/** Presses Print, and gives how often the browser was asked to. */
async function print(page) {
  await page.evaluate(() => {
    window.printed = 0;
    window.print = () => (window.printed += 1);
  });
  await page.getByRole("button", { name: "Print" }).click();
  return page.evaluate(() => window.printed);
}

for (const colorScheme of ["light", "dark"]) {
  test.describe(`by a phone in ${colorScheme}`, () => {
    test.use({ colorScheme });

    test("the gathering list", async ({ app, page }) => {
      await twoBakes(app);
      await app.turnTo("#/gather");
      const milk = page.getByRole("button", { name: /^whole milk/ });
      await milk.click();
      await expect(milk).toHaveAttribute("aria-pressed", "true");
      expect(await print(page)).toBe(1);
      await expect(printedFrom(page)).toBeHidden();
      expect(await wrongOnPaper(page), "the screen's own page").not.toEqual([]);

      await toPaper(page);
      await expect(printedFrom(page)).toBeVisible();
      await expect(milk).toBeVisible();
      await expect(page.getByRole("navigation", { name: "Pages" })).toBeHidden();
      expect(await wrongOnPaper(page)).toEqual([]);
      for (const format of ["A4", "Letter"]) expect(await sheets(page, format)).toBeLessThanOrEqual(2);
    });

    test("the plan, as a list with whose each step is", async ({ app, page }) => {
      await twoBakes(app);
      await app.turnTo("#/plan");
      expect(await print(page)).toBe(1);
      const { list } = app.plan;

      await toPaper(page);
      await expect(printedFrom(page)).toBeVisible();
      await expect(list).toBeVisible();
      const steps = await list.getByRole("listitem").allTextContents();
      // Twenty-seven steps of the buns and twenty-two of the braid, each with a fold, and a filling in the fridge.
      expect(steps.length).toBe(52);
      for (const step of steps) expect(step).toMatch(/\d\d:\d\d/);
      expect(await wrongOnPaper(page)).toEqual([]);
      for (const format of ["A4", "Letter"]) expect(await sheets(page, format)).toBeLessThanOrEqual(3);
    });

    test("the plan, without what could be pressed to mend it", async ({ app, page }) => {
      await app.open();
      await app.formula.look(FORMULAS.buns);
      await app.plan.startFor("19:00");
      await app.clock.pass(SECOND);
      await app.plan.awayToday(minuteOf("12:00"), minuteOf("18:00"));
      const ways = await app.plan.reckoned();
      await expect(ways.getByRole("heading", { name: "It works with" })).toBeVisible();

      await toPaper(page);
      await expect(app.plan.list).toBeVisible();
      await expect(app.plan.head).toContainText("later than your table at 19:00.");
      // A heading with nothing but buttons below it would stand over nothing.
      await expect(page.getByText("It works with")).toBeHidden();
      expect(await wrongOnPaper(page)).toEqual([]);
    });
  });
}

test("a browser that can't print says so", async ({ app, page }) => {
  await app.startBake(FORMULAS.braid);
  await app.turnTo("#/gather");
  await page.evaluate(() => (window.print = undefined));
  await page.getByRole("button", { name: "Print" }).click();
  await expect(page.getByText(/^This browser can't print\./)).toBeVisible();
});
