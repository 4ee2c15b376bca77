import { expect, test } from 'vitest';
import type { Chosen } from './choice-records.ts';
import { ChosenLately, entriesMax } from './chosen-lately.ts';
import type { Stamp } from './records.ts';

let seq = 0;
const at = (atMs: number, choice: Chosen): Chosen & Stamp => {
  seq += 1;
  return { v: 6, seq, group: seq, atMs, ...choice };
};
const marked = (frame: string, mark: 'hero' | 'out', who?: string): Chosen => ({
  type: 'mark-set',
  frame,
  mark,
  ...(who === undefined ? {} : { who }),
});

test('what one person chose alike of many frames in one go is one entry', () => {
  const lately = new ChosenLately();
  // Mixed in one write, as marks are that are taken back.
  lately.note(at(1000, marked('f1', 'hero', 'operator')));
  lately.note(at(1000, marked('f2', 'out', 'operator')));
  lately.note(at(1000, marked('f3', 'hero', 'operator')));
  // Each part counts from the one before it.
  lately.note(at(20_000, marked('f4', 'out', 'operator')));
  lately.note(at(24_000, marked('f5', 'out', 'operator')));
  lately.note(at(28_000, marked('f6', 'out', 'operator')));
  lately.note(at(28_000, marked('f7', 'out', 'tablet')));
  // Something else was done meanwhile.
  lately.note(at(28_500, marked('f8', 'out', 'operator')));
  lately.note(at(60_000, marked('f9', 'out', 'operator')));
  expect(lately.entries().map(({ record, count }) => [record.who, record.atMs, count])).toEqual([
    ['operator', 1000, 2],
    ['operator', 1000, 1],
    ['operator', 20_000, 3],
    ['tablet', 28_000, 1],
    ['operator', 28_500, 1],
    ['operator', 60_000, 1],
  ]);
});

test('a choice of which nobody knows who made it is not told, but what people said by name is', () => {
  const lately = new ChosenLately();
  const by = { name: 'Client', from: 'guest', link: 'Client' } as const;
  lately.note(at(1, marked('f1', 'hero')));
  const remark = { id: 'r1', at: null, text: 'Lighter?', inside: false, by };
  lately.note(at(2, { type: 'remark-made', frame: 'f1', remark }));
  expect(lately.entries().map(({ record }) => record.type)).toEqual(['remark-made']);
});

test('of very many entries the last are known', () => {
  const lately = new ChosenLately();
  for (let index = 0; index < 3 * entriesMax; index += 1)
    lately.note(at(index * 10_000, marked(`f${index}`, 'hero', 'operator')));
  const { length } = lately.entries();
  expect(length).toBeGreaterThanOrEqual(entriesMax);
  expect(length).toBeLessThanOrEqual(2 * entriesMax);
  expect(lately.entries().at(-1)?.record).toMatchObject({ frame: `f${3 * entriesMax - 1}` });
});
