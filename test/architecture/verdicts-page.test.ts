import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { toleranceNames, toleranceUnits } from '../../src/facts/index.ts';
import { usualTolerances } from '../../src/judge/index.ts';
import { questionNames, toleranceWords } from '../../src/words/index.ts';

const root = join(import.meta.dirname, '../..');
const page = readFileSync(join(root, 'docs/verdicts.md'), 'utf8');

test('the page of the verdicts has every limit with its figures, unit and question', () => {
  const usual: Readonly<Record<string, { good: number; bad: number } | undefined>> = usualTolerances;
  for (const name of toleranceNames) {
    const limits = usual[name];
    if (limits === undefined) expect(page, name).toContain(`\`${name}\``);
    else
      expect(page).toContain(
        `| \`${name}\` | ${toleranceUnits[name]} | ${limits.good} | ${limits.bad} | ${questionNames[toleranceWords[name].question]} |`,
      );
  }
});

test('every test that the page names is there', () => {
  const named = [...page.matchAll(/`((?:src|test)\/[\w./-]+\.ts)`/g)].map(([, path]) => path);
  expect(named.length).toBeGreaterThan(12);
  for (const path of named) expect(existsSync(join(root, path)), path).toBe(true);
});
