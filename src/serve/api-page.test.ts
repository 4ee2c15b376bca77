import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { apiPage } from './api-page.ts';
import { openWebBench } from './testing/web-bench.ts';

test('docs/api.md is what the calls of today generate (else run scripts/api-docs.mjs after a build)', async () => {
  const bench = await openWebBench();
  const page = apiPage(bench.app.swagger());
  await bench.close();
  expect(await readFile(join(import.meta.dirname, '../../docs/api.md'), 'utf8')).toBe(page);
});

test('the page names every call, its values and its answers, and leads to each shape', async () => {
  const bench = await openWebBench();
  const page = apiPage(bench.app.swagger());
  await bench.close();
  expect(page).toContain('### `PATCH /api/v1/frames/{id}`');
  expect(page).toContain('| `limit` | query | integer 1 to 500; 100 where it is left out |');
  expect(page).not.toMatch(/undefined|\[object/);
  const links = [...page.matchAll(/\]\(#([a-z]+)\)/g)].map((match) => match[1]);
  expect(links.length).toBeGreaterThan(10);
  for (const link of links) expect(page.toLowerCase()).toContain(`\n### ${link}\n`);
});
