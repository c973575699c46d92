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
  await expect(preview).toContainText("cools towards the kitchen and the yeast works slower");
  const foretold = await preview.innerText();
  expect(await app.bench.likelyEnd(RISE), "nothing moves before it is set").toBe(before);

  await app.bench.setEnteredKitchen();
  await expect(app.bench.answer).toHaveText(foretold);
  await expect(app.bench.kitchenButton).toHaveText("Kitchen 17 °C");
  const moved = (await app.bench.likelyEnd(RISE)) - before;
  expect(moved).toBeGreaterThan(5);
  expect(Math.abs(moved - movedBy(foretold))).toBeLessThanOrEqual(ROUNDING);
});

test("from 17 to 24 °C it moves earlier again, and it is said why", async ({ app }) => {
  await risingFor30Minutes(app);
  await app.bench.enterKitchen(17);
  await app.bench.setEnteredKitchen();
  await expect(app.bench.kitchenButton).toHaveText("Kitchen 17 °C");
  const cold = await app.bench.likelyEnd(RISE);

  const preview = await app.bench.enterKitchen(24);
  await expect(preview).toContainText("earlier");
  await expect(preview).toContainText("towards the kitchen and the yeast works faster");
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

test("before the dough is mixed a colder kitchen asks for warmer liquid", async ({ app }) => {
  await app.startBake();
  // The unmeasured kitchen needs warm milk already, so it begins in a hot one.
  await app.bench.enterKitchen(28);
  await app.bench.setEnteredKitchen();
  const preview = await app.bench.enterKitchen(21);
  await expect(preview).toContainText(/The liquid should now be [\d.]+\s°C, not [\d.]+\s°C/);
  const [, now, before] = (await preview.innerText()).match(/now be ([\d.]+)\s°C, not ([\d.]+)\s°C/);
  expect(Number(now)).toBeGreaterThan(Number(before));
});
