// Promise: the plan works with keys alone, on the smallest screen and on a phone's side, loses nothing
// and doesn't move while its clock goes on.

import { FORMULAS } from "../../pages/formula.js";
import { MINUTE } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";
import { Keys } from "../quality/measure/keys.js";
import { losses } from "../quality/measure/reflow.js";
import { recordShifts, shiftsOf } from "../quality/measure/shifts.js";

async function forSeven(app) {
  await app.open();
  await app.formula.look(FORMULAS.buns);
  await app.plan.startFor("19:00");
}

test("keys alone plan, fix a step, and free it", async ({ app, page }) => {
  const keys = new Keys(app);
  await app.open();
  await app.turnTo("#/formulas/plum-almond-buns");
  await expect(app.heading).toHaveText(FORMULAS.buns);
  await keys.press("On the table at…");
  await keys.press("19:00");
  await expect(app.heading).toHaveText("Plan");
  await keys.press(/^Knead: /);
  await expect(app.plan.sheet).toBeVisible();
  await keys.press("Fix it there");
  await expect(app.plan.bar("Knead")).toHaveAttribute("data-fixed", "true");
  await expect(app.plan.bar("Knead")).toBeFocused();
  await keys.again();
  await keys.press("Whenever it can");
  await expect(app.plan.bar("Knead")).toHaveAttribute("data-fixed", "false");
  await keys.to(/^Undo/, { backwards: true });
  await keys.again();
  await expect(app.plan.bar("Knead")).toHaveAttribute("data-fixed", "true");
  await expect(page.getByRole("button", { name: "Undo" })).toBeFocused();
});

for (const [width, height] of [
  [390, 844],
  [844, 390],
  [320, 640],
]) {
  test(`nothing is lost on ${width} × ${height}`, async ({ app, page }) => {
    await page.setViewportSize({ width, height });
    await forSeven(app);
    expect.soft(await losses(page), "drawn").toEqual([]);
    await app.plan.show("As a list");
    expect.soft(await losses(page), "as a list").toEqual([]);
  });
}

test("the names of most bars can be read on the smallest screen", async ({ app, page }) => {
  await page.setViewportSize({ width: 320, height: 640 });
  await forSeven(app);
  const all = await app.plan.bars.count();
  const named = await page.locator(".bar > span:visible").count();
  // All but one of 29 have room. What has no name has its number in the list.
  expect(all).toBe(29);
  expect(named).toBeGreaterThanOrEqual(all - 1);
});

test("a name that has no room is written as its number, which the list has", async ({ app, page }) => {
  await page.setViewportSize({ width: 320, height: 640 });
  await forSeven(app);
  await app.turnTo("#/");
  await app.formula.look(FORMULAS.braid);
  await app.plan.startFor("12:30 tomorrow");
  const bars = await app.plan.bars.evaluateAll((bars) =>
    bars.map((bar, nth) => ({
      nth,
      label: bar.getAttribute("aria-label"),
      isNamed: bar.querySelector("span").checkVisibility(),
    })),
  );
  const unnamed = bars.filter(({ isNamed }) => !isNamed);
  expect(unnamed.length).toBeGreaterThan(0);
  await app.plan.show("As a list");
  const rows = await app.plan.rows.and(page.getByRole("button")).allInnerTexts();
  // A counter of the style is no text, so the place among its fellows stands for it.
  for (const { nth, label } of bars) expect.soft(rows[nth], label).toContain(label.match(/^(.*?)(?: \(|: \d)/)[1]);
  // The number stands before the name, and one of two digits takes more room than one of one.
  const room = await app.plan.rows.and(page.getByRole("button")).locator(".row-title").evaluateAll((titles) =>
    titles.map((title) => {
      const name = document.createRange();
      name.selectNodeContents(title);
      return name.getBoundingClientRect().left - title.getBoundingClientRect().left;
    }),
  );
  expect(room[9]).toBeGreaterThan(room[8]);
  expect(room[8]).toBeGreaterThan(0);
});

test("nothing moves as the page opens and while its clock goes on", async ({ app, context, page }) => {
  await recordShifts(context);
  await forSeven(app);
  await app.reload();
  await expect(app.plan.bars.first()).toBeVisible();
  expect(await shiftsOf(page)).toEqual([]);
  for (let minute = 1; minute <= 10; minute += 1) {
    await app.clock.pass(MINUTE);
    expect.soft(await shiftsOf(page), `minute ${minute}`).toEqual([]);
  }
});
