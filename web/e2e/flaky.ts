import type { FullResult, Reporter, TestCase } from '@playwright/test/reporter';

/** Says at the end, in a line each, which tests needed another go: right in the end, and to be mended all the same. */
export default class Flaky implements Reporter {
  #tests = new Set<TestCase>();

  onTestEnd(test: TestCase): void {
    this.#tests.add(test);
  }

  onEnd(_result: FullResult): void {
    for (const test of this.#tests) {
      if (test.outcome() === 'flaky') console.log(`FLAKY: ${test.titlePath().filter(Boolean).join(' › ')}`);
    }
  }

  printsToStdio(): boolean {
    return false;
  }
}
