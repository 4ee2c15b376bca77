import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { lensDescription, lensStepsOf } from '../../src/contract/index.ts';

/** docs/lens.schema.json is written from the code: `npx vitest run test/architecture/lens-schema.test.ts -u`. */
test('docs/lens.schema.json is the schema that descriptions of a lens are read with', async () => {
  const schema = z.toJSONSchema(lensDescription, { io: 'input', target: 'draft-2020-12' });
  const whole = {
    ...schema,
    title: 'Lens',
    description: 'Corrections of a lens by hand, for setside develop --lens.',
  };
  await expect(`${JSON.stringify(whole, null, 2)}\n`).toMatchFileSnapshot(
    join(import.meta.dirname, '../../docs/lens.schema.json'),
  );
});

test('the lens that docs/rendering.md shows is one, and does something', () => {
  const page = readFileSync(join(import.meta.dirname, '../../docs/rendering.md'), 'utf8');
  const [, example = ''] = /```json\n(.*?)```/s.exec(page) ?? [];
  expect(lensStepsOf(lensDescription.parse(JSON.parse(example)))).toHaveLength(2);
});
