// A static host that sends what it has as small as it can, as the better ones do.

import { readFileSync, readdirSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join } from "node:path";
import { brotliCompressSync, constants } from "node:zlib";

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".webmanifest": "application/manifest+json",
  ".wasm": "application/wasm",
  ".svg": "image/svg+xml",
};

/** Serves a folder, all of it packed beforehand, so that packing costs no visit any time. */
export async function serveSmall(folder) {
  const files = new Map();
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile()) continue;
    const path = join(entry.parentPath, entry.name);
    files.set(path.slice(folder.length), answerOf(path));
  }
  const listener = createServer(({ url }, response) => {
    const { pathname } = new URL(url, "http://localhost");
    const found = files.get(pathname === "/" ? "/index.html" : pathname);
    if (!found) return response.writeHead(404).end();
    response.writeHead(200, found.headers).end(found.body);
  });
  await new Promise((listening) => listener.listen(0, "127.0.0.1", listening));
  return {
    url: `http://localhost:${listener.address().port}/`,
    stop() {
      const closed = new Promise((done) => listener.close(done));
      listener.closeAllConnections();
      return closed;
    },
  };
}

function answerOf(path) {
  const content = readFileSync(path);
  const type = TYPES[extname(path)];
  if (!type) return { body: content, headers: { "content-type": "image/png" } };
  const best = { params: { [constants.BROTLI_PARAM_QUALITY]: constants.BROTLI_MAX_QUALITY } };
  return {
    body: brotliCompressSync(content, best),
    headers: { "content-type": type, "content-encoding": "br", "cache-control": "no-cache" },
  };
}
