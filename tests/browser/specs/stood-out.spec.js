// A phone that was off while food spoiled: whatever it says afterwards, none of it has that food baked, chilled or eaten.

import { HOUR, MINUTE, SECOND } from "../support/clock.js";
import { takeUp } from "../support/mid-bake.js";
import { expect, test } from "../support/test.js";

const LOST = "Don't eat it";
const THROW = "Throw it away, baked or not. Your local food-safety rules come first.";

/** How to keep what can be kept. */
const TO_KEEP = /into the fridge within|Cool it fast|Cool fast|cold within|Put away in time/;

const SCENES = [
  {
    name: "a cream that nobody said was cold",
    at: ["Cream cools", "wait"],
    hours: 24,
    says: /^Nobody has said that the filling was below 5\s°C \(41\s°F\) by \d\d:\d\d on Saturday/,
  },
  {
    name: "a dough with egg and milk that rose for a day",
    at: ["First rise", "wait"],
    hours: 24,
    says: /^The dough, with egg or milk in it, has stood out since \d\d:\d\d on Saturday, longer than 8\sh\./,
    then: /^The dough, with egg or milk in it, stood out for 24\sh.*, longer than 8\sh\./,
  },
  {
    name: "filled buns that proofed for six hours",
    at: ["Final proof", "wait"],
    hours: 6,
    says: /^The filling has stood out since \d\d:\d\d, longer than 2\sh\./,
  },
  {
    name: "baked buns that cooled for twenty hours",
    at: ["Cool", "wait"],
    hours: 20,
    says: /^The bread has stood out since \d\d:\d\d on Saturday, longer than 2\sh\./,
  },
];

/** Stops all alarms; each says what the food is, and nothing of what was to be done with it. */
async function alarmsAreHonest({ alarm }) {
  let rang = 0;
  for (; await alarm.rings(); rang += 1) {
    await expect(alarm.title).toHaveText(LOST);
    await expect(alarm.text).toContainText(THROW);
    await alarm.stop();
  }
  expect(rang).toBeGreaterThan(0);
}

/** What the Bench says to mind. */
async function advice({ main }) {
  const said = main.locator(".cautions, .cautions-short, .asked-cue");
  return (await said.allTextContents()).join(" ");
}

async function planIsHonest(app, says) {
  await app.clock.pass(SECOND);
  await app.turnTo("#/plan");
  await expect(app.plan.head).toBeVisible();
  const plan = app.page.getByRole("main");
  await expect(plan.locator(".caution li", { hasText: LOST }).first()).toContainText(THROW);
  const texts = await plan.locator(".caution li").allInnerTexts();
  expect(texts.some((text) => says.test(text.replace(`${LOST}. `, "")))).toBe(true);
  await expect(plan).not.toContainText("later than is good");
}

for (const { name, at: [title, asks], hours, says, then = says } of SCENES) {
  test(`${name} is told to be thrown away, and stays so`, async ({ app }) => {
    const { bench, clock } = app;
    await takeUp(app, title, { asks });
    await expect(bench.stood).toBeHidden();
    await clock.sleep(hours * HOUR);
    await alarmsAreHonest(app);
    await expect(bench.stood.locator("strong")).toHaveText(LOST);
    await expect(bench.stood.locator("span")).toHaveText(says);
    await expect(bench.stood.locator("span")).toContainText(THROW);
    // It stands above what is asked, in sight.
    const [caution, asked] = [await bench.stood.boundingBox(), await bench.title.boundingBox()];
    expect(caution.y + caution.height).toBeLessThanOrEqual(asked.y);
    await expect(bench.stood.locator("strong")).toBeInViewport({ ratio: 1 });
    expect(await advice(bench)).not.toMatch(TO_KEEP);

    await test.step("whoever goes on all the same isn't told otherwise", async () => {
      await bench.press();
      await expect(bench.stood).toContainText(LOST);
    });
    await test.step("on the plan, on Today and after a reload as well", async () => {
      await planIsHonest(app, then);
      await app.turnTo("#/");
      const card = app.page.getByRole("main").locator(".card .stood");
      await expect(card).toContainText(LOST);
      await expect(card).toContainText(THROW);
      await app.reload();
      await expect(card).toContainText(LOST);
    });
  });
}

