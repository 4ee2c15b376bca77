import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { metadataSheetSchema, specificationSchema } from '../../src/deliver/index.ts';
import { knownCodes } from '../../src/words/index.ts';

const root = join(import.meta.dirname, '../..');

/** docs/delivery.schema.json is written from the code: `npx vitest run test/architecture/delivery-schema.test.ts -u`. */
test('docs/delivery.schema.json is the schema that specifications are read with', async () => {
  const schema = z.toJSONSchema(specificationSchema, { io: 'input', target: 'draft-2020-12' });
  const whole = {
    ...schema,
    title: 'Delivery specification',
    description:
      'What is handed over and how, version 1. Parts that are left out have the values given as default.',
  };
  await expect(`${JSON.stringify(whole, null, 2)}\n`).toMatchFileSnapshot(
    join(root, 'docs/delivery.schema.json'),
  );
});

test('docs/metadata.schema.json is the schema that metadata is read with', async () => {
  const schema = z.toJSONSchema(metadataSheetSchema, { io: 'input', target: 'draft-2020-12' });
  const whole = {
    ...schema,
    title: 'Metadata of a job’s pictures',
    description:
      'What is written into the files of a delivery, version 1. Texts may hold {client}, {job}, {title}, {place}, {shot}, {description}, {name}, {date} and {year}.',
  };
  await expect(`${JSON.stringify(whole, null, 2)}\n`).toMatchFileSnapshot(
    join(root, 'docs/metadata.schema.json'),
  );
});

test('every finding of the room deliver has a sentence, and every such sentence is said', () => {
  const folders = ['src/deliver', 'src/station/deliveries', 'src/serve/routes', 'src/workers'].map((name) =>
    join(root, name),
  );
  const said = folders
    .flatMap((folder) => readdirSync(folder).map((name) => join(folder, name)))
    .filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
    .flatMap((name) => [...readFileSync(name, 'utf8').matchAll(/'(deliver\.[a-z-]+)'/g)])
    .map(([, code = '']) => code);
  const known = knownCodes().filter((code) => code.startsWith('deliver.'));
  expect([...new Set(said)].sort()).toEqual([...known].sort());
});
