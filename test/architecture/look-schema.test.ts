import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { lookSchema, parameters, readLookText } from '../../src/look/index.ts';
import { knownCodes, parameterWords, unitWords } from '../../src/words/index.ts';

/**
 * docs/look.schema.json is written from the code: `npx vitest run test/architecture/look-schema.test.ts -u`. It says what
 * may be written, so that what may be left out is not required.
 */
const published = join(import.meta.dirname, '../../docs/look.schema.json');

test('docs/look.schema.json is the schema that looks are read with', async () => {
  const schema = z.toJSONSchema(lookSchema, {
    io: 'input',
    target: 'draft-2020-12',
    override: ({ jsonSchema }) => {
      const { parameter } = jsonSchema;
      if (typeof parameter !== 'string') return;
      delete jsonSchema.parameter;
      jsonSchema.title = parameterWords[parameter]?.name ?? parameter;
      jsonSchema.description = parameterWords[parameter]?.about ?? '';
    },
  });
  const whole = {
    ...schema,
    title: 'Look',
    description:
      'The recipe of tone and colour of Setside, version 2. Parts that are left out are neutral. Light takes the parts in the order in which they stand here.',
  };
  await expect(`${JSON.stringify(whole, null, 2)}\n`).toMatchFileSnapshot(published);
});

test('docs/looks.md has every parameter with its range, as the code has it', async () => {
  const rows = Object.entries(parameters).map(([name, { unit, min, max, neutral, start }]) => {
    const range = `${min} … ${max}${unitWords[unit] === '' ? '' : ` ${unitWords[unit]}`}`;
    const { about } = parameterWords[name] ?? { about: '' };
    return `| \`${name}\` | ${range} | ${neutral ?? '-'} | ${start} | ${about} |`;
  });
  const page = readFileSync(join(import.meta.dirname, 'looks-page-head.md'), 'utf8');
  const table = [
    '| member | range | neutral | start | what it does |',
    '| --- | --- | --- | --- | --- |',
    ...rows,
  ];
  await expect(`${page}\n${table.join('\n')}\n`).toMatchFileSnapshot(
    join(import.meta.dirname, '../../docs/looks.md'),
  );
});

test('the look that docs/looks.md shows is one', () => {
  const page = readFileSync(join(import.meta.dirname, '../../docs/looks.md'), 'utf8');
  const [, example = ''] = /```json\n(.*?)```/s.exec(page) ?? [];
  expect(readLookText(example).look).not.toBeNull();
});

test('every parameter has a name and a sentence of its own, and every sentence a parameter', () => {
  expect(Object.keys(parameterWords).sort()).toEqual(Object.keys(parameters).sort());
  for (const { name, about } of Object.values(parameterWords)) {
    expect(name).toMatch(/^[A-Z]/);
    expect(about).toMatch(/^[A-Z].{20,}\.$/);
  }
});

test('every parameter can be drawn as a knob: its start and its neutral value lie in its range, its unit has a word', () => {
  for (const [name, { unit, min, max, neutral, start, step }] of Object.entries(parameters)) {
    expect(unitWords[unit], name).toBeDefined();
    expect(min < max && step > 0 && step <= (max - min) / 4, name).toBe(true);
    for (const value of [start, neutral ?? start]) expect(value >= min && value <= max, name).toBe(true);
  }
});

test('every finding of the room look and of its command has a sentence, and every such sentence is said by one of them', () => {
  const src = join(import.meta.dirname, '../../src');
  const said = ['look', 'cli'].flatMap((room) =>
    readdirSync(join(src, room), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts'))
      .flatMap((name) => [...readFileSync(join(src, room, name), 'utf8').matchAll(/'(look\.[a-z0-9-]+)'/g)])
      .map(([, code = '']) => code),
  );
  const known = knownCodes().filter((code) => code.startsWith('look.'));
  expect([...new Set(said)].sort()).toEqual([...known].sort());
});
