// Records what moves on the screen without having been touched.

/** To be called before the first page is opened. */
export async function recordShifts(context) {
  await context.addInitScript(() => {
    const shifts = [];
    const read = (entries) => {
      for (const entry of entries) {
        // The browser excuses what moves within half a second of a touch.
        if (entry.hadRecentInput) continue;
        const moved = entry.sources.map(({ node, previousRect, currentRect }) => {
          const name = node?.nodeType === 1 ? `${node.localName}.${node.className}` : node?.nodeName;
          return `${name}: ${previousRect.y | 0} to ${currentRect.y | 0} px`;
        });
        shifts.push(`${entry.value.toFixed(4)} ${moved.join("; ")}`);
      }
    };
    const observer = new PerformanceObserver((list) => read(list.getEntries()));
    observer.observe({ type: "layout-shift", buffered: true });
    window.takeShifts = () => {
      read(observer.takeRecords());
      return shifts.splice(0);
    };
  });
}

/** What has moved since the last time, after the browser has drawn everything. */
export async function shiftsOf(page) {
  // A picture makes the browser draw, whatever the page's clock says.
  await page.screenshot({ clip: { x: 0, y: 0, width: 8, height: 8 } });
  return page.evaluate(() => window.takeShifts());
}
