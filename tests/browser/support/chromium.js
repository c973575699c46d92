// Which browser, and how it is started.

export const EXECUTABLE = process.env.OVENTIDE_CHROMIUM ?? "/usr/bin/chromium";

/** The same engine of the same version without the browser round it, which does the same in two thirds of the time. */
export const SHELL = process.env.OVENTIDE_CHROMIUM_SHELL ?? EXECUTABLE;

/** What Playwright 1.65 turns off itself: a second list takes the place of the first, so its names stand here as well. */
const OFF_ANYWAY = [
  "AvoidUnnecessaryBeforeUnloadCheckSync",
  "DestroyProfileOnBrowserClose",
  "HttpsUpgrades",
  "HttpsFirstBalancedModeAutoEnable",
  "LensOverlay",
  "MediaRouter",
  "PaintHolding",
  "ThirdPartyStoragePartitioning",
  "AvoidCorsURLLoaderRestartOnRedirect",
  "OptimizationHints",
  "NetworkTimeServiceQuerying",
  "AimEnabled",
  "PreconnectToSearch",
];

/**
 * What the address bar suggests is two web pages of the browser's own, which every new window loads in a process
 * beside ours: a fifth of all the work of a short spec, for a bar that nobody sees.
 */
const ADDRESS_BAR = ["WebUIOmniboxPopup", "WebUIOmniboxAimPopup"];

export const FLAGS = [
  // Chromium's sandbox can't be set up by root, and CI machines often have no other user.
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
  `--disable-features=${[...OFF_ANYWAY, ...ADDRESS_BAR]}`,
  // No name but this machine's can be found, so that nothing leaves it even by mistake.
  "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE localhost",
];
