// Watches a browser context for what must never happen: an error on the console, an exception
// nobody caught, a request to another origin.

import { expect } from "@playwright/test";

export class Watch {
  #origin;
  #foreign = [];
  #unanswered = [];
  #errors = [];
  #allowed = [];

  constructor(context, origin) {
    this.#origin = origin;
    context.on("request", (request) => this.#see(request));
    context.on("requestfailed", (request) => this.#unanswered.push(request.url()));
    context.on("console", (message) => {
      if (message.type() === "error") this.#errors.push(message.text());
    });
    context.on("weberror", (error) => this.#errors.push(String(error.error())));
  }

  /** An error that the test brings about on purpose. */
  allow(pattern) {
    this.#allowed.push(pattern);
  }

  /** Requests that nobody answered: neither the network nor the service worker. */
  get unanswered() {
    return this.#unanswered;
  }

  /** To be called at the end of every test. */
  check() {
    const errors = this.#errors.filter((text) => !this.#allowed.some((known) => known.test(text)));
    expect(errors, "errors on the console").toEqual([]);
    expect(this.#foreign, "requests to another origin").toEqual([]);
  }

  #see(request) {
    const url = new URL(request.url());
    const inside = ["blob:", "data:"].includes(url.protocol);
    if (!inside && url.origin !== this.#origin) this.#foreign.push(request.url());
  }
}
