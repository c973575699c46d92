// Finds words and times that are broken in two where a line ends.

/** Every word that begins on one line and ends on another, of what can be seen on the page or in its topmost dialog. */
export function brokenWords(page) {
  return page.evaluate(() => {
    const top = [...document.querySelectorAll("dialog[open]")].at(-1) ?? document.body;
    const walker = document.createTreeWalker(top, NodeFilter.SHOW_TEXT);
    const found = [];
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const element = node.parentElement;
      const isShown = element.checkVisibility({ visibilityProperty: true });
      if (!isShown || element.closest("svg, .visually-hidden")) continue;
      if (top === document.body && element.closest("dialog")) continue;
      // A no-break space holds what stands round it together, so "since 09:00" is one word here; a line may end
      // behind a hyphen, a dash or a slash.
      for (const { index, 0: word } of node.data.matchAll(/[^ \t\n\u2009-\u200b\-–—/]+/g)) {
        const range = document.createRange();
        range.setStart(node, index);
        range.setEnd(node, index + word.length);
        const boxes = [...range.getClientRects()].filter(({ width }) => width > 0);
        const down = getComputedStyle(element).writingMode === "horizontal-tb" ? "top" : "left";
        const lines = new Set(boxes.map((box) => Math.round(box[down])));
        if (lines.size > 1) found.push(`"${word}" in "${element.textContent.trim().slice(0, 60)}"`);
      }
    }
    return [...new Set(found)];
  });
}
