// Promise: milk and egg that are needed hours later stay in the fridge, and are told so before anything is weighed.

import { FORMULAS } from "../../pages/formula.js";
import { minuteOf } from "../../pages/plan.js";
import { Baker } from "../../support/baker.js";
import { MINUTE, SECOND } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";

const DOUGH = "whole milk and beaten egg for sweet bun dough at 18:00";
const LEAVE = `Leave in the fridge, and weigh when it is needed: ${DOUGH}; beaten egg and whole milk for egg wash at 2`;

test("what is mixed in the evening isn't weighed in the morning, wherever gathering is told of", async ({ app, page }) => {
  const { bench, clock, plan } = app;
  await app.startBake(FORMULAS.buns);
  await expect(bench.title).toHaveText("Gather");
  const usual = /Leave in the fridge, and weigh when it is needed: beaten egg and whole milk for egg wash at 1\d:\d\d\./;
  await expect(bench.main).toContainText(usual);
  await plan.turnTo();
  await clock.pass(SECOND);
  await plan.fix("Mix the dough", minuteOf("18:00"));

  await plan.bar("Gather").click();
  await expect(plan.sheet).toContainText(LEAVE);
  await plan.close();
  await app.turnTo("#/gather");
  await expect(page.getByRole("main")).toContainText(LEAVE);
  await app.turnTo("#/");
  await expect(page.getByRole("main")).toContainText(LEAVE);
  await app.turnTo("#/bench");
  await expect(bench.main).toContainText(LEAVE);

  await test.step("it is said before the list, and nothing of it stands out once the rest is gathered", async () => {
    await clock.pass(SECOND);
    await bench.press();
    await expect(bench.main).not.toContainText("Leave in the fridge");
    // The cream is cold in time, and away.
    await new Baker(app, {}).until("Mix the dough");
    await bench.card("Cream cools").click();
    await bench.sheet.getByRole("button", { name: "It's ready now" }).click();
    await clock.pass(SECOND);
    await expect(bench.title).toHaveText("Cream into fridge");
    await bench.press();
    await expect(bench.title).toHaveText("Mix the dough");
    await expect(bench.main).toContainText("Until then the whole milk and beaten egg belong in the fridge.");
    const now = new Date(await app.now());
    await clock.sleep((18 * 60 + 20 - now.getUTCHours() * 60 - now.getUTCMinutes()) * MINUTE);
    expect(await app.alarm.stopAll()).toContain("Mix the dough: begin now");
    await clock.pass(20 * SECOND);
    await expect(bench.main).not.toContainText("stand out");
    await clock.sleep(120 * MINUTE);
    await app.alarm.stopAll();
    await clock.pass(20 * SECOND);
    await expect(bench.main).toContainText("Did the milk and egg stand out all the while?");
  });
});
