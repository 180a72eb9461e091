// Leaves the number of passed, failed and skipped tests in the file that RAKELIGHT_COUNTS names.
import { writeFileSync } from 'node:fs';

export default class CountReporter {
  onTestRunEnd(modules, unhandled) {
    const counts = { passed: 0, failed: unhandled.length, skipped: 0 };
    for (const module of modules) {
      for (const test of module.children.allTests()) {
        const state = test.result().state;
        counts[state === 'passed' || state === 'failed' ? state : 'skipped'] += 1;
      }
      // A file that cannot be loaded, or whose hooks failed, has no failed test to show for it.
      if (!module.ok() && countFailed(module) === 0) counts.failed += 1;
    }
    if (process.env.RAKELIGHT_COUNTS) writeFileSync(process.env.RAKELIGHT_COUNTS, JSON.stringify(counts));
  }
}

function countFailed(module) {
  return [...module.children.allTests('failed')].length;
}
