// A dough that is put somewhere else, looked at, or left in the fridge for the night.

import { FORMULAS } from "../pages/formula.js";
import { MINUTE, SECOND } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

const drawer = (bench, text) => bench.sheet.locator("details", { hasText: text });

/** Opens what can be said of a step that goes on, and a drawer in it. */
async function open({ bench, clock }, card, summary) {
  await clock.pass(SECOND);
  await bench.card(card).click();
  const opened = drawer(bench, summary);
  await opened.locator("summary").click();
  return opened;
}

test("a dough put where it is warm is ready sooner, and it can be taken back", async ({ app }) => {
  const { bench, clock } = app;
  await takeUp(app, "Toast almonds");
  const before = await bench.card(/^First rise/).getAttribute("aria-label");
  const stands = await open(app, /^First rise/, "It stands in the kitchen");

  await test.step("without a temperature nothing is warm", async () => {
    const warm = stands.getByRole("button", { name: "In warm air" });
    await expect(warm).toHaveAttribute("aria-disabled", "true");
    // As a finger would, which doesn't know that it is.
    await warm.click({ force: true });
    await expect(warm).toBeVisible();
  });

  await test.step("with one the forecast moves, and says why", async () => {
    const there = stands.getByRole("textbox", { name: "Temperature there" });
    await there.fill("30");
    await there.press("Enter");
    await clock.pass(SECOND);
    await stands.getByRole("button", { name: /^In air at 30\s°C$/ }).click();
    await expect(bench.sheet).toHaveCount(0);
    await expect(bench.answer).toHaveText(
      /^Now in air at 30\s°C\. First rise: .*min earlier, about \d\d:\d\d, because the dough, now about .* warms towards 30\s°C/,
    );
    await expect(bench.card(/^First rise/)).not.toHaveAttribute("aria-label", before);
  });

  await test.step("it is still there after the phone has died", async () => {
    await app.reload();
    await open(app, /^First rise/, /It stands in air at 30\s°C/);
    await bench.sheet.getByRole("button", { name: "Close" }).click();
  });

  await bench.pressBeside("Undo");
  await expect(bench.answer).toHaveText("Taken back: the move of First rise.");
  await open(app, /^First rise/, "It stands in the kitchen");
});

test("a look at the dough moves its forecast", async ({ app }) => {
  const { bench, clock } = app;
  await takeUp(app, "Toast almonds");
  await clock.sleep(25 * MINUTE);
  const looked = await open(app, /^First rise/, "How far it has risen");
  await looked.getByRole("button", { name: "More: How long ago" }).click();
  await expect(looked.getByRole("textbox")).toHaveValue(/^5\smin$/);
  await clock.pass(SECOND);
  await looked.getByRole("button", { name: "Three quarters" }).click();
  await expect(bench.answer).toHaveText(
    /^You saw three quarters; \d\d\s% was expected by then\. First rise: ready \d\d:\d\d to \d\d:\d\d, likely \d\d:\d\d\.$/,
  );
  await clock.pass(SECOND);
  await expect(bench.answer).toBeInViewport({ ratio: 1 });
  await bench.pressBeside("Undo");
  await expect(bench.answer).toHaveText("Taken back: the look at First rise.");
});

test("a cream leaves its ice water for the fridge", async ({ app }) => {
  const { bench } = app;
  await takeUp(app, "Mix the dough");
  const stands = await open(app, /^Cream cools/, "It stands in ice water");
  await stands.getByRole("button", { name: "In the fridge" }).click();
  await expect(bench.answer).toHaveText(/^Now in the fridge\. Cream cools: .* later/);
});

test("a dough in the fridge says what it does there", async ({ app }) => {
  const { bench, clock } = app;
  await takeUp(app, "Night in fridge", { asks: "wait", formula: FORMULAS.loaf });
  await clock.sleep(60 * MINUTE);
  await bench.card(/^Night in fridge/).click();
  await expect(bench.sheet).toContainText(
    /The dough is about .*°C\. In the fridge it has risen as much as in .*min at 24\s°C\. It goes on rising until about \d\d:\d\d, when it is cold through\./,
  );
});

test("a poolish stands in a jar, and it can be taken back", async ({ app }) => {
  const { bench } = app;
  await takeUp(app, "Poolish ripens", { asks: "wait", formula: FORMULAS.loaf });
  const stands = await open(app, /^Poolish ripens/, "It stands in the kitchen");
  await stands.getByRole("button", { name: "In a jar" }).click();
  await expect(bench.answer).toHaveText(
    /^Now in a jar\. Poolish ripens: \d\d:\d\d to \d\d:\d\d, likely \d\d:\d\d\.$/,
  );
  await app.reload();
  await open(app, /^Poolish ripens/, "It stands in the kitchen, in a jar");
  await bench.sheet.getByRole("button", { name: "Close" }).click();
  await bench.pressBeside("Undo");
  await expect(bench.answer).toHaveText("Taken back: what Poolish ripens is in.");
});

test("a dough put into the fridge says when to take it out", async ({ app }) => {
  const { alarm, bench, clock } = app;
  await takeUp(app, "Poolish ripens", { asks: "wait", formula: FORMULAS.loaf });
  const stands = await open(app, /^Poolish ripens/, "It stands in the kitchen");
  await stands.getByRole("button", { name: "In the fridge" }).click();
  const told =
    /nce it is cold it hardly rises\. Take it out about .*min before you want it ready, by \d\d:\d\d on .* at the latest\. Left until then it is ready about \d\d:\d\d on .*\./;
  await expect(bench.answer).toHaveText(told);
  await clock.pass(SECOND);
  await bench.card(/^Poolish ripens/).click();
  await expect(bench.sheet).toContainText(told);
  await bench.sheet.getByRole("button", { name: "Close" }).click();

  await expect(bench.instruction).toHaveText("Leave the dough in the fridge until you need it.");
  await expect(bench.mainAction).toHaveText("It's out of the fridge");

  await test.step("a day later it is called for", async () => {
    await clock.sleep(24 * 60 * MINUTE + MINUTE);
    await expect(alarm.title).toHaveText("Poolish ripens: out of the fridge");
    await alarm.stopButton.click();
    await expect(bench.instruction).toHaveText("Take the dough out of the fridge.");
    await expect(bench.mainAction).toHaveText("It's out of the fridge");
    await bench.press();
    await expect(bench.answer).toHaveText(/^Now in the kitchen\. Poolish ripens/);
    await expect(bench.instruction).toHaveText("Leave the covered poolish to ripen.");
  });
});

test("a cream is laid flat in a bag", async ({ app }) => {
  const { bench } = app;
  await takeUp(app, "Mix the dough");
  const stands = await open(app, /^Cream cools/, "It stands in ice water");
  await stands.getByRole("button", { name: /^In a bag, laid flat 20\smm thick$/ }).click();
  await expect(bench.answer).toHaveText(/^Now in a bag, laid flat 20\smm thick\. Cream cools: /);
});
