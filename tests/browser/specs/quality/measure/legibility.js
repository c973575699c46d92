// Measures what has to be read and hit from a metre and a half away, in CSS px.

/** Sizes, places and contrasts of what the Bench shows now. */
export function bench(page) {
  return page.evaluate(() => {
    const main = document.querySelector("main.bench");
    const name = (element) =>
      (element.getAttribute("aria-label") ?? element.textContent).trim().replace(/\s+/g, " ");
    const size = (element) => parseFloat(getComputedStyle(element).fontSize);
    const isShown = (element) => element.checkVisibility({ visibilityProperty: true });

    const heading = main.querySelector(".asked-instruction");
    const action = main.querySelector(".act > .act-main");
    const box = action.getBoundingClientRect();
    const shown = {
      width: Math.min(innerWidth, box.right) - Math.max(0, box.left),
      height: Math.min(innerHeight, box.bottom) - Math.max(0, box.top),
    };
    // A radio button is hidden behind its label, and the label is what is hit.
    const targets = [...main.querySelectorAll("button, a, summary, input, select, textarea, label")]
      .filter((element) => isShown(element) && !element.matches(".visually-hidden, label[for]"));

    return {
      instruction: {
        text: name(heading),
        words: name(heading).split(" ").length,
        px: size(heading),
        hidden: hiddenPartsOf(heading),
      },
      /** What has to be known before it is done: what burns, and how warm the liquid is to be. */
      known: [...main.querySelectorAll(".asked-instruction + .cautions > .caution, .asked > .liquid")].map((one) => ({
        text: name(one),
        hidden: hiddenPartsOf(one),
      })),
      digits: [...main.querySelectorAll(".runs-clock")].map((clock) => ({
        of: name(clock.parentElement),
        px: size(clock),
        fits: lies(clock, clock.closest(".runs") ?? main),
        hidden: hiddenPartsOf(clock, clock.closest(".runs")),
      })),
      action: {
        text: name(action),
        share: (shown.width * shown.height) / (innerWidth * innerHeight),
        fits: action.scrollWidth <= action.clientWidth && action.scrollHeight <= action.clientHeight,
      },
      targets: targets.map((element) => {
        const { width, height } = element.getBoundingClientRect();
        return { name: name(element) || element.id, width, height };
      }),
      contrasts: contrasts(),
    };

    /**
     * Whether all the ink of a text lies inside a box. The font's own box leaves room for descenders,
     * which digits don't have.
     */
    function lies(text, inside) {
      const range = document.createRange();
      range.selectNodeContents(text);
      const [words, box] = [range.getBoundingClientRect(), inside.getBoundingClientRect()];
      range.selectNodeContents(text.firstChild);
      const pen = document.createElement("canvas").getContext("2d");
      const { fontWeight, fontSize, fontFamily } = getComputedStyle(text);
      pen.font = `${fontWeight} ${fontSize} ${fontFamily}`;
      const ink = pen.measureText(text.firstChild.textContent);
      const baseline = range.getBoundingClientRect().top + ink.fontBoundingBoxAscent;
      const [top, bottom] = [
        baseline - ink.actualBoundingBoxAscent,
        baseline + ink.actualBoundingBoxDescent,
      ];
      const wide = words.left >= box.left && words.right <= box.right;
      return wide && top >= box.top && bottom <= box.bottom;
    }

    /** The lines of a text that are off the screen or under something that isn't its own. */
    function hiddenPartsOf(element, own = element) {
      const range = document.createRange();
      range.selectNodeContents(element);
      const hidden = [];
      for (const line of range.getClientRects()) {
        const points = [0.02, 0.5, 0.98].flatMap((across) =>
          [0.2, 0.5, 0.8].map((down) => [
            line.left + across * line.width,
            line.top + down * line.height,
          ]),
        );
        // The font's box of a text in a box of its own may be higher than that.
        const { top, bottom } = own === element ? line : own.getBoundingClientRect();
        const inside = top >= 0 && bottom <= innerHeight;
        const free = points.every(([x, y]) => own.contains(document.elementFromPoint(x, y)));
        if (!inside || !free) hidden.push(`line from ${line.top | 0} to ${line.bottom | 0} px`);
      }
      return hidden;
    }

    /** The contrast of every text, as WCAG 2.2 defines contrast ratio and relative luminance. */
    function contrasts() {
      const walker = document.createTreeWalker(main, NodeFilter.SHOW_TEXT);
      const found = [];
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const element = node.parentElement;
        if (!node.data.trim() || !isShown(element) || element.closest("dialog, svg")) continue;
        if (element.closest(".visually-hidden, :disabled")) continue;
        const text = colour(getComputedStyle(element).color);
        const ratios = grounds(element).map((ground) => ratio(over(text, ground), ground));
        found.push({ text: node.data.trim().slice(0, 40), ratio: Math.min(...ratios) });
      }
      return found;
    }

    /** Every colour that may lie behind a text: a card's own, and what is drawn on it. */
    function grounds(element) {
      const layers = [];
      for (let up = element; up; up = up.parentElement) {
        const style = getComputedStyle(up);
        if (style.opacity !== "1") throw new Error(`${up.className} is not opaque`);
        const drawn = [...up.querySelectorAll(":scope > svg.tide > [class]")]
          .filter(() => isShown(up.querySelector(":scope > svg.tide")))
          .map((shape) => getComputedStyle(shape).fill)
          .filter((fill) => fill !== "none");
        const own = colour(style.backgroundColor);
        layers.push({ own, drawn: drawn.map(colour) });
        if (own[3] === 1) break;
      }
      let below = [[255, 255, 255, 1]];
      for (const { own, drawn } of layers.reverse()) {
        const ground = below.map((under) => over(own, under));
        below = [...ground, ...drawn.flatMap((one) => ground.map((under) => over(one, under)))];
      }
      return below;
    }

    function colour(text) {
      const parts = text.match(/^rgba?\(([\d., ]+)\)$/);
      if (!parts) throw new Error(`can't read the colour ${text}`);
      const [red, green, blue, alpha = 1] = parts[1].split(",").map(Number);
      return [red, green, blue, alpha];
    }

    function over([red, green, blue, alpha], under) {
      const mix = (top, bottom) => alpha * top + (1 - alpha) * bottom;
      return [mix(red, under[0]), mix(green, under[1]), mix(blue, under[2]), 1];
    }

    function luminance(rgb) {
      const [red, green, blue] = rgb.map((part) => {
        const share = part / 255;
        return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
      });
      return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
    }

    function ratio(one, other) {
      const [dark, light] = [luminance(one), luminance(other)].sort((a, b) => a - b);
      return (light + 0.05) / (dark + 0.05);
    }
  });
}
