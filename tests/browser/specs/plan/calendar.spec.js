// Promise: the plan goes into the phone's calendar, and its alarms fall on the plan's moments,
// also across both changes of summer time. A library reads the files, too.

import { FORMULAS } from "../../pages/formula.js";
import { readByLibrary, readCalendar } from "../../support/calendar.js";
import { MINUTE, SECOND } from "../../support/clock.js";
import { expect, test } from "../../support/test.js";

const IPHONE =
  "Mozilla/5.0 (iPhone; CPU iPhone OS 18_4 like Mac OS X) AppleWebKit/605.1.15 (KHTML, like Gecko) Mobile/15E148";

/** The nights in which the clocks in Berlin are changed, at one o'clock UTC: in spring an hour is left out, in autumn it comes twice. */
const CHANGES = [
  { night: "28 March 2027", evening: "2027-03-27T17:00:00Z", change: Date.UTC(2027, 2, 28, 1), byClock: 60 },
  { night: "31 October 2027", evening: "2027-10-30T16:00:00Z", change: Date.UTC(2027, 9, 31, 1), byClock: -60 },
];

for (const { night, evening, change, byClock } of CHANGES) {
  test.describe(`in Berlin, in the night to ${night}`, () => {
    test.use({ timezoneId: "Europe/Berlin" });

    /** Wall-clock time there, by Node's own tables. */
    const there = (moment) =>
      new Intl.DateTimeFormat("en-GB", {
        timeZone: "Europe/Berlin",
        hour: "2-digit",
        minute: "2-digit",
      }).format(moment);

    test("the file downloads offline and its alarms fall on the plan's moments", async ({
      app,
      clock,
      context,
      server,
    }) => {
      await clock.set(new Date(evening));
      await app.install();
      await server.stop();
      await context.setOffline(true);
      await app.formula.bake(FORMULAS.loaf);
      await app.plan.turnTo();
      const { name, events, text } = await app.plan.calendar();
      await expect(app.plan.taken).toHaveText(/^oventide-plan\.ics is in your downloads\./);
      expect(name).toBe("Oventide");
      const told = events.map(({ id, start, end, title, note, alarms }) => ({ id, start, end, title, note, alarms }));
      expect(readByLibrary(text)).toEqual({ name, events: told });

      const shown = await app.plan.list.innerText();
      for (const { start, alarms, title, note } of events) {
        // A minute ahead for calendars that know no alarm at the moment itself, and then.
        expect(alarms, title).toEqual([start - MINUTE, start]);
        expect(shown, `${title} at ${there(start)}`).toContain(there(start));
        expect(note).toContain("Keep Oventide open.");
      }

      const at = (wanted) => events.find(({ title }) => wanted.test(title));
      const fridge = at(/Into the fridge/);
      const morning = at(/^Night in fridge: look/);
      const minutes = (morning.start - fridge.end) / MINUTE;
      // The formula's likely night, to which the hands beside it add nothing.
      expect(minutes).toBe(570);
      expect(fridge.end).toBeLessThan(change);
      expect(morning.start).toBeGreaterThan(change);
      // By the clocks there it looks an hour longer where one is left out, and shorter where one comes twice.
      const clockMinutes = (text) => text.split(":").reduce((sum, part) => 60 * sum + Number(part), 0);
      const looks = clockMinutes(there(morning.start)) - clockMinutes(there(fridge.end)) + 24 * 60;
      expect(looks).toBe(570 + byClock);
      expect(morning.note).toContain(there(morning.start));

      const table = at(/^On the table: Loaf$/);
      expect(Math.max(...events.map(({ start }) => start))).toBe(table.start);
      expect(shown).toContain(there(table.start));
    });
  });
}

test("a bake that is planned for a table is begun and served by its entries", async ({ app }) => {
  await app.open();
  await app.formula.look(FORMULAS.buns);
  await app.plan.startFor("19:00");
  const { events } = await app.plan.calendar();
  // In London in November the clocks show UTC.
  const minute = (moment) => (moment / MINUTE) % (24 * 60);
  const [begin] = events;
  expect(begin.title).toMatch(/^Begin: Gather and \d+ more steps \(Buns\)$/);
  expect(Math.floor(minute(begin.start))).toBe((await app.plan.times("Gather")).start);
  const rise = events.find(({ title }) => title.startsWith("First rise: look"));
  expect(Math.floor(minute(rise.start))).toBe((await app.plan.times("First rise")).end);
  const table = events.at(-1);
  expect(table.title).toBe("On the table: Buns");
  expect(minute(table.start)).toBe(19 * 60);
});

