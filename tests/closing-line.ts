import type { Reporter, TestModule } from 'vitest/node';

/** Prints "N passed, N failed" as the last line, with what was skipped named above it. */
export default class ClosingLine implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
    const count = { passed: 0, failed: 0, skipped: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'passed' || state === 'failed' || state === 'skipped') count[state]++;
        if (state === 'skipped') console.log(`skipped: ${test.fullName}`);
      }
      // A file that cannot even be loaded holds no tests and is a failure all the same.
      if (module.state() === 'failed' && [...module.children.allTests('failed')].length === 0) count.failed++;
    }
    count.failed += unhandledErrors.length;
    const skipped = count.skipped > 0 ? `, ${count.skipped} skipped` : '';
    console.log(`\n${count.passed} passed, ${count.failed} failed${skipped}`);
  }
}
