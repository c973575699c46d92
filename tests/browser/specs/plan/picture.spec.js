// What the drawing says beside its bars: when a rise may end, and, without colours too, what the table depends on.

import { minuteOf, timesOf } from "../../pages/plan.js";
import { expect, test } from "../../support/test.js";

/** A pixel, and what is lost of a place that is written with two digits. */
const NEAR = 1;

test("each range is drawn from when its rise may end to when it may end at the latest, by the scale of the bars", async ({
  app,
  page,
}) => {
  const { plan } = app;
  await plan.bunsForSeven();
  const bars = (await plan.drawn()).map((bar) => ({ ...bar, ...timesOf(bar.label) }));
  const ranges = await page.locator(".plan-over .plan-range").evaluateAll((ranges) =>
    ranges.map((range) => {
      const { x, y, width, height } = range.getBBox();
      const { a, d, e, f } = range.getScreenCTM();
      return { left: e + a * x, right: e + a * (x + width), top: f + d * y, bottom: f + d * (y + height) };
    }),
  );
  const uncertain = bars.filter(({ label }) => label.includes(", between "));
  expect(ranges.length).toBe(uncertain.length);

  /** How far down a minute is drawn, by the nearest edges of bars before and after it, but for one bar. */
  function down(minute, but) {
    const edges = bars
      .filter((bar) => bar !== but)
      .flatMap(({ start, end, top, height }) => [
        { at: start, y: top },
        // What is over as it begins is drawn a minute long.
        { at: Math.max(end, start + 1), y: top + height },
      ]);
    const before = edges.filter(({ at }) => at <= minute).reduce((one, other) => (other.at > one.at ? other : one));
    const after = edges.filter(({ at }) => at > minute).reduce((one, other) => (other.at < one.at ? other : one));
    return before.y + ((after.y - before.y) * (minute - before.at)) / (after.at - before.at);
  }

  for (const name of ["First rise", "Final proof"]) {
    const rise = uncertain.find(({ label }) => label.startsWith(`${name}: `));
    const range = ranges[uncertain.indexOf(rise)];
    const [low, high] = rise.label.match(/between (\d\d:\d\d) and (\d\d:\d\d)/).slice(1).map(minuteOf);
    expect(low, rise.label).toBeLessThan(rise.end);
    expect(high, rise.label).toBeGreaterThan(rise.end);
    // A time is told in whole minutes, so it is that one or a moment in the minute after it.
    expect.soft(range.top, `${name}, early`).toBeGreaterThanOrEqual(down(low, rise) - NEAR);
    expect.soft(range.top, `${name}, early`).toBeLessThanOrEqual(down(low + 1, rise) + NEAR);
    expect.soft(range.bottom, `${name}, late`).toBeGreaterThanOrEqual(down(high, rise) - NEAR);
    expect.soft(range.bottom, `${name}, late`).toBeLessThanOrEqual(down(high + 1, rise) + NEAR);
    // It lies in the column of its bar, at its right edge, and is narrower than that.
    expect.soft(Math.abs(range.right - rise.right), name).toBeLessThanOrEqual(NEAR);
    expect.soft(range.left - rise.left, name).toBeGreaterThan((rise.right - rise.left) / 2);
  }
});

for (const forcedColors of ["none", "active"]) {
  test(`what the table depends on has a thick edge and a mark, and nothing else has, with forced colours ${forcedColors}`, async ({
    app,
    page,
  }) => {
    await page.emulateMedia({ forcedColors });
    await app.plan.bunsForSeven();
    const bars = await app.plan.bars.evaluateAll((bars) =>
      bars.map((bar) => {
        const style = getComputedStyle(bar);
        const name = bar.querySelector("span");
        return {
          label: bar.getAttribute("aria-label"),
          edge: parseFloat(style.borderLeftWidth),
          others: [style.borderTopWidth, style.borderRightWidth, style.borderBottomWidth].map(parseFloat),
          line: style.borderLeftStyle,
          // An edge of the ground's own colour would be none.
          isSeen: style.borderLeftColor !== style.backgroundColor,
          sign: name.checkVisibility() ? getComputedStyle(name, "::before").content : undefined,
        };
      }),
    );
    const hangs = ({ label }) => label.includes("the table depends on it");
    for (const { edge, others, line, isSeen, sign, label } of bars.filter(hangs)) {
      expect.soft(edge, label).toBeGreaterThanOrEqual(Math.max(...others) + 2);
      expect.soft(line, label).toBe("solid");
      expect.soft(isSeen, label).toBe(true);
      if (sign !== undefined) expect.soft(sign, label).toBe('"◆ "');
    }
    const free = bars.filter((bar) => !hangs(bar));
    for (const { edge, others, sign, label } of free) {
      expect.soft(others, label).toEqual([edge, edge, edge]);
      if (sign !== undefined) expect.soft(sign, label).toBe("none");
    }
    // What is told of it above the drawing is marked in it.
    const told = (await app.plan.head.innerText()).match(/The table depends on ([^.]*)\./)[1];
    for (const name of ["First rise", "Final proof"]) {
      expect(told).toContain(name);
      expect(bars.filter(hangs).some(({ label, sign }) => label.startsWith(`${name}: `) && sign === '"◆ "')).toBe(true);
    }
    expect(free.length).toBeGreaterThan(3);

    await test.step("and so has its row in the list, which says it", async () => {
      await app.plan.show("As a list");
      const rows = await app.plan.rows.and(page.getByRole("button")).evaluateAll((rows) =>
        rows.map((row) => {
          const { borderLeftWidth, borderRightWidth } = getComputedStyle(row);
          return { says: row.innerText, thicker: parseFloat(borderLeftWidth) - parseFloat(borderRightWidth) };
        }),
      );
      expect(rows.length).toBe(bars.length);
      for (const { says, thicker } of rows) {
        expect.soft(thicker > 2, says).toBe(says.includes("◆ the table depends on it"));
      }
      expect(rows.filter(({ says }) => says.includes("◆")).length).toBe(bars.filter(hangs).length);
    });
  });
}
