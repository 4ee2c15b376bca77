/** Runs the few test files that failed beside everything else once more, alone. */
import { existsSync, readFileSync } from 'node:fs';
import { relative } from 'node:path';
import { root, say } from './ready.mjs';

/** More files than this do not fail because the machine was busy. */
const mostFiles = 4;

/**
 * A run of hours of real processes on a small machine can fail one file for want of processor time. Such a file is run again
 * with the machine to itself: what fails there too is broken. What passes there is still named, as a race to be mended.
 * @param {string} resultsFile of the run that failed, in Vitest's JSON
 * @param {(files: string[]) => number | null} runAlone the exit code of a run of these files
 * @returns {boolean} whether all that failed passes alone
 */
export function passesAlone(resultsFile, runAlone) {
  if (!existsSync(resultsFile)) return false;
  const { testResults } = JSON.parse(readFileSync(resultsFile, 'utf8'));
  const failed = testResults.filter(({ status }) => status === 'failed');
  if (failed.length === 0 || failed.length > mostFiles) return false;
  say(`Once more, alone: ${failed.length} of ${testResults.length} files …`);
  if (runAlone(failed.map(({ name }) => relative(root, name))) !== 0) return false;
  for (const { name, assertionResults } of failed)
    for (const test of assertionResults.filter(({ status }) => status === 'failed'))
      say(`failed beside the others, passed alone: ${relative(root, name)}: ${test.fullName}`);
  return true;
}
