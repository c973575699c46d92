// Leads through every page and every state that a baker can see, and stops at each.

import { expect } from "@playwright/test";
import { FORMULAS } from "../../../pages/formula.js";
import { MINUTE, SECOND } from "../../../support/clock.js";
import { putInto } from "../../../support/database.js";
import { takeUp } from "../../../support/mid-bake.js";
import { askNow, asksOf } from "./walk.js";

/** Where a bake of buns first asks for each kind of thing. The last is where it can be finished. */
const KINDS = [
  { kind: "ingredients", title: "Gather" },
  { kind: "work", title: "Spread the cream" },
  { kind: "mix", title: "Mix the dough" },
  { kind: "dough temperature", title: "Dough temperature" },
  { kind: "wait", title: "Cream cools", asks: "wait" },
  { kind: "alarm", title: "First rise", asks: "wait" },
  { kind: "fold", title: "First rise", asks: "fold" },
  { kind: "look", title: "First rise", asks: "look" },
  { kind: "divide", title: "Divide" },
  { kind: "pieces", title: "Round the pieces" },
  { kind: "done", title: "", asks: "all done" },
];

/** Every place of a first bake. Gives each one's name. */
export async function* everyPlace(app) {
  yield* beforeAnyBake(app);
  yield* duringABake(app);
  yield* afterABake(app);
}

/** The same, on the way that a baker has to go. */
export async function* everyPlaceOnTheWay(app) {
  yield* beforeAnyBake(app);
  yield* walkingThroughABake(app);
  yield* afterABake(app);
}

/** The pages of a phone that has never baked. */
async function* beforeAnyBake(app) {
  await app.open();
  yield "Today, empty";
  await app.go("Formulas");
  yield "Formulas";
  for (const name of Object.values(FORMULAS)) {
    await app.turnTo("#/formulas");
    await expect(app.heading).toHaveText("Formulas");
    await app.page.getByRole("main").getByRole("link", { name }).click();
    await expect(app.heading).toHaveText(name);
    yield `Formula: ${name}`;
  }
  // The buns' filling may not stand out any longer than their own rise takes.
  await app.turnTo("#/formulas/orange-braid");
  await expect(app.heading).toHaveText(FORMULAS.braid);
  await app.formula.want((await app.formula.readyAt("First rise")) + 25);
  await expect(app.formula.changeYeast).toBeVisible();
  yield "Formula, wanted ready later";
  await app.plan.openTables();
  yield "Formula, for a table";
  await close(app.plan.sheet);
  await app.turnTo("#/formulas/none");
  await expect(app.heading).toBeVisible();
  yield "Formula that isn't there";
  await app.turnTo("#/bench");
  await expect(app.heading).toHaveText("Nothing is baking.");
  yield "Bench, nothing baking";
  await app.turnTo("#/gather");
  await expect(app.heading).toHaveText("Gathering list");
  yield "Gathering list, nothing baking";
  await app.turnTo("#/notebook");
  await expect(app.heading).toHaveText("Notebook");
  yield "Notebook, empty";
  await app.turnTo("#/notebook/none");
  await expect(app.page.getByRole("link", { name: "All bakes" }).or(app.heading).first()).toBeVisible();
  yield "Note that isn't there";
  yield* kitchen(app);
}

async function* kitchen(app) {
  const { page } = app;
  await app.turnTo("#/kitchen");
  await expect(app.heading).toHaveText("Kitchen");
  yield "Kitchen";
  const sheet = page.locator("dialog.sheet[open]");
  await page.getByRole("button", { name: "Restore an archive" }).click();
  await expect(sheet).toBeVisible();
  yield "Kitchen: restore?";
  await close(sheet);
  await page.getByRole("button", { name: "Erase everything" }).click();
  await expect(sheet).toBeVisible();
  yield "Kitchen: erase?";
  await sheet.getByRole("button", { name: "Go on" }).click();
  await expect(sheet.getByRole("button", { name: "Erase it all now" })).toBeVisible();
  yield "Kitchen: really erase?";
  await close(sheet);
}

/** The first of each kind of ask of a whole bake, walked through, and every sheet over the Bench. */
async function* walkingThroughABake(app) {
  await app.startBake();
  const seen = new Set();
  for await (const ask of asksOf(app)) {
    if (!seen.has(ask.kind)) yield `Bench, ${ask.name}`;
    if (!seen.has("wait") && ask.kind === "wait") yield* aroundTheBench(app);
    seen.add(ask.kind);
  }
  expect([...seen].sort()).toEqual(KINDS.map(({ kind }) => kind).sort());
}

/** The same without the way between them. */
async function* duringABake(app) {
  for (const { kind, title, asks } of KINDS) {
    await takeUp(app, title, { asks });
    if (kind === "alarm") {
      while (!(await app.alarm.rings())) await app.clock.pass(MINUTE);
    }
    const ask = await askNow(app.page);
    expect(ask.kind).toBe(kind);
    yield `Bench, ${ask.kind}: ${ask.title}`;
    if (kind === "wait") yield* aroundTheBench(app);
  }
}

async function* aroundTheBench(app) {
  // A page that was loaded again may not sound before it is touched, and says so.
  await app.reload();
  await expect(app.bench.honestLine).toBeVisible();
  yield "Bench, not touched yet";
  yield* sheetsOverTheBench(app);
}

