import { expect, test } from 'vitest';
import { sentence } from '../words/index.ts';
import { readLook, readLookText } from './read-look.ts';

const refusals = (members: object): string[] => {
  const read = readLook({ version: 2, title: 'Tried', ...members });
  return read.look === null ? read.findings.map((finding) => sentence(finding)) : [];
};
const curve = { pivot: 0.18, gamma: 1.3, toeEv: 4, shoulder: 1, whiteEv: 3 };

test.each([
  [
    'a text for a number',
    { grain: { sizePx: 2, density: 'much' } },
    'grain.density should be a number, and is a text.',
  ],
  ['nothing where something must be', { title: undefined }, 'title should be a text, and is missing.'],
  ['a figure beyond its range', { exposureEv: 9 }, 'exposureEv is 9: it goes from -5 to 5.'],
  [
    'a figure in a list',
    { bands: [{ hueDeg: 30, reachDeg: 60, chroma: -3 }] },
    'bands.0.chroma is -3: it goes from -1 to 1.',
  ],
  ['a name that is a letter off', { curv: curve }, 'A look has no curv. Is curve meant?'],
  ['a name that is nothing like', { warmth: 1 }, 'A look has no warmth.'],
  [
    'a choice that there is not',
    { balance: { from: 'camera' } },
    'balance.from says something that is not known here.',
  ],
  [
    'a curve that cannot reach white',
    { curve: { ...curve, gamma: 0.5 } },
    'The curve does not get as far as its white: take a greater gamma, a white further above the pivot, or a lighter pivot.',
  ],
] as const)('%s is refused in a sentence of ours', (_, members, said) => {
  expect(refusals(members)).toEqual([said]);
});

test('a number too large for a number is told as that', () => {
  const read = readLookText('{"version":2,"title":"Tried","exposureEv":1e999}');
  const findings = read.look === null ? read.findings : [];
  expect(findings.map((finding) => sentence(finding))).toEqual([
    'exposureEv should be a number, and is a number beyond all bounds.',
  ]);
});
