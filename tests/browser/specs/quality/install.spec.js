// Promise: a phone can put Oventide on its home screen, and any static host can serve it, in any
// folder.
//
// W3C Web Application Manifest, and what Chromium itself finds wrong with an installation.

import { cp, mkdir, mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { chromium } from "@playwright/test";
import { EXECUTABLE, FLAGS } from "../../support/chromium.js";
import { PHONE } from "../../support/phone.js";
import { DIST } from "../../support/builds.js";
import { expect, test } from "../../support/test.js";
import { App } from "../../pages/app.js";
import { FORMULAS } from "../../pages/formula.js";

async function manifest() {
  return JSON.parse(await readFile(join(DIST, "manifest.webmanifest"), "utf8"));
}

/** Width and height, from the header that every PNG begins with (ISO/IEC 15948, IHDR). */
async function sizeOf(picture) {
  const bytes = await readFile(join(DIST, picture));
  expect(bytes.subarray(1, 4).toString("latin1"), picture).toBe("PNG");
  return `${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`;
}

test("Chromium finds nothing in the way of installing", async ({ server }) => {
  // Nothing is ever installed from a private window, and that is what other tests run in.
  const profile = await mkdtemp(join(tmpdir(), "oventide-profile-"));
  const options = { executablePath: EXECUTABLE, args: FLAGS, ...PHONE };
  const context = await chromium.launchPersistentContext(profile, options);
  const [page] = context.pages();
  await page.goto(server.url);
  const session = await context.newCDPSession(page);
  const { installabilityErrors } = await session.send("Page.getInstallabilityErrors");
  expect(installabilityErrors).toEqual([]);
  const { errors, url } = await session.send("Page.getAppManifest");
  expect(errors).toEqual([]);
  expect(url).toMatch(/manifest\.webmanifest$/);
  const { appId } = await session.send("Page.getAppId");
  expect(new URL(appId).pathname).toBe((await manifest()).id);
  await context.close();
  await rm(profile, { recursive: true });
});

test("the manifest's pictures are what it says they are", async () => {
  const { icons, screenshots } = await manifest();
  for (const { src, sizes } of [...icons, ...screenshots]) {
    expect(await sizeOf(src), src).toBe(sizes);
  }
  const of = (purpose) => icons.filter((icon) => icon.purpose === purpose);
  expect(of("any").map(({ sizes }) => sizes)).toEqual(["192x192", "512x512"]);
  expect(of("maskable").map(({ sizes }) => sizes)).toEqual(["512x512"]);
  const forms = screenshots.map((picture) => picture.form_factor);
  expect(new Set(forms)).toEqual(new Set(["narrow", "wide"]));
  for (const { label } of screenshots) expect(label).toBeTruthy();
});

test("each shortcut leads to its page", async ({ app, page }) => {
  const { shortcuts } = await manifest();
  expect(shortcuts.length).toBeGreaterThan(0);
  await app.open();
  for (const { name, url } of shortcuts) {
    const place = new URL(url, page.url());
    expect(place.pathname).toBe("/");
    await app.open(place.hash);
    await expect(page).toHaveTitle(new RegExp(`^${name} `));
  }
});

test("an iPhone finds its name and its icon", async ({ app, page }) => {
  await app.open();
  const head = page.locator("head");
  const content = (name) => head.locator(`meta[name="${name}"]`).getAttribute("content");
  expect(await content("apple-mobile-web-app-title")).toBe("Oventide");
  expect(await content("apple-mobile-web-app-capable")).toBe("yes");
  expect(await content("viewport")).toContain("viewport-fit=cover");
  expect(await content("viewport")).not.toMatch(/user-scalable|maximum-scale/);
  const icon = await head.locator('link[rel="apple-touch-icon"]').getAttribute("href");
  expect(await sizeOf(icon)).toBe("180x180");
});

test("the page carries its policy and nothing that the policy would stop", async () => {
  const page = await readFile(join(DIST, "index.html"), "utf8");
  const [, policy] = page.match(/http-equiv="Content-Security-Policy" content="([^"]+)"/);
  expect(policy).toContain("default-src 'self'");
  expect(policy).toContain("script-src 'self' 'wasm-unsafe-eval'");
  expect(policy).not.toMatch(/unsafe-inline|'unsafe-eval'|https?:|\*/);
  const scripts = page.match(/<script\b[^>]*>/g);
  for (const script of scripts) expect(script).toMatch(/\ssrc=/);
  expect(page).not.toMatch(/<style\b|\sstyle=|\son\w+=|javascript:/i);
});

test("it works from a folder of a static host, with the network gone too", async ({ page, clock, server }) => {
  const host = await mkdtemp(join(tmpdir(), "oventide-host-"));
  const folder = join(host, "kitchen/oventide");
  await mkdir(join(host, "kitchen"));
  await cp(DIST, folder, { recursive: true });
  // The host's own front page; this server reads the policy from it.
  await cp(join(DIST, "index.html"), join(host, "index.html"));
  server.serve(host);
  const app = new App(page, clock, `${server.url}/kitchen/oventide`);
  await app.install();
  const outside = server.requests.filter((path) => !path.startsWith("/kitchen/oventide/"));
  expect(outside).toEqual([]);
  await server.stop();
  await app.reload();
  await app.formula.bake(FORMULAS.buns);
  await expect(app.bench.instruction).toHaveText(/Weigh everything/);
  await app.reload();
  await expect(app.bench.instruction).toHaveText(/Weigh everything/);
  await rm(host, { recursive: true });
});