test("two bakes are told apart, put in twice they have the same names, and what lies behind is left out", async ({ app }) => {
  await app.startBake(FORMULAS.buns);
  await app.clock.pass(SECOND);
  await app.turnTo("#/");
  await app.formula.bake(FORMULAS.braid);
  await app.plan.turnTo();
  const first = await app.plan.calendar();
  const whose = (what) => first.events.filter(({ title }) => title.endsWith(`(${what})`));
  expect(whose("Buns").length).toBeGreaterThan(5);
  expect(whose("Braid").length).toBeGreaterThan(5);
  expect(whose("Buns").length + whose("Braid").length).toBe(first.events.length - 1);
  expect(first.events.at(-1).title).toBe("On the table: Buns, Braid");
  const byLibrary = readByLibrary(first.text).events;
  expect(byLibrary.map(({ id, title, note }) => [id, title, note])).toEqual(
    first.events.map(({ id, title, note }) => [id, title, note]),
  );
  const folds = first.events.filter(({ title }) => title.startsWith("Fold the dough"));
  expect(folds.map(({ id }) => id)).toHaveLength(2);
  const [rise] = first.events.filter(({ title }) => /^First rise: look, then Divide/.test(title));
  expect(rise.note).toMatch(/^First rise: \d\d:\d\d to \d\d:\d\d, likely \d\d:\d\d\. Ready when it has doubled/);
  expect(rise.note).toMatch(/\n\d\d:\d\d Divide: /);

  const again = await app.plan.calendar();
  const ids = ({ events }) => events.map(({ id }) => id);
  expect(ids(again)).toEqual(ids(first));

  const now = await app.now();
  for (const { start } of again.events) expect(start).toBeGreaterThanOrEqual(now - SECOND);
});

test.describe("an app on an iPhone's home screen", () => {
  test.use({ userAgent: IPHONE });

  test.beforeEach(async ({ context }) => {
    await context.addInitScript(() => {
      window.phone = { can: true, shared: [], refuses: null };
      Object.defineProperty(navigator, "standalone", { value: true });
      navigator.canShare = ({ files }) => window.phone.can && files.length === 1;
      navigator.share = async ({ files }) => {
        if (window.phone.refuses) throw new DOMException("no", window.phone.refuses);
        const [file] = files;
        window.phone.shared.push({ name: file.name, type: file.type, text: await file.text() });
      };
    });
  });

  test("the share sheet takes the file, or it is said what to do instead", async ({ app, page }) => {
    await app.startBake(FORMULAS.buns);
    await app.plan.turnTo();
    const downloads = [];
    page.on("download", (file) => downloads.push(file));
    await app.plan.putInCalendar();
    await expect(app.plan.taken).toHaveText(/^The plan was handed over\./);
    const [file] = await page.evaluate(() => window.phone.shared);
    expect(file).toMatchObject({ name: "oventide-plan.ics", type: "text/calendar;charset=utf-8" });
    const { events } = readCalendar(file.text);
    expect(events.length).toBeGreaterThan(5);

    await page.evaluate(() => (window.phone.refuses = "AbortError"));
    await app.plan.putInCalendar();
    await expect(app.plan.taken).toHaveText("Nothing was put in the calendar.");

    await page.evaluate(() => (window.phone.can = false));
    await app.plan.putInCalendar();
    await expect(app.plan.taken).toHaveText(/^This phone takes no calendar file from here\. Print the plan instead\. Or set the phone's own alarm/);
    const [next] = events;
    const two = (number) => String(number).padStart(2, "0");
    const at = new Date(next.start);
    // In London in November the clocks show UTC.
    await expect(app.plan.taken).toContainText(`${two(at.getUTCHours())}:${two(at.getUTCMinutes())}, ${next.title}`);
    expect(await page.evaluate(() => window.phone.shared.length)).toBe(1);
    expect(downloads).toEqual([]);
  });
});
