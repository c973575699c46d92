// The page as it comes out of a printer.

/** Of A4, in px of an inch's ninety-sixth: what is left within margins of 15 mm. */
const MARGINS_MM = 30;
const WIDTH = Math.floor(((210 - MARGINS_MM) / 25.4) * 96);

/** Lays the page out as it is printed. */
export async function toPaper(page) {
  await page.emulateMedia({ media: "print" });
  await page.setViewportSize({ width: WIDTH, height: 1000 });
}

/** How many sheets it takes, of A4 or Letter. */
export async function sheets(page, format) {
  const pdf = await page.pdf({ format, preferCSSPageSize: true });
  return pdf.toString("latin1").match(/\/Type\s*\/Page\b(?!s)/g).length;
}

/** What isn't black on white or reaches beyond the paper, of all that carries text; what can be pressed. */
export function wrongOnPaper(page) {
  return page.evaluate(() => {
    const wrong = [];
    const isShown = (element) => element.checkVisibility() && !element.closest("span.visually-hidden, h2.visually-hidden");
    for (const one of document.querySelectorAll(".button, .ways, .choices, .no-print, input, dialog")) {
      if (one.checkVisibility()) wrong.push(`can be pressed: ${one.textContent}`);
    }
    const see = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let text = see.nextNode(); text; text = see.nextNode()) {
      const parent = text.parentElement;
      if (!text.data.trim() || !isShown(parent)) continue;
      const range = document.createRange();
      range.selectNodeContents(text);
      for (const { left, right } of range.getClientRects()) {
        if (left < 0 || right > document.documentElement.clientWidth) wrong.push(`clipped: ${text.data}`);
      }
      const { color } = getComputedStyle(parent);
      if (color !== "rgb(0, 0, 0)") wrong.push(`${color}: ${text.data}`);
      for (let box = parent; box; box = box.parentElement) {
        const { backgroundColor } = getComputedStyle(box);
        if (!["rgba(0, 0, 0, 0)", "rgb(255, 255, 255)"].includes(backgroundColor)) {
          wrong.push(`on ${backgroundColor}: ${text.data}`);
        }
      }
    }
    return wrong;
  });
}
