// The kitchen changes in the middle of a proof.

import { MINUTE } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

const RISE = /^First rise/;
/** Windows are shown in whole minutes, and so is what they moved by. */
const ROUNDING = 1;

/** "First rise: 1 h 25 min later, about 14:20, because …": by how many minutes. */
function movedBy(sentence) {
  const [, hours, minutes] = sentence.match(/First rise: (?:(\d+)\sh\s?)?(?:(\d+)\smin\s)?(?:later|earlier)/);
  return 60 * Number(hours ?? 0) + Number(minutes ?? 0);
}

/** A first rise that has gone on for half an hour in a kitchen of 22 °C. */
async function risingFor30Minutes(app) {
  await takeUp(app, "Dough temperature");
  await app.bench.enterKitchen(22);
  await app.bench.setEnteredKitchen();
  await app.bench.doughTemperature.type(25);
  await expect(app.bench.mainAction).toHaveText("It is 25 °C");
  await app.bench.press();
  await expect(app.bench.title).toHaveText("Cover the bowl");
  await app.bench.press();
  await expect(app.bench.card(RISE)).toBeVisible();
  await app.clock.sleep(30 * MINUTE);
  await app.alarm.stopAll();
}

test("from 22 to 17 °C in the middle of a proof its window moves later, and it is said why", async ({
  app,
}) => {
  await risingFor30Minutes(app);
  const before = await app.bench.likelyEnd(RISE);

  const preview = await app.bench.enterKitchen(17);
  await expect(preview).toContainText("later");
  await expect(preview).toContainText("because the dough");
  await expect(preview).toContainText("cools faster and the yeast works slower");
  const foretold = await preview.innerText();
  expect(await app.bench.likelyEnd(RISE), "nothing moves before it is set").toBe(before);

  await app.bench.setEnteredKitchen();
  await expect(app.bench.answer).toHaveText(foretold);
  await expect(app.bench.kitchenButton).toHaveText("Kitchen 17 °C");
  const moved = (await app.bench.likelyEnd(RISE)) - before;
  expect(moved).toBeGreaterThan(5);
  expect(Math.abs(moved - movedBy(foretold))).toBeLessThanOrEqual(ROUNDING);
});

test("from 17 to 22 °C it moves earlier again, and it is said why", async ({ app }) => {
  await risingFor30Minutes(app);
  await app.bench.enterKitchen(17);
  await app.bench.setEnteredKitchen();
  await expect(app.bench.kitchenButton).toHaveText("Kitchen 17 °C");
  const cold = await app.bench.likelyEnd(RISE);

  const preview = await app.bench.enterKitchen(22);
  await expect(preview).toContainText("earlier");
  await expect(preview).toContainText("cools more slowly and the yeast works faster");
  const foretold = await preview.innerText();
  await app.bench.setEnteredKitchen();
  await expect(app.bench.answer).toHaveText(foretold);
  const moved = cold - (await app.bench.likelyEnd(RISE));
  expect(moved).toBeGreaterThan(5);
  expect(Math.abs(moved - movedBy(foretold))).toBeLessThanOrEqual(ROUNDING);
});

test("a closed sheet changes nothing, whatever was entered in it", async ({ app }) => {
  await app.startBake();
  await app.bench.enterKitchen(30);
  await app.page.keyboard.press("Escape");
  await expect(app.bench.sheet).toHaveCount(0);
  await expect(app.bench.kitchenButton).toHaveText("Kitchen 21 °C");
});

test("a dough is said to go towards the kitchen's air, and never away from it", async ({ app }) => {
  await risingFor30Minutes(app);
  // It was 25 °C half an hour ago, in 22 °C, and no time passes any more.
  const changes = [
    [17, "cools faster and the yeast works slower"],
    [20, "cools more slowly and the yeast works faster"],
    [28, "now warms towards the kitchen and the yeast works faster"],
    [31, "warms faster and the yeast works faster"],
    [29, "warms more slowly and the yeast works slower"],
    [18, "now cools towards the kitchen and the yeast works slower"],
  ];
  for (const [degrees, why] of changes) {
    const preview = await app.bench.enterKitchen(degrees);
    await expect(preview, `to ${degrees}`).toContainText(/because the dough, now about 24(\.5)?\s°C,/);
    await expect(preview, `to ${degrees}`).toContainText(why);
    await app.bench.setEnteredKitchen();
    await expect(app.bench.answer).toContainText(why);
  }
});

/** When the bread is likely on the table, in minutes since midnight. */
async function table(app) {
  const sheet = await app.bench.openMore();
  const said = await sheet.getByText(/^On the table/).innerText();
  const [, hours, minutes] = said.match(/likely (\d\d):(\d\d)/);
  await app.page.keyboard.press("Escape");
  await expect(app.bench.sheet).toHaveCount(0);
  return 60 * Number(hours) + Number(minutes);
}

test("before anything rises it says what it does to the liquid and to the table, and why", async ({
  app,
}) => {
  await takeUp(app, "Cook the cream");
  const before = await table(app);
  const preview = await app.bench.enterKitchen(16);
  await expect(preview).toContainText(
    /The liquid stays at [\d.]+\s°C, and the dough should come to [\d.]+\s°C, not [\d.]+\s°C\./,
  );
  await expect(preview).toContainText(
    /On the table about \d\d:\d\d, not \d\d:\d\d, above all because [a-z ]+ takes [\dhmin\s]+ longer: the yeast works slower in a cooler kitchen\./,
  );
  const foretold = await preview.innerText();
  await app.bench.setEnteredKitchen();
  await expect(app.bench.answer).toHaveText(foretold);

  const [, toHours, toMinutes, hours, minutes] = foretold.match(/(\d\d):(\d\d), not (\d\d):(\d\d)/);
  const moved = (await table(app)) - before;
  const told = 60 * (toHours - hours) + (toMinutes - minutes);
  expect(moved).toBeGreaterThan(20);
  expect(Math.abs(moved - told)).toBeLessThanOrEqual(ROUNDING);

  const back = await app.bench.enterKitchen(21);
  await expect(back).toContainText(/takes [\dhmin\s]+ less: the yeast works faster in a warmer kitchen\./);
});

test("where the liquid moves, a colder kitchen asks for a warmer one", async ({ app }) => {
  await app.startBake();
  // The unmeasured kitchen needs warm milk already, so it begins in a hot one.
  await app.bench.enterKitchen(28);
  await app.bench.setEnteredKitchen();
  const preview = await app.bench.enterKitchen(21);
  await expect(preview).toContainText(/The liquid should now be [\d.]+\s°C, not [\d.]+\s°C/);
  const [, now, before] = (await preview.innerText()).match(/now be ([\d.]+)\s°C, not ([\d.]+)\s°C/);
  expect(Number(now)).toBeGreaterThan(Number(before));
});

test("what cools in another kitchen takes longer because of it", async ({ app }) => {
  await takeUp(app, "Cool", { asks: "wait" });
  const before = await app.bench.likelyEnd(/^Cool/);
  const preview = await app.bench.enterKitchen(27);
  await expect(preview).toContainText(
    /Cool: \d+\smin later, about \d\d:\d\d, because it cools slower at 27\s°C than at 21\s°C\./,
  );
  await app.bench.setEnteredKitchen();
  await expect.poll(() => app.bench.likelyEnd(/^Cool/)).toBeGreaterThan(before);
});
