import { expect, test } from 'vitest';
import { defaultLook, unknownProfile } from '../look/index.ts';
import { compiledFor, compiledLooksMax } from './compiled-looks.ts';

const look = (exposureEv: number) => ({ ...defaultLook, exposureEv });
const compiled = (exposureEv: number) => compiledFor(look(exposureEv), unknownProfile);

test('the tables of the last six looks are made once; the one used longest ago makes way for a seventh', () => {
  const first = Array.from({ length: compiledLooksMax }, (_, index) => compiled(index / 10));
  expect(first.map((_, index) => compiled(index / 10) === first[index])).toEqual(first.map(() => true));
  compiled(0);
  compiled(1);
  expect(compiled(0)).toBe(first[0]);
  expect(compiled(0.1)).not.toBe(first[1]);
});

test('another light is another table', () => {
  const warm = { ...unknownProfile, asShotWhite: [0.36, 0.37] as const };
  const temperature = {
    ...defaultLook,
    balance: { from: 'temperature', temperatureK: 5000, duv: 0 } as const,
  };
  expect(compiledFor(temperature, warm)).not.toBe(compiledFor(temperature, unknownProfile));
});
