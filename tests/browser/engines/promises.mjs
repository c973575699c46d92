// Counting promises and saying how each went.
//
// `cargo xtask test` reads the closing line and the exit status.

/** How long anything may take before it counts as broken, in milliseconds. */
export const PATIENCE_MS = 20_000;

/** Counts promises; one that is broken doesn't keep the others from being tried. */
export class Promises {
  passed = 0;
  failed = 0;

  async keep(name, work) {
    const started = performance.now();
    try {
      await work();
      this.passed += 1;
      console.log(`  ok      ${name} (${seconds(started)})`);
    } catch (error) {
      this.failed += 1;
      console.log(`  FAILED  ${name} (${seconds(started)})`);
      console.log(`          ${String(error?.stack ?? error).replaceAll("\n", "\n          ")}`);
    }
  }

  close() {
    console.log(`${this.passed} passed, ${this.failed} failed`);
    process.exitCode = this.failed === 0 ? 0 : 1;
  }
}

function seconds(started) {
  return `${((performance.now() - started) / 1000).toFixed(1)} s`;
}
