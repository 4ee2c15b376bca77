import { expect, test } from 'vitest';
import type { Look } from '../../contract/index.ts';
import { defaultLook } from '../../look/index.ts';
import { lookGroups } from './look-groups.ts';

const look = (id: string, name: string, version: number, laidAside = false): Look => ({
  ...{ id, name, version, laidAside, hash: 'a'.repeat(64), document: defaultLook },
  ...{ savedAt: '2026-10-01T08:00:00.000Z', savedBy: 'operator' },
});
/** As the station lists them. */
const looks = [
  look('e3', 'Evening', 3, true),
  look('e2', 'evening', 2),
  look('e1', 'Evening', 1),
  look('s1', 'Silver', 1),
];
const ids = (chosen: string | null) =>
  lookGroups(looks, chosen).map(({ name, versions }) => [name, ...versions.map(({ id }) => id)]);

test('versions of one name stand together, however it is written; what is laid aside is left out', () => {
  expect(ids(null)).toEqual([
    ['evening', 'e2', 'e1'],
    ['Silver', 's1'],
  ]);
});

test('the one that is chosen is there, laid aside or not', () => {
  expect(ids('e3')).toEqual([
    ['Evening', 'e3', 'e2', 'e1'],
    ['Silver', 's1'],
  ]);
});
