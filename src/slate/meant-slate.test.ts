import { expect, test } from 'vitest';
import { type FoundCode, meantSlate } from './meant-slate.ts';
import { writeSlate } from './payload.ts';

const picture = { widthPx: 300, heightPx: 200 };
const jug = writeSlate({ kind: 'shot', job: 'A', shot: 'jug' });
const mug = writeSlate({ kind: 'shot', job: 'A', shot: 'mug' });

function at(text: string, x: number, y: number, edge = 40): FoundCode {
  return {
    text,
    corners: [
      { x, y },
      { x: x + edge, y },
      { x: x + edge, y: y + edge },
      { x, y: y + edge },
    ],
  };
}

test('one slate is meant wherever it is, and however often it was found', () => {
  const meant = { kind: 'one', slate: { kind: 'shot', job: 'A', shot: 'jug' } };
  expect(meantSlate([at(jug, 0, 0)], picture)).toEqual(meant);
  expect(meantSlate([at(jug, 0, 0), at(jug, 200, 100)], picture)).toEqual(meant);
  expect(meantSlate([at('https://example.org', 130, 80), at(jug, 0, 0)], picture)).toEqual(meant);
});

test('of several the one at the middle is meant', () => {
  expect(meantSlate([at(mug, 10, 80), at(jug, 125, 80)], picture)).toMatchObject({ slate: { shot: 'jug' } });
});

test('of several none is meant where none lies at the middle, or two do', () => {
  const none = { kind: 'several', count: 2 };
  expect(meantSlate([at(mug, 10, 10), at(jug, 250, 150)], picture)).toEqual(none);
  expect(meantSlate([at(mug, 105, 80), at(jug, 155, 80)], picture)).toEqual(none);
});

test('codes of others and no codes mean nothing', () => {
  expect(meantSlate([], picture)).toEqual({ kind: 'none' });
  expect(meantSlate([at('https://example.org', 130, 80), at(`${jug}0`, 0, 0)], picture)).toEqual({
    kind: 'none',
  });
});
