// Closes a run with one line, whatever the other reporters print.

export default class Summary {
  #passed = 0;
  #failed = [];

  onTestEnd(test, result) {
    // What did not run has not passed.
    if (result.status === "passed" && test.expectedStatus === "passed") this.#passed += 1;
    else this.#failed.push(test.titlePath().filter(Boolean).join(" › "));
  }

  onEnd() {
    for (const title of this.#failed) console.log(`FAILED  ${title}`);
    console.log(`${this.#passed} passed, ${this.#failed.length} failed`);
  }
}
