import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';

const root = join(import.meta.dirname, '../..');
const decisions = readdirSync(join(root, 'docs/decisions')).filter((name) => /^\d{4}-/.test(name));

function filesIn(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((name) => /\.(ts|tsx|md|mjs)$/.test(name))
    .map((name) => join(folder, name));
}

/** What comments point at, as `0008, day 31` or `0005-listen-everywhere`. */
const pointers = ['src', 'test', 'docs', 'bench'].flatMap((folder) =>
  filesIn(folder).flatMap((file) =>
    [
      ...readFileSync(join(root, file), 'utf8').matchAll(
        /[Dd]ecision (\d{4})(?:, (keeping|doors|measuring|testing|day) (\d+))?/g,
      ),
    ].map(([text, number = '', part, point]) => ({ file, text, number, part, point })),
  ),
);

test('every decision that a comment points at is there, and has the point', () => {
  expect(pointers.length).toBeGreaterThan(5);
  for (const { file, text, number, part, point } of pointers) {
    const page = decisions.find((name) => name.startsWith(`${number}-`));
    expect(page, `${file}: ${text}`).toBeDefined();
    if (part === undefined) continue;
    const body = readFileSync(join(root, 'docs/decisions', page ?? ''), 'utf8');
    expect(body.toLowerCase(), `${file}: ${text}`).toContain(`**${part} ${point}.**`);
  }
});

test('each decision has a number of its own, which its title says too', () => {
  const numbers = decisions.map((name) => name.slice(0, 4));
  expect(numbers).toEqual(numbers.map((_, index) => String(index + 1).padStart(4, '0')));
  for (const name of decisions) {
    const title = readFileSync(join(root, 'docs/decisions', name), 'utf8').split('\n', 1)[0];
    expect(title, name).toMatch(new RegExp(`^# ${Number(name.slice(0, 4))}\\. `));
  }
});

test('no comment points at a page that is not part of the repository', () => {
  const strayed = ['src', 'test'].flatMap((folder) =>
    filesIn(folder).filter(
      (file) =>
        !file.endsWith('decisions.test.ts') &&
        /`?\b(?:decisions|contract)\.md\b|\(decisions\b/.test(readFileSync(join(root, file), 'utf8')),
    ),
  );
  expect(strayed).toEqual([]);
});
