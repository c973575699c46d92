// The phone that leans against the flour jar.

/** What every browser context is made with. */
export const PHONE = {
  viewport: { width: 390, height: 844 },
  deviceScaleFactor: 2,
  hasTouch: true,
  isMobile: true,
  locale: "en-GB",
  timezoneId: "Europe/London",
};

/** When every test begins: a Saturday morning at nine, as its time zone says. */
export const START = new Date("2026-11-28T09:00:00Z");
