// Promise: when the app breaks, the baker is told so, and loses nothing.
//
// What counts as broken is WebAssembly's own word for it: a trap is thrown as a
// `WebAssembly.RuntimeError` (WebAssembly JavaScript Interface, W3C, "Error Condition Mappings").

import { expect, test } from "../support/test.js";
import { shutStorage } from "../support/trouble.js";

/** A module whose one function `f` is the instruction `unreachable`, and nothing else. */
const TRAP = [
  ...[0x00, 0x61, 0x73, 0x6d, 0x01, 0x00, 0x00, 0x00],
  ...[0x01, 0x04, 0x01, 0x60, 0x00, 0x00],
  ...[0x03, 0x02, 0x01, 0x00],
  ...[0x07, 0x05, 0x01, 0x01, 0x66, 0x00, 0x00],
  ...[0x0a, 0x05, 0x01, 0x03, 0x00, 0x00, 0x0b],
];

const notice = (page) => page.getByRole("alertdialog", { name: "Something went wrong" });

/** Runs into a trap where nobody catches it: in a callback, or in a promise as the app's tasks are. */
async function trap(page, where) {
  await page.evaluate(
    ([bytes, where]) => {
      const module = new WebAssembly.Module(new Uint8Array(bytes));
      const { f } = new WebAssembly.Instance(module).exports;
      if (where === "promise") void Promise.resolve().then(f);
      else queueMicrotask(f);
    },
    [TRAP, where],
  );
}

for (const where of ["callback", "promise"]) {
  test(`a trap in a ${where}: it is said, and loading again goes on where the bake was`, async ({
    app,
    page,
    watch,
  }) => {
    watch.allow(/unreachable/);
    await app.startBake();
    await app.bench.press();
    const asked = await app.bench.ask();
    await trap(page, where);
    await expect(notice(page)).toContainText("Everything you have done so far is stored.");
    await expect(notice(page)).toContainText("no alarm will ring");
    await expect(notice(page).getByRole("heading")).toBeFocused();

    await test.step("it can't be put aside, and comes only once", async () => {
      await page.keyboard.press("Escape");
      await page.keyboard.press("Escape");
      await trap(page, where);
      await expect(notice(page)).toHaveCount(1);
      await expect(notice(page)).toBeVisible();
    });

    const loaded = page.waitForEvent("load");
    await notice(page).getByRole("button", { name: "Load again" }).click();
    await loaded;
    await expect(notice(page)).toHaveCount(0);
    await expect(app.bench.title).toHaveText(asked.title);
    expect(await app.bench.ask()).toEqual(asked);
  });
}

test("without storage the notice does not claim that everything is stored", async ({
  app,
  page,
  watch,
}) => {
  watch.allow(/unreachable/);
  await page.addInitScript(shutStorage);
  await app.open();
  await expect(app.standingWarning).toBeVisible();
  await trap(page, "callback");
  await expect(notice(page)).toContainText("will be lost");
  await expect(notice(page)).not.toContainText("Everything you have done");
});

test("an error that is no trap brings no notice", async ({ app, page, watch }) => {
  watch.allow(/harmless/);
  await app.open();
  await page.evaluate(() => {
    queueMicrotask(() => {
      throw new TypeError("harmless");
    });
    void Promise.reject(new TypeError("harmless"));
  });
  // A trap afterwards shows that the page did listen all the while.
  await expect(notice(page)).toHaveCount(0);
  watch.allow(/unreachable/);
  await trap(page, "promise");
  await expect(notice(page)).toBeVisible();
});
