// Marks, piece by piece.

import { SECOND } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { START } from "../support/phone.js";
import { expect, test } from "../support/test.js";

/** Phones, upright and on their side. */
const SCREENS = [
  [390, 844],
  [844, 390],
  [320, 640],
];

test("eight buns are eight rows of marks, and the main action goes along them", async ({ app }) => {
  await takeUp(app, "Fill");
  await expect(app.bench.main.locator(".piece-row")).toHaveCount(8);
  expect(await app.bench.marks()).toEqual({ set: 0, all: 16 });
  await expect(app.bench.mainAction).toHaveText("Bun 1: cream in");
  await app.bench.press();
  await expect(app.bench.mark("Bun 1: Cream in")).toHaveAttribute("aria-pressed", "true");
  await expect(app.bench.mainAction).toHaveText("Bun 1: sealed, seam down");
});

for (const [width, height] of SCREENS) {
  test(`the piece that is asked for is in sight on ${width} × ${height}`, async ({ app, page }) => {
    await page.setViewportSize({ width, height });
    await takeUp(app, "Fill");
    const { bench, clock } = app;
    const asked = bench.main.locator(".piece-row[aria-current]");
    // At its first piece a step shows what to do.
    await clock.pass(SECOND);
    await expect(asked).toContainText("Bun 1");
    await expect(bench.instruction).toBeInViewport();
    for (const bun of [1, 2, 3, 4, 5, 6, 7]) {
      await bench.press();
      await bench.press();
      await clock.pass(SECOND);
      await expect(bench.mainAction).toHaveText(`Bun ${bun + 1}: cream in`);
      await expect(asked).toContainText(`Bun ${bun + 1}`);
      await expect(asked).toBeInViewport({ ratio: 1 });
    }

    await test.step("what was taken back is told in sight, and its piece comes back with the next press", async () => {
      await bench.pressBeside("Undo");
      await expect(bench.answer).toContainText("Taken back");
      await clock.pass(SECOND);
      await expect(bench.answer).toBeInViewport({ ratio: 1 });
      await bench.press();
      await clock.pass(SECOND);
      await expect(asked).toContainText("Bun 8");
      await expect(asked).toBeInViewport({ ratio: 1 });
    });

    await test.step("whoever comes back in the middle is shown where", async () => {
      await app.reload();
      await clock.pass(SECOND);
      await expect(asked).toContainText("Bun 8");
      await expect(asked).toBeInViewport({ ratio: 1 });
    });
  });
}

test("marks survive a reload", async ({ app }) => {
  await takeUp(app, "Fill");
  for (const mark of ["Bun 1: Cream in", "Bun 5: Cream in", "Bun 8: Sealed, seam down"]) {
    await app.bench.mark(mark).click();
    await expect(app.bench.mark(mark)).toHaveAttribute("aria-pressed", "true");
  }
  await app.reload();
  expect(await app.bench.marks()).toEqual({ set: 3, all: 16 });
  await expect(app.bench.mark("Bun 5: Cream in")).toHaveAttribute("aria-pressed", "true");
  await expect(app.bench.mark("Bun 8: Sealed, seam down")).toHaveAttribute("aria-pressed", "true");
});

test("marks survive a killed browser", async ({ mortal }) => {
  let app = await mortal.start(START);
  await takeUp(app, "Fill");
  await app.bench.mark("Bun 3: Cream in").click();
  await expect(app.bench.mark("Bun 3: Cream in")).toHaveAttribute("aria-pressed", "true");
  app = await mortal.dieAndReturn(app);
  await expect(app.bench.mark("Bun 3: Cream in")).toHaveAttribute("aria-pressed", "true");
  expect(await app.bench.marks()).toEqual({ set: 1, all: 16 });
});

test("undo takes back exactly one mark, and then the one before", async ({ app }) => {
  await takeUp(app, "Fill");
  for (let press = 0; press < 3; press += 1) await app.bench.press();
  expect(await app.bench.marks()).toEqual({ set: 3, all: 16 });
  await app.bench.pressBeside("Undo");
  await expect(app.bench.mark("Bun 2: Cream in")).toHaveAttribute("aria-pressed", "false");
  expect(await app.bench.marks()).toEqual({ set: 2, all: 16 });
  await app.bench.pressBeside("Undo");
  await expect(app.bench.mark("Bun 1: Sealed, seam down")).toHaveAttribute("aria-pressed", "false");
  expect(await app.bench.marks()).toEqual({ set: 1, all: 16 });
});

test("undo opens a step again that was just called done", async ({ app }) => {
  await app.startBake();
  const before = await app.bench.ask();
  await app.bench.press();
  await app.bench.pressBeside("Undo");
  await expect(app.bench.title).toHaveText(before.title);
  await expect(app.bench.answer).toHaveText(`Taken back: ${before.title} done.`);
});
