/** Lists the tests a run skipped; in CI a skip that is not on test/allowed-skips.txt is a failure. */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, say } from './ready.mjs';

/**
 * Prints the skips of a Vitest JSON report and a closing line of counts.
 * @returns {boolean} false when `enforce` is set and a skip is not allowed, or no test ran
 */
export function reportSkips(resultsFile, { enforce }) {
  if (!existsSync(resultsFile)) return !enforce;
  const report = JSON.parse(readFileSync(resultsFile, 'utf8'));
  const tests = report.testResults.flatMap((file) => file.assertionResults);
  const count = (...states) => tests.filter((test) => states.includes(test.status)).length;
  const skipped = tests.filter((test) => ['pending', 'skipped', 'todo', 'disabled'].includes(test.status));
  const allowed = allowList();
  for (const test of skipped) {
    const known = allowed.some((start) => test.fullName.trim().startsWith(start));
    say(`skipped${known ? '' : ' (not on the allow-list)'}: ${test.fullName}`);
  }
  const strangers = skipped.filter(
    (test) => !allowed.some((start) => test.fullName.trim().startsWith(start)),
  );
  process.stdout.write(`${count('passed')} passed, ${count('failed')} failed, ${skipped.length} skipped\n`);
  return !enforce || (strangers.length === 0 && count('passed') > 0);
}

function allowList() {
  return readFileSync(join(root, 'test/allowed-skips.txt'), 'utf8')
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '' && !line.startsWith('#'));
}
