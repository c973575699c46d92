// Runs the specs on the release build in `dist`, in Debian's Chromium, with its windows or without, at phone size.

import { defineConfig } from "@playwright/test";
import { EXECUTABLE, FLAGS, SHELL } from "./support/chromium.js";
import { PHONE } from "./support/phone.js";

/**
 * What the browser round the engine has a hand in: sound, notifications, a screen that is kept on and the line where it
 * can't be, the tab in sight, installing; and its font.
 */
const WHOLE_BROWSER = [
  "**/alarm*.spec.js",
  "**/notification.spec.js",
  "**/awake.spec.js",
  "**/quality/{install,large-text,screenshots,several}.spec.js",
];
const BUDGETS = "**/budgets.spec.js";

export default defineConfig({
  testDir: "specs",
  globalSetup: "./support/points.js",
  // Not `results` itself: Playwright empties this folder, and the report lies beside it.
  outputDir: "results/artifacts",
  reporter: [["list"], ["./support/summary.js"]],
  // A test that passes at the second try has failed once.
  retries: 0,
  // Each test has its own server and its own browser context, so they don't meet.
  fullyParallel: true,
  workers: 2,
  forbidOnly: true,
  timeout: 60_000,
  expect: { timeout: 5_000 },
  use: {
    ...PHONE,
    launchOptions: { executablePath: EXECUTABLE, args: FLAGS },
    actionTimeout: 5_000,
    screenshot: "only-on-failure",
  },
  projects: [
    {
      name: "promises",
      testIgnore: [BUDGETS, ...WHOLE_BROWSER],
      use: { launchOptions: { executablePath: SHELL, args: FLAGS } },
    },
    { name: "whole-browser", testMatch: WHOLE_BROWSER, testIgnore: BUDGETS },
    // Times are measured with nothing else running: `--project=budgets`, after the others.
    {
      name: "budgets",
      testMatch: BUDGETS,
      fullyParallel: false,
      workers: 1,
      outputDir: "results/budgets",
    },
  ],
});
