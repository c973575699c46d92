// The build under test, and a second one for the tests of updating.

import { cp, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { existsSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

/** The release build, or another that is to be tested in its place. */
export const DIST =
  process.env.OVENTIDE_DIST ?? fileURLToPath(new URL("../../../dist", import.meta.url));

if (!existsSync(join(DIST, "index.html"))) {
  throw new Error("dist holds no built app; run `cargo xtask build` first");
}

/**
 * A build that differs from the release in its page and in its service worker's version, as a
 * newer release would. Its page says so in `<meta name="build">`.
 */
export async function newerBuild() {
  const folder = await mkdtemp(join(tmpdir(), "oventide-newer-"));
  await cp(DIST, folder, { recursive: true });
  await change(join(folder, "index.html"), "<title>", '<meta name="build" content="newer"><title>');
  await change(join(folder, "sw.js"), /const VERSION = "[^"]+"/, 'const VERSION = "newer"');
  return { folder, remove: () => rm(folder, { recursive: true }) };
}

async function change(path, from, to) {
  const before = await readFile(path, "utf8");
  const after = before.replace(from, to);
  if (after === before) throw new Error(`nothing to change in ${path}`);
  await writeFile(path, after);
}
