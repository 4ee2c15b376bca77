import { expect, test } from 'vitest';
import { defaultLook, lookSchema, type ParameterName, parameters } from '../../../look/index.ts';
import { plainBase } from './base.ts';
import { beginHistory, letGo, stepBack, stepForth, turned } from './look-history.ts';
import { numberOf, rangeOf, restOf, withNumber, withParts } from './look-number.ts';
import { beginWork, changesSince, opened, openedInForce, savedAs, type Working } from './working.ts';
import { workingOf, workingText } from './working-text.ts';

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
    // No lower than a curve can bend.
    expect(low, number.name).toBe(rangeOf(full, number).min);
    if (!number.name.startsWith('curve.')) expect(low, number.name).toBe(min);
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
const fullBase = { id: 'l0', name: 'Full', version: 1, document: full };

test('a turn of a knob is one step back, however many places it passed', () => {
  let history = beginHistory(fullBase);
  for (const ev of [0.1, 0.2, 0.3]) history = turned(history, at(ev), 'exposureEv');
  history = letGo(history);
  history = turned(history, at(0.4), 'exposureEv');
  expect(history.past.map(({ look }) => look.exposureEv)).toEqual([0, 0.3]);
  history = stepBack(history);
  expect(history.present.look.exposureEv).toBe(0.3);
  history = stepBack(stepBack(history));
  expect(history.present.look).toBe(full);
  history = stepForth(stepForth(stepForth(history)));
  expect(history.present.look.exposureEv).toBe(0.4);
  expect(turned(stepBack(history), at(1), null).future).toEqual([]);
});

test('two thousand steps come back after a reload', () => {
  let work = beginWork(fullBase);
  for (let step = 1; step <= 2000; step++) work = turn(work, (step % 99) / 20);
  expect(workingOf(workingText(work))).toEqual(work);
  for (let step = 0; step < 2000; step++) work = back(work);
  expect(work.history.present.look).toBe(full);
  expect(workingOf('{')).toBeNull();
  expect(workingOf('{"base":{}}')).toBeNull();
  expect(workingOf('{"bases":[],"present":[{"version":99},0,0]}')).toBeNull();
  expect(workingOf(null)).toBeNull();
});

function turn(work: Working, ev: number): Working {
  const look = withNumber(work.history.present.look, { name: 'exposureEv' }, ev);
  return { ...work, history: turned(work.history, look, null) };
}

function back(work: Working): Working {
  return { ...work, history: stepBack(work.history) };
}

/** What the top of the page says of it. */
function stand({ history: { present } }: Working): readonly [string, number | null, number, number] {
  return [present.base.name, present.base.version, changesSince(present), present.look.exposureEv];
}

const evening = { id: 'l1', name: 'Evening', version: 1 };
const night = { id: 'l2', name: 'Night', version: 3, document: at(-1) };

test('undo past opening or saving leads back to the look, its name and its changes of then', () => {
  let work = turn(beginWork(plainBase), 0.5);
  expect(stand(work)).toEqual(['Plain', null, 1, 0.5]);
  work = savedAs(work, { ...evening, document: work.history.present.look });
  expect(stand(work)).toEqual(['Evening', 1, 0, 0.5]);
  work = turn(turn(work, 0.6), 0.7);
  expect(stand(work)).toEqual(['Evening', 1, 2, 0.7]);
  work = opened(work, night);
  expect(stand(work)).toEqual(['Night', 3, 0, -1]);
  expect(workingOf(workingText(work))).toEqual(work);
  work = back(work);
  expect(stand(work)).toEqual(['Evening', 1, 2, 0.7]);
  work = back(back(back(work)));
  expect(stand(work)).toEqual(['Plain', null, 0, 0]);
  for (let step = 0; step < 4; step++) work = { ...work, history: stepForth(work.history) };
  expect(stand(work)).toEqual(['Night', 3, 0, -1]);
});

test('what is saved in the middle of the way is the base of what can be done again', () => {
  let work = back(turn(turn(turn(beginWork(plainBase), 0.5), 0.6), 0.7));
  work = savedAs(work, { ...evening, document: work.history.present.look });
  expect(stand(work)).toEqual(['Evening', 1, 0, 0.6]);
  expect(stand({ ...work, history: stepForth(work.history) })).toEqual(['Evening', 1, 1, 0.7]);
});

test('a look in force that answers late takes the place of nothing that was turned or opened meanwhile', () => {
  const work = beginWork(plainBase);
  const asked = work.history.present;
  expect(stand(openedInForce(work, night, asked))).toEqual(['Night', 3, 0, -1]);
  expect(openedInForce(work, night, asked).inForce).toBe('l2');
  for (const meanwhile of [turn(work, 2), opened(work, { ...evening, document: at(0.5) })])
    expect(openedInForce(meanwhile, night, asked)).toBe(meanwhile);
  // Turned and taken back: nothing is lost.
  expect(stand(openedInForce(back(turn(work, 2)), night, asked))).toEqual(['Night', 3, 0, -1]);
});
