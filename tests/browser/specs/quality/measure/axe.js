// What axe-core finds on the page.

import AxeBuilder from "@axe-core/playwright";

/** WCAG 2.2 AA, and its best practices. */
export const RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"];

/** What is against some rules, each with where it is. */
export async function findings({ page, clock }, choose) {
  // What scrolls by under the main action counts as covered there; at the end nothing lies under it.
  await page.evaluate(() => {
    for (const one of [document.querySelector(".asked"), document.scrollingElement]) {
      one?.scrollTo(0, one.scrollHeight);
    }
  });
  let isDone = false;
  // There are no frames of other origins, for whose sake axe would open a tab for each analysis.
  const analysis = choose(new AxeBuilder({ page }).setLegacyMode()).analyze();
  const done = analysis.finally(() => (isDone = true));
  // Axe waits for timers, and they stand still with the rest of the page's time.
  while (!isDone) await Promise.race([done, clock.pass(10)]);
  const { violations } = await done;
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" | ")}`);
}