/** A phone that can't keep its screen on, and says so in a line over what is asked. */
async function withoutWakeLock(page) {
  await page.addInitScript(() => delete Navigator.prototype.wakeLock);
}

/** Nothing of it is out of sight, nor behind what is pressed. */
async function readsAll(bench, all) {
  const press = await bench.mainAction.boundingBox();
  await expect(bench.honestLine).toHaveText("Keep the screen on: this phone won't.");
  for (const read of all) {
    await expect(read).toBeInViewport({ ratio: 0.99 });
    const box = await read.boundingBox();
    const isBeside = box.x + box.width <= press.x;
    expect(isBeside || box.y + box.height <= press.y).toBe(true);
  }
}

for (const size of [
  { width: 390, height: 844 },
  { width: 844, height: 390 },
]) {
  test(`beside lost food both what it is and what to do are read at ${size.width}x${size.height}`, async ({ app, page }) => {
    const { alarm, bench, clock } = app;
    await page.setViewportSize(size);
    await withoutWakeLock(page);
    await takeUp(app, "Final proof", { asks: "wait" });
    await clock.sleep(6 * HOUR);
    await alarm.stopAll();
    // A long one, of three lines.
    await expect(bench.instruction).toHaveText("Turn the oven on, with a rack in the middle.");
    await readsAll(bench, [bench.stood, bench.instruction]);
  });

  test(`beside it and how to say that a press came late as well at ${size.width}x${size.height}`, async ({ app, page }) => {
    const { alarm, bench, clock } = app;
    await page.setViewportSize(size);
    await withoutWakeLock(page);
    await takeUp(app, "Into the oven");
    await clock.sleep(25 * MINUTE);
    await alarm.stopAll();
    await bench.press();
    const late = bench.main.locator(".asked summary", { hasText: "Into the oven was before" });
    await readsAll(bench, [bench.stood, late, bench.instruction]);
  });
}

test("a cream that is lost is made anew by one press, and nothing else is", async ({ app }) => {
  const { alarm, bench, clock } = app;
  await takeUp(app, "Cream cools", { asks: "wait" });
  await clock.sleep(8 * HOUR);
  await alarm.stopAll();
  await expect(bench.stood).toContainText(LOST);
  await bench.main.getByRole("button", { name: "Make it anew: Cook the cream" }).click();
  await expect(bench.stood).not.toContainText("filling");
  await expect(bench.title).toHaveText("Cook the cream");
});

test("bread that was out for a day is neither served nor praised", async ({ app }) => {
  const { bench, clock } = app;
  await takeUp(app, "Serve", { asks: "work" });
  await expect(bench.stood).toBeHidden();
  await clock.sleep(24 * HOUR);
  await alarmsAreHonest(app);
  await expect(bench.stood).toContainText("The bread has stood out since");
  await expect(bench.instruction).toHaveText("Don't serve it.");
  expect(await advice(bench)).not.toMatch(TO_KEEP);
  await planIsHonest(app, /^The bread has stood out since/);
  await app.turnTo("#/bench");
  await bench.press();
  await expect(bench.instruction).toHaveText("All done. Throw it away.");
  await expect(bench.stood).toContainText(/The bread stood out for 2[45]\sh/);
});

test("near the limit the Bench says until when, and a filling made anew is told of no more", async ({
  app,
}) => {
  const { alarm, bench, clock } = app;
  await takeUp(app, "Final proof", { asks: "wait" });
  await clock.sleep(1.6 * HOUR);
  await alarm.stopAll();
  await expect(bench.stood).toHaveText(
    /^The filling has stood out since \d\d:\d\d: bake it or chill it by \d\d:\d\d\.$/,
  );
  await clock.sleep(HOUR);
  await alarm.stopAll();
  await expect(bench.stood).toContainText(LOST);
  await bench.goBackTo("Cook the cream");
  await expect(bench.stood).toBeHidden();
});
