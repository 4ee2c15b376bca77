import { expect, test } from 'vitest';
import { defaultLook, lookSchema, type ParameterName, parameters } from '../../../look/index.ts';
import { beginHistory, historyOf, historyText, letGo, stepBack, stepForth, turned } from './look-history.ts';
import { numberOf, restOf, withNumber, withParts } from './look-number.ts';
import { beginWork, changesSince, opened, plainBase, savedAs, workingOf, workingText } from './working.ts';

const full = lookSchema.parse({
  ...defaultLook,
  balance: { from: 'temperature', temperatureK: 5500 },
  curve: { ...defaultLook.curve, densityRange: 3 },
  bands: [{ hueDeg: 30 }, { hueDeg: 200 }],
  monochrome: { amount: 0, bands: [{ hueDeg: 30, ev: 0.5 }] },
  geometry: { crop: { across: 4, down: 5 } },
});

/** Several of a name are named by their place; what is pointed at in the picture has no knob. */
const counted = new Set(['cdl.slope', 'cdl.offset', 'cdl.power']);
const withoutKnob = new Set(['balance.rgb', 'geometry.lines']);
const numbers = (Object.keys(parameters) as ParameterName[])
  .filter((name) => !withoutKnob.has(name))
  .map((name) => (counted.has(name) || name.includes('bands.') ? { name, at: 0 } : { name }));

test('every number of a look can be read and turned, and is held within its range', () => {
  for (const number of numbers) {
    const { min, max, step } = parameters[number.name];
    const before = numberOf(full, number);
    if (before === null) throw new Error(`${number.name} is in the full look`);
    const there = before + step <= max ? before + step : before - step;
    expect(numberOf(withNumber(full, number, there), number), number.name).toBeCloseTo(there, 6);
    const low = numberOf(withNumber(full, number, -1e9), number);
    // A curve that could not bend is not taken at all.
    expect(number.name.startsWith('curve.') ? [min, before] : [min], number.name).toContain(low);
    expect(numberOf(full, number)).toBe(before);
  }
});

test('a number of a part that is left out is none, and cannot be turned', () => {
  const bare = lookSchema.parse({ version: 2, title: 'bare' });
  expect(numberOf(bare, { name: 'curve.gamma' })).toBeNull();
  expect(numberOf(bare, { name: 'bands.chroma', at: 3 })).toBeNull();
  expect(withNumber(bare, { name: 'curve.gamma' }, 1.2)).toBe(bare);
  expect(withNumber(full, { name: 'exposureEv' }, Number.NaN)).toBe(full);
  expect(withParts(full, { bands: Array.from({ length: 13 }, () => full.bands[0] ?? fail()) })).toBe(full);
});

function fail(): never {
  throw new Error('there is a band');
}

test('one of several is turned and the others stay', () => {
  const turnedOne = withNumber(full, { name: 'bands.chroma', at: 1 }, 0.4);
  expect(turnedOne.bands.map(({ chroma }) => chroma)).toEqual([0, 0.4]);
  expect(withNumber(full, { name: 'cdl.slope', at: 2 }, 1.5).cdl.slope).toEqual([1, 1, 1.5]);
});

test('knobs rest where they do nothing, or where they start', () => {
  expect(restOf('exposureEv')).toBe(0);
  expect(restOf('curve.gamma')).toBe(1.3);
});

const at = (ev: number): typeof full => withNumber(full, { name: 'exposureEv' }, ev);

test('a turn of a knob is one step back, however many places it passed', () => {
  let history = beginHistory(full);
  for (const ev of [0.1, 0.2, 0.3]) history = turned(history, at(ev), 'exposureEv');
  history = letGo(history);
  history = turned(history, at(0.4), 'exposureEv');
  expect(history.past.map(({ exposureEv }) => exposureEv)).toEqual([0, 0.3]);
  history = stepBack(history);
  expect(history.present.exposureEv).toBe(0.3);
  history = stepBack(stepBack(history));
  expect(history.present).toBe(full);
  history = stepForth(stepForth(stepForth(history)));
  expect(history.present.exposureEv).toBe(0.4);
  expect(turned(stepBack(history), at(1), null).future).toEqual([]);
});

test('two thousand steps come back after a reload', () => {
  let history = beginHistory(full);
  for (let step = 1; step <= 2000; step++) history = turned(history, at((step % 99) / 20), null);
  const back = historyOf(historyText(history));
  expect(back).toEqual(history);
  for (let step = 0; step < 2000; step++) history = stepBack(history);
  expect(history.present).toBe(full);
  expect(historyOf('{')).toBeNull();
  expect(historyOf('{"present":{"version":99}}')).toBeNull();
  expect(historyOf(null)).toBeNull();
});

const evening = { id: 'l1', name: 'Evening', version: 1, document: at(0.5) };

test('saving and opening another look are steps too: undo goes back beyond them', () => {
  let work = beginWork(plainBase);
  const turn = (ev: number): void => {
    const look = withNumber(work.history.present, { name: 'exposureEv' }, ev);
    work = { ...work, history: turned(work.history, look, null) };
  };
  turn(0.5);
  expect(changesSince(work)).toBe(1);
  work = savedAs(work, { ...evening, document: work.history.present });
  expect([work.base.version, changesSince(work)]).toEqual([1, 0]);
  turn(0.6);
  turn(0.7);
  expect(changesSince(work)).toBe(2);
  work = opened(work, { id: 'l2', name: 'Night', version: 3, document: at(-1) });
  expect([work.base.name, changesSince(work)]).toEqual(['Night', 0]);
  work = { ...work, history: stepBack(work.history) };
  expect([work.history.present.exposureEv, changesSince(work)]).toEqual([0.7, 1]);
  expect(workingOf(workingText(work))).toEqual(work);
  expect(workingOf('{"base":{}}')).toBeNull();
});
