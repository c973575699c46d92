// A static host for one folder, as plain as the ones the app is meant for: right media types, the
// page's policy as a header, and nothing else. It can go away, come back on the same port, and
// hold another build from then on.

import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";

const MEDIA_TYPES = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".webmanifest": "application/manifest+json",
  ".wasm": "application/wasm",
  ".svg": "image/svg+xml",
  ".png": "image/png",
};

/** These names stay the same from build to build, so the browser has to ask each time. */
const LASTING = /(^|\/)(index\.html|sw\.js|manifest\.webmanifest)$/;

export class Server {
  /** Every path that was asked for, in order. */
  requests = [];
  #folder;
  #port = 0;
  #listener = null;

  /** Serves a folder on a free port. */
  static async start(folder) {
    const server = new Server();
    server.#folder = folder;
    await server.restart();
    return server;
  }

  /** The origin it serves; `localhost` counts as secure, so service workers run there. */
  get url() {
    return `http://localhost:${this.#port}`;
  }

  /** Holds another build from now on. */
  serve(folder) {
    this.#folder = folder;
  }

  /** Listens again, on the port it had before. */
  async restart() {
    const listener = createServer((request, response) => this.#answer(request, response));
    await new Promise((listening, failed) => {
      listener.once("error", failed);
      listener.listen(this.#port, "127.0.0.1", listening);
    });
    this.#port = listener.address().port;
    this.#listener = listener;
  }

  /** Goes away, with every connection that is open. */
  async stop() {
    const listener = this.#listener;
    if (!listener) return;
    this.#listener = null;
    await new Promise((closed) => {
      listener.close(closed);
      listener.closeAllConnections();
    });
  }

  async #answer(request, response) {
    const { pathname } = new URL(request.url, "http://localhost");
    this.requests.push(pathname);
    const name = pathname.endsWith("/") ? `${pathname}index.html` : pathname;
    const path = join(this.#folder, normalize(decodeURIComponent(name)));
    const content = await readFile(path).catch(() => null);
    if (content === null) {
      response.writeHead(404, { "content-type": "text/plain" }).end("not here");
      return;
    }
    response.writeHead(200, {
      "content-type": MEDIA_TYPES[extname(path)] ?? "application/octet-stream",
      "cache-control": LASTING.test(path) ? "no-cache" : "public, max-age=31536000, immutable",
      "content-security-policy": await this.#policy(),
      "x-content-type-options": "nosniff",
    });
    response.end(content);
  }

  /** The policy that the page itself carries, and what only a header can forbid. */
  async #policy() {
    const page = await readFile(join(this.#folder, "index.html"), "utf8");
    const [, policy] = page.match(/http-equiv="Content-Security-Policy" content="([^"]+)"/) ?? [];
    if (!policy) throw new Error("the built page carries no policy");
    return `${policy}; frame-ancestors 'none'`;
  }
}
