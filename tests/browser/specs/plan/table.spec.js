// Promise: with no network a table is set in two presses, the way to it is seen, and whoever is twenty
// minutes late reads what moved and why, and has the new moments in the phone's calendar.

import { FORMULAS } from "../../pages/formula.js";
import { minuteOf, timesOf } from "../../pages/plan.js";
import { Baker } from "../../support/baker.js";
import { MINUTE } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";

const TABLE = "19:00";
const LATE = 20;

/** Everything that the formula has its baker do or wait for, by the column it belongs into. */
const LANES = {
  Hands: [
    "Gather", "Cook the cream", "Spread the cream", "Mix the dough", "Knead", "Dough temperature", "Cover the bowl",
    "Toast almonds", "Cream into fridge", "First rise: fold", "Divide", "Round the pieces", "Roll out", "Fill",
    "Oven on", "Egg wash", "Into the oven", "Out of the oven", "Plum glaze", "Glaze and coat", "Serve",
  ],
  Oven: ["Oven heats", "Bake"],
  Dough: ["First rise", "Rest", "Final proof", "Cool"],
  Filling: ["Cream cools", "Filling: in the fridge"],
};

/** "Knead" of "Knead: 10:05 to 10:20". */
const nameOf = (label) => label.match(/^(.*?): \d/)[1];

/** "1 h 10 min", in minutes. */
const spanOf = (text) => {
  const [, hours = 0, minutes = 0] = text.match(/^(?:(\d+)\sh)?\s?(?:(\d+)\smin)?$/);
  return 60 * Number(hours) + Number(minutes);
};

/** What is told of the plan now: when each item is, when all is ready, and what is to spare before the table. */
async function shown({ plan }) {
  const bars = (await plan.drawn()).map(({ label }) => [nameOf(label), timesOf(label)]);
  const [, spare] = (await plan.head.innerText()).match(/That is (.*?) before your table at 19:00/);
  return { times: Object.fromEntries(bars), ready: await plan.ready(), spare: spanOf(spare) };
}

test("offline a table is set, its lanes are seen, a baker is twenty minutes late, and what moved is told", async ({
  app,
  context,
  page,
  server,
  watch,
}) => {
  const { bench, clock, plan } = app;
  await app.install();
  await server.stop();
  await context.setOffline(true);
  const asked = server.requests.length;

  await test.step("two presses at a formula set the table, with time to spare before it", async () => {
    await app.formula.look(FORMULAS.buns);
    await plan.startFor(TABLE);
    const { ready, spare } = await shown(app);
    expect(ready + spare).toBe(minuteOf(TABLE));
    await expect(plan.wished).toHaveText(`On the table at ${TABLE}.`);
  });

  await test.step("everything on the way stands under its lane, by its name", async () => {
    await expect(plan.lanes).toHaveText(Object.keys(LANES));
    const heads = await plan.lanes.evaluateAll((heads) =>
      heads.map((head) => [head.textContent, head.getBoundingClientRect()]),
    );
    const seen = Object.fromEntries(heads.map(([lane]) => [lane, []]));
    for (const { label, left, right } of await plan.drawn()) {
      const middle = (left + right) / 2;
      const [lane] = heads.find(([, head]) => head.left <= middle && middle <= head.right);
      seen[lane].push(nameOf(label));
    }
    for (const [lane, names] of Object.entries(LANES)) expect.soft(seen[lane].sort(), lane).toEqual([...names].sort());
    const named = await page.locator(".bar > span:visible").allInnerTexts();
    expect(named.length).toBe(Object.values(LANES).flat().length);
  });

  await test.step("the baker begins when called, and goes on up to a step that the table hangs on", async () => {
    await clock.sleep(((await plan.begins()) - minuteOf("09:00")) * MINUTE);
    await app.turnTo("#/bench");
    const baker = new Baker(app);
    await baker.until("Divide");
    expect(baker.rang[0]).toBe("Time to begin");
    await plan.turnTo();
    await expect(plan.bar("Divide")).toHaveAttribute("data-hangs", "true");
  });

  const before = await shown(app);
  const planned = await plan.calendar();

  await test.step("twenty minutes late it is told on the Bench what moved and why", async () => {
    await app.turnTo("#/bench");
    const minute = ((await app.now()) / MINUTE) % (24 * 60);
    await clock.pass((before.times.Divide.end + LATE - minute) * MINUTE);
    await bench.press();
    await expect(bench.moved).toHaveText(/^The table stays at 19:00, with .* to spare instead of .*: Divide was done/);
  });
  const said = await bench.moved.innerText();

  await plan.turnTo();
  const after = await shown(app);
  // A plan goes by whole minutes, and nobody is taken to be at the next step in the minute in which this one ended.
  const late = after.ready - before.ready;
  expect([LATE, LATE + 1]).toContain(late);
  await test.step("so it is on the plan's page, and its margin and all that follows are later by that", async () => {
    await expect(plan.moved.getByRole("listitem").first()).toContainText(said);
    const [, is, was, by] = said.match(/with (.*) to spare instead of (.*): Divide was done (.*) later than planned\.$/);
    expect(spanOf(is)).toBe(after.spare);
    // Each is told in whole minutes.
    expect(Math.abs(spanOf(was) - spanOf(is) - spanOf(by))).toBeLessThanOrEqual(1);
    // It is held against what was last told, and nothing is told of what moves by less than two minutes.
    expect(Math.abs(spanOf(by) - LATE)).toBeLessThan(2);
    expect(after.ready + after.spare).toBe(minuteOf(TABLE));
    const { Divide, Serve, "Filling: in the fridge": filling, ...rest } = before.times;
    const later = Object.entries(rest).map(([name, { start, end }]) => [name, { start: start + late, end: end + late }]);
    // What is in the fridge already only comes out later.
    const kept = { start: filling.start, end: filling.end + late };
    // It is served at the table all the same.
    expect(Serve.end).toBe(minuteOf(TABLE));
    expect(after.times).toEqual({ Serve, "Filling: in the fridge": kept, ...Object.fromEntries(later) });
  });

  await test.step("the calendar's file has the plan's new moments", async () => {
    const { events } = await plan.calendar();
    await expect(plan.taken).toHaveText(/^oventide-plan\.ics is in your downloads\./);
    const calls = {
      "Rest: look, then Roll out and Fill (Buns)": after.times.Rest.end,
      "Oven on (Buns)": after.times["Oven on"].start,
      "Final proof: look, then Egg wash and Into the oven (Buns)": after.times["Final proof"].end,
      "Bake: look, then Out of the oven (Buns)": after.times.Bake.end,
      "Plum glaze (Buns)": after.times["Plum glaze"].start,
      "Cool: look, then Glaze and coat and Serve (Buns)": after.times.Cool.end,
      "On the table: Buns": minuteOf(TABLE),
    };
    // In London in November the clocks show UTC.
    const minute = (moment) => (moment / MINUTE) % (24 * 60);
    expect(Object.fromEntries(events.map(({ title, start }) => [title, minute(start)]))).toEqual(calls);
    for (const { alarms, id, start, title } of events) {
      expect(alarms, title).toEqual([start - MINUTE, start]);
      // By its name it takes the place of what was put there before.
      const was = planned.events.find((event) => event.id === id);
      expect(minute(start - was.start), title).toBe(title.startsWith("On the table") ? 0 : late);
    }
  });

  expect(server.requests.length, "requests that reached the server").toBe(asked);
  expect(watch.unanswered, "requests that the app should not have made").toEqual([]);
});
