// Finds text that is lost: outside the screen's width, cut off, or under other text.

/** Every loss on the page or, where one is open, in the topmost dialog; in words. */
export function losses(page) {
  return page.evaluate(() => {
    const found = [];
    const say = (element, what) => {
      const name = element.className?.baseVal ?? element.className ?? "";
      const words = element.localName === "input" ? element.value : element.textContent;
      const text = words.trim().replace(/\s+/g, " ").slice(0, 40);
      found.push(`${element.localName}.${String(name).trim().replaceAll(" ", ".")} "${text}": ${what}`);
    };
    // Half a pixel is rounding.
    const SLACK = 1;
    const root = document.documentElement;
    if (root.scrollWidth > root.clientWidth) {
      found.push(`the page scrolls sideways: ${root.scrollWidth} px in ${root.clientWidth} px`);
    }
    const dialogs = [...document.querySelectorAll("dialog[open]")];
    const top = dialogs.at(-1) ?? document.body;
    const isHidden = (element) =>
      element.closest(".visually-hidden") !== null ||
      !element.checkVisibility({ visibilityProperty: true }) ||
      (top === document.body && element.closest("dialog") !== null);

    for (const element of top.querySelectorAll("*")) {
      if (isHidden(element) || element.closest("svg")) continue;
      const { display } = getComputedStyle(element);
      if (display.startsWith("inline") && element.localName !== "input") continue;
      if (element.clientWidth > 0 && element.scrollWidth > element.clientWidth + SLACK) {
        const by = element.scrollWidth - element.clientWidth;
        say(element, `its content is ${by} px wider than it`);
      }
    }

    const lines = [];
    const walker = document.createTreeWalker(top, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
      const element = node.parentElement;
      if (!node.data.trim() || isHidden(element)) continue;
      const range = document.createRange();
      range.selectNodeContents(node);
      for (const line of range.getClientRects()) {
        if (line.width === 0 || line.height === 0) continue;
        if (line.left < -SLACK || line.right > root.clientWidth + SLACK) {
          say(element, `reaches from ${line.left | 0} to ${line.right | 0} px`);
        }
        const cut = cutBy(element, line);
        if (cut) say(element, `cut off by ${cut.localName}.${cut.className}`);
        const seen = inSight(element, line);
        if (seen.bottom > seen.top) lines.push({ element, line: seen, layer: layerOf(element) });
      }
    }

    // Line boxes are taller than their letters, so a third of a line has to be under another.
    for (let one = 0; one < lines.length; one += 1) {
      for (let other = one + 1; other < lines.length; other += 1) {
        const [a, b] = [lines[one], lines[other]];
        if (a.layer !== b.layer || a.element === b.element) continue;
        const wide = Math.min(a.line.right, b.line.right) - Math.max(a.line.left, b.line.left);
        const high = Math.min(a.line.bottom, b.line.bottom) - Math.max(a.line.top, b.line.top);
        const least = Math.min(a.line.height, b.line.height) / 3;
        if (wide > 2 && high > least) say(a.element, `lies over "${b.element.textContent.trim()}"`);
      }
    }
    return [...new Set(found)];

    /** What stays while the rest scrolls, may lie over the rest. */
    function layerOf(element) {
      for (let up = element; up; up = up.parentElement) {
        if (["fixed", "sticky"].includes(getComputedStyle(up).position)) return up;
      }
      return null;
    }

    /** What can be seen of a line where a part of the page scrolls by itself; the rest comes by scrolling. */
    function inSight(element, { left, right, top, bottom }) {
      const height = bottom - top;
      for (let up = element; up && up !== root; up = up.parentElement) {
        if (getComputedStyle(up).overflowY !== "auto") continue;
        const box = up.getBoundingClientRect();
        [top, bottom] = [Math.max(top, box.top), Math.min(bottom, box.bottom)];
      }
      return { left, right, top, bottom, height };
    }

    function cutBy(element, line) {
      for (let up = element; up && up !== root; up = up.parentElement) {
        const { overflowX, overflowY } = getComputedStyle(up);
        const box = up.getBoundingClientRect();
        const outsideX = line.left < box.left - SLACK || line.right > box.right + SLACK;
        const outsideY = line.top < box.top - SLACK || line.bottom > box.bottom + SLACK;
        if (["hidden", "clip"].includes(overflowX) && outsideX) return up;
        if (["hidden", "clip"].includes(overflowY) && outsideY) return up;
      }
      return null;
    }
  });
}

/**
 * The share of the screen's height that what is pinned to its edges leaves free for the rest, at the
 * top of the page.
 */
export function freeHeight(page) {
  return page.evaluate(() => {
    const pinned = [...document.querySelectorAll("body *")].filter((element) => {
      const { position } = getComputedStyle(element);
      const box = element.getBoundingClientRect();
      const wide = box.width > innerWidth / 2;
      // A dialog is what has to be read, not what covers it.
      const covers = element.checkVisibility() && !element.closest("dialog");
      return ["fixed", "sticky"].includes(position) && covers && wide;
    });
    let covered = 0;
    for (const element of pinned) {
      const box = element.getBoundingClientRect();
      covered += Math.max(0, Math.min(innerHeight, box.bottom) - Math.max(0, box.top));
    }
    return 1 - covered / innerHeight;
  });
}
