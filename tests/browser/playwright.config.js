// Runs the specs on the release build in `dist`, in Debian's Chromium, at phone size.

import { defineConfig } from "@playwright/test";
import { EXECUTABLE, FLAGS } from "./support/chromium.js";
import { PHONE } from "./support/phone.js";

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
    { name: "promises", testIgnore: "**/budgets.spec.js" },
    // Times are measured with nothing else running: `--project=budgets`, after the others.
    {
      name: "budgets",
      testMatch: "**/budgets.spec.js",
      fullyParallel: false,
      workers: 1,
      outputDir: "results/budgets",
    },
  ],
});
