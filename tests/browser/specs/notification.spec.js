// Notifications: an alarm of a page that nobody sees.

import { FORMULAS } from "../pages/formula.js";
import { MINUTE, SECOND } from "../support/clock.js";
import { notifications, setHidden } from "../support/senses.js";
import { expect, test } from "../support/test.js";

test("a hidden page shows a notification through its service worker", async ({
  app,
  baseURL,
  context,
  page,
}) => {
  test.setTimeout(120_000);
  await context.grantPermissions(["notifications"], { origin: baseURL });
  await page.addInitScript(() => {
    window.notified = [];
    const { showNotification } = ServiceWorkerRegistration.prototype;
    ServiceWorkerRegistration.prototype.showNotification = function (title, options) {
      window.notified.push(options);
      return showNotification.call(this, title, options);
    };
  });
  await app.install();
  await startNotifications(page);
  await app.formula.bake(FORMULAS.buns);
  await app.bench.setTimer("Tea", 10);
  await setHidden(page, true);
  await app.clock.pass(10 * MINUTE - SECOND);
  expect(await notifications(page)).toEqual([]);
  await app.clock.pass(SECOND);
  await expect
    .poll(() => notifications(page), { timeout: 30_000 })
    .toEqual([{ title: "Tea", body: "The time you set is up." }]);

  await test.step("again as it gets later, but not all the time", async () => {
    const times = () => page.evaluate(() => window.notified.length);
    await app.clock.pass(59 * SECOND);
    expect(await times()).toBe(1);
    await app.clock.pass(30 * SECOND);
    await expect
      .poll(() => notifications(page))
      .toEqual([{ title: "Tea", body: "The time you set is up. Overdue by 1\u00a0min: due at 09:10." }]);
    await app.clock.pass(9 * MINUTE);
    await expect.poll(times).toBe(5);
    // Without it, one that takes another's place makes no sound.
    expect(await page.evaluate(() => window.notified.every(({ renotify }) => renotify))).toBe(true);
  });

  await setHidden(page, false);
  await app.alarm.stop();
  await expect.poll(() => notifications(page)).toEqual([]);
});

test("a page that is seen shows no notification", async ({ app, baseURL, context, page }) => {
  await context.grantPermissions(["notifications"], { origin: baseURL });
  await app.install();
  await app.formula.bake(FORMULAS.buns);
  await app.bench.setTimer("Tea", 10);
  await app.clock.pass(10 * MINUTE);
  await expect(app.alarm.dialog).toBeVisible();
  await app.alarm.stop();
  expect(await notifications(page)).toEqual([]);
});

/** The browser's own service for notifications starts with its first one, slowly, and can lose that one. */
async function startNotifications(page) {
  const shown = () =>
    page.evaluate(async () => {
      const registration = await navigator.serviceWorker.ready;
      await registration.showNotification("A first one", { tag: "first" });
      const first = await registration.getNotifications({ tag: "first" });
      for (const one of first) one.close();
      return first.length;
    });
  await expect.poll(shown, { timeout: 60_000 }).toBe(1);
  await page.evaluate(() => {
    window.notified = [];
  });
}