async function* sheetsOverTheBench(app) {
  const { bench, page } = app;
  await page.locator(".asked details").evaluateAll((all) => all.forEach((one) => (one.open = true)));
  yield "Bench, every drawer open";
  await bench.enterKitchen(17);
  await expect(bench.sheet.locator(".answer")).toBeVisible();
  yield "Bench, kitchen's sheet with a changed temperature";
  await bench.setEnteredKitchen();
  yield "Bench, kitchen's answer";
  await bench.card(/^First rise/).click();
  await expect(bench.sheet.locator("figure")).toBeVisible();
  yield "Bench, the sheet of a rise";
  await close(bench.sheet);
  await bench.card(/^Cream cools/).click();
  await expect(bench.sheet.locator("figure")).toBeVisible();
  yield "Bench, the sheet of a cooling";
  await close(bench.sheet);
  await bench.setTimer("Rack", 20);
  await bench.bar.getByRole("button", { name: "Timer" }).click();
  await expect(bench.sheet).toBeVisible();
  yield "Bench, timers' sheet";
  await close(bench.sheet);
  const more = await bench.openMore();
  await more.locator("details").evaluateAll((all) => all.forEach((one) => (one.open = true)));
  yield "Bench, More";
  for (const question of ["Finish and write a note", "Give up this bake"]) {
    await more.getByRole("button", { name: question }).click();
    const sheet = page.locator("dialog.sheet[open]").last();
    await expect(sheet.getByRole("button", { name: "No, go back" })).toBeVisible();
    yield `Bench: ${question}?`;
    await sheet.getByRole("button", { name: "No, go back" }).click();
    await expect(page.locator("dialog.sheet[open]")).toHaveCount(1);
  }
  await close(more);
  await (await bench.openMore()).getByRole("button", { name: "Pause" }).click();
  await expect(page.getByText("Paused.")).toBeVisible();
  yield "Bench, paused";
  await app.clock.pass(MINUTE);
  await bench.mainAction.click();
  await expect(page.getByText("Paused.")).toHaveCount(0);
  await app.turnTo("#/");
  await expect(app.heading).toHaveText("Today");
  yield "Today, baking";
  await app.formula.bake(FORMULAS.loaf);
  await app.turnTo("#/gather");
  await expect(app.heading).toHaveText("Gathering list");
  await page.getByRole("group", { name: "For" }).locator("label").last().click();
  await expect(page.getByRole("button", { name: /^plum jam/ })).toBeVisible();
  yield "Gathering list, two bakes";
  await app.turnTo("#/bench");
  await bench.whose.getByRole("link", { name: FORMULAS.loaf }).click();
  await expect(bench.title).toHaveText("Gather");
  yield "Bench, two bakes";
  yield* plan(app);
  await bench.giveUp();
  await app.turnTo("#/bench");
  await expect(bench.main).toBeVisible();
}

/** The plan of two bakes, of which one hasn't begun. */
async function* plan(app) {
  const { page, plan } = app;
  await app.turnTo("#/plan");
  await expect(plan.bars.first()).toBeVisible();
  await page.locator("main details").evaluateAll((all) => all.forEach((one) => (one.open = true)));
  yield "Plan, drawn";
  await plan.bars.last().click();
  await expect(plan.sheet).toBeVisible();
  yield "Plan, an item's sheet";
  await close(plan.sheet);
  for (const name of ["On the table at…", "Away, asleep"]) {
    await page.getByRole("button", { name }).click();
    await expect(plan.sheet).toBeVisible();
    await plan.sheet.locator("details").evaluateAll((all) => all.forEach((one) => (one.open = true)));
    yield `Plan: ${name}`;
    await close(plan.sheet);
  }
  await plan.show("As a list");
  yield "Plan, as a list";
  await app.clock.pass(SECOND);
  await plan.ways.getByRole("button", { name: "What would help?" }).click();
  await plan.reckoned();
  yield "Plan, what would help";
  await app.turnTo("#/bench");
  await app.bench.whose.getByRole("link", { name: FORMULAS.loaf }).click();
  await expect(app.bench.title).toHaveText("Gather");
}

/** The pages of a phone that has baked. */
async function* afterABake(app) {
  const { bench, page } = app;
  await app.clock.pass(500);
  await bench.mainAction.click();
  await expect(app.heading).toHaveText(FORMULAS.buns);
  yield "Note";
  await app.turnTo("#/notebook");
  await expect(app.heading).toHaveText("Notebook");
  yield "Notebook";
  await putInto(page, "notebook", "odd", "{not a note");
  await app.reload();
  await app.turnTo("#/");
  await expect(page.locator(".caution").first()).toBeVisible();
  yield "Today, with a record set aside";
  await app.turnTo("#/kitchen");
  await expect(page.getByRole("heading", { name: "Set aside" })).toBeVisible();
  yield "Kitchen, with a record set aside";
  await page.addInitScript(() => {
    IDBFactory.prototype.open = () => {
      throw new DOMException("no storage here", "SecurityError");
    };
  });
  await app.reload();
  await expect(app.standingWarning).toBeVisible();
  yield "Kitchen, with the storage's warning";
  await app.formula.bake(FORMULAS.braid);
  yield "Bench, with the storage's warning";
}

async function close(sheet) {
  const { length } = await sheet.page().locator("dialog.sheet[open]").all();
  await sheet.page().keyboard.press("Escape");
  await expect(sheet.page().locator("dialog.sheet[open]")).toHaveCount(length - 1);
}
