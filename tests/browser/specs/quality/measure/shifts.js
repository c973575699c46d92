// Records what moves on the screen without having been touched.

/** To be called before the first page is opened. */
export async function recordShifts(context) {
  await context.addInitScript(() => {
    // The browser excuses what moves within half a second of a touch. A machine that has other
    // things to do may need longer than that for its first picture after the touch, so that the
    // answer itself would count as having moved by itself: the half second begins with that picture.
    const EXCUSED_MS = 500;
    const touches = [];
    let moves = [];

    const touched = (entries) => {
      for (const { startTime, duration } of entries) {
        touches.push({ from: startTime, until: startTime + duration + EXCUSED_MS });
      }
    };
    const moved = (entries) => moves.push(...entries.filter((entry) => !entry.hadRecentInput));

    const touch = new PerformanceObserver((list) => touched(list.getEntries()));
    touch.observe({ type: "event", durationThreshold: 16, buffered: true });
    const shift = new PerformanceObserver((list) => moved(list.getEntries()));
    shift.observe({ type: "layout-shift", buffered: true });

    const answersATouch = ({ startTime }) =>
      touches.some(({ from, until }) => from <= startTime && startTime <= until);
    const told = ({ value, sources }) => {
      const what = sources.map(({ node, previousRect, currentRect }) => {
        const name = node?.nodeType === 1 ? `${node.localName}.${node.className}` : node?.nodeName;
        return `${name}: ${previousRect.y | 0} to ${currentRect.y | 0} px`;
      });
      return `${value.toFixed(4)} ${what.join("; ")}`;
    };
    window.takeShifts = () => {
      touched(touch.takeRecords());
      moved(shift.takeRecords());
      const unasked = moves.filter((entry) => !answersATouch(entry)).map(told);
      moves = [];
      return unasked;
    };
  });
}

/** What has moved since the last time, after the browser has drawn everything. */
export async function shiftsOf(page) {
  // A picture makes the browser draw, whatever the page's clock says.
  await page.screenshot({ clip: { x: 0, y: 0, width: 8, height: 8 } });
  return page.evaluate(() => window.takeShifts());
}
