// Whether the texts of a drawing can be read.

import { expect } from "@playwright/test";

const LEAST_PX = 16;
const CONTRAST = 7;

/** Phones, upright and on their side. */
export const SCREENS = [
  [390, 844],
  [320, 640],
  [844, 390],
];

/** Fails where a text of a drawing is small, pale, cut off or under another, by day and by night. */
export async function expectLegible(page, drawing, [width, height]) {
  await page.setViewportSize({ width, height });
  for (const colorScheme of ["light", "dark"]) {
    await page.emulateMedia({ colorScheme });
    const { texts, ratio } = await drawing.evaluate(measure);
    const where = `${width} × ${height}, ${colorScheme}`;
    expect.soft(ratio, where).toBeGreaterThanOrEqual(CONTRAST);
    expect.soft(texts.length, where).toBeGreaterThan(8);
    for (const text of texts) {
      expect.soft(text.px, `${where}: ${text.says}`).toBeGreaterThanOrEqual(LEAST_PX);
      expect.soft(text.over, `${where}: ${text.says}`).toEqual([]);
      expect.soft(text.outside, `${where}: ${text.says}`).toBe(false);
    }
  }
}

/** Runs in the page: sizes, overlaps and the contrast of the texts with the sheet they stand on. */
function measure(svg) {
  const texts = [...svg.querySelectorAll("text")];
  const rects = texts.map((text) => text.getBoundingClientRect());
  const sheet = svg.closest("dialog").getBoundingClientRect();
  // Letters don't fill the font's box: a tenth of it is free above and below.
  const meet = (a, b) =>
    a.left < b.right && b.left < a.right && a.top + 2 < b.bottom - 2 && b.top + 2 < a.bottom - 2;
  const luminance = (colour) => {
    const shares = colour.match(/\d+/g).slice(0, 3).map((part) => part / 255);
    const [red, green, blue] = shares.map((share) =>
      share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4,
    );
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const { fill, stroke } = getComputedStyle(texts[0]);
  const ground = getComputedStyle(svg.closest("dialog")).backgroundColor;
  // The letters' rim has the ground's colour, so they stand out from whatever lies behind.
  const [dark, light] = [luminance(fill), luminance(stroke)].sort((a, b) => a - b);
  return {
    ratio: stroke === ground ? (light + 0.05) / (dark + 0.05) : 0,
    texts: texts.map((text, nth) => ({
      says: text.textContent,
      px: parseFloat(getComputedStyle(text).fontSize),
      over: texts.filter((_, other) => other !== nth && meet(rects[nth], rects[other])).map((one) => one.textContent),
      outside: rects[nth].left < sheet.left || rects[nth].right > sheet.right,
    })),
  };
}
