// What the browser itself says of an app's service workers, asked from a tab that is none of its pages.

import { expect } from "@playwright/test";

/**
 * Closes the app's last page, and waits until the version that waited behind it is in charge.
 *
 * A closed page counts as open for some hundredths of a second more. A page that opens within those
 * still gets the old worker, and the newer one goes on waiting: which of the two it will be, no browser promises.
 */
export async function closeLast(page) {
  const context = page.context();
  const beside = await context.newPage();
  const session = await context.newCDPSession(beside);
  const states = new Map();
  session.on("ServiceWorker.workerVersionUpdated", ({ versions }) => {
    for (const { versionId, status } of versions) states.set(versionId, status);
  });
  await session.send("ServiceWorker.enable");
  const inState = (state) => [...states.values()].filter((one) => one === state).length;
  await expect.poll(() => inState("installed"), "versions that wait").toBe(1);
  await page.close();
  await expect
    .poll(() => [inState("installed"), inState("activated")], "versions that wait, and in charge")
    .toEqual([0, 1]);
  await beside.close();
}
