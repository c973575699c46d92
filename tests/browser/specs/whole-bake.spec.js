// The main job: a whole bake on a phone with no network.

import { FORMULAS } from "../pages/formula.js";
import { Baker } from "../support/baker.js";
import { expect, test } from "../support/test.js";

const NOTE = "Two of them leaked a little, and all were gone by four.";
const LESSON = "Pinch twice, and keep the edge free of flour.";

test("a whole bake of plum buns goes from Today to the Notebook with no network", async ({
  app,
  context,
  server,
  watch,
}) => {
  test.slow();
  await app.install();
  await server.stop();
  await context.setOffline(true);
  const asked = server.requests.length;

  await test.step("the bake starts from Today", async () => {
    await app.today.formula(FORMULAS.buns).click();
    await app.formula.start.click();
    await expect(app.bench.title).toHaveText("Gather");
  });

  const baker = new Baker(app);
  await test.step("the baker follows the Bench to the end", async () => {
    await baker.untilAllDone();
  });

  await test.step("every alarm of a bake rang", async () => {
    const rang = baker.rang.join("; ");
    for (const alarm of [
      "Cream cools: look now",
      "Fold the dough",
      "First rise: look now",
      "Rest: look now",
      "Oven on",
      "Final proof: look now",
      "Bake: look now",
      "Cool: look now",
    ]) {
      expect(rang).toContain(alarm);
    }
  });

  await test.step("finishing was asked for bun by bun: glaze, almonds, the next", async () => {
    const finish = baker.story.filter((line) => line.startsWith("Glaze and coat: Bun"));
    const wanted = Array.from({ length: 8 }, (_, bun) => [
      `Glaze and coat: Bun ${bun + 1}: glaze`,
      `Glaze and coat: Bun ${bun + 1}: almonds on`,
    ]);
    expect(finish).toEqual(wanted.flat());
  });

  await test.step("it comes to the Notebook with what was planned, done and measured", async () => {
    await app.bench.finish();
    await expect(app.heading).toHaveText(FORMULAS.buns);
    await expect(app.note.ended).toContainText("On the table at");
    await expect(app.note.steps).toHaveCount(27);
    for (const row of await app.note.steps.allInnerTexts()) expect(row).toMatch(/planned .* ended/s);
    await expect(app.note.measured).toContainText("Sweet bun dough: 25 °C");
    await expect(app.note.measured).toContainText("Bake: 91 °C");
    await expect(app.note.measured).toContainText("3 weighed: 79 g to 91 g, on average 85 g.");
    await app.note.write(NOTE);
    await app.note.writeLesson("Fill", LESSON);
  });

  await test.step("it is all still there after a reload, with no network", async () => {
    await app.reload();
    await expect(app.note.text).toHaveValue(NOTE);
    await expect(app.note.differently).toContainText(LESSON);
    await app.go("Notebook");
    const card = app.page.getByRole("main").getByRole("link", { name: FORMULAS.buns });
    await expect(card).toContainText("On the table at");
  });

  await test.step("the next bake shows the lesson at that step and at no other", async () => {
    await app.formula.bake(FORMULAS.buns);
    const next = new Baker(app);
    await expect(app.bench.lesson).toHaveCount(0);
    await next.until("Fill");
    await expect(app.bench.lesson).toContainText(LESSON);
  });

  expect(server.requests.length, "requests that reached the server").toBe(asked);
  expect(watch.unanswered, "requests that the app should not have made").toEqual([]);
});
