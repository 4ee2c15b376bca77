import { expect, test } from 'vitest';
import type { Mosaic } from '../facts/index.ts';
import { type CompiledLook, compileLook, defaultLook, neutralLook } from '../look/index.ts';
import { outputSpace } from './output-space.ts';
import { renderMosaic } from './render.ts';
import { renderOutput } from './render-output.ts';
import type { RowWatch } from './rendered.ts';

const mosaic: Mosaic = {
  values: Uint16Array.from({ length: 240 * 900 }, (_, at) => (at * 7919) % 900),
  widthPx: 240,
  heightPx: 900,
  filters: [0, 1, 1, 2],
  blackLevels: [0, 0, 0, 0],
  whiteLevel: 1000,
  asShotMultipliers: [1, 1, 1],
  xyzToCamera: null,
  orientation: 1,
  baselineExposureEv: 0,
};
const output = outputSpace('display-p3', 16);
const ways: readonly (readonly [string, CompiledLook, (look: CompiledLook, watch: RowWatch) => void])[] = [
  [
    'a rendering',
    compileLook(neutralLook),
    (look, watch) => renderMosaic(mosaic, look, 'full', [], () => null, watch),
  ],
  [
    'a rendering with local parts',
    compileLook({ ...defaultLook, falloffEv: 1 }),
    (look, watch) => renderMosaic(mosaic, look, 'full', [], () => null, watch),
  ],
  [
    'one in a chosen space',
    compileLook(neutralLook),
    (look, watch) => renderOutput(mosaic, look, 'full', output, () => null, watch),
  ],
  [
    'one in a chosen space with local parts',
    compileLook({ ...defaultLook, falloffEv: 1 }),
    (look, watch) => renderOutput(mosaic, look, 'full', output, () => null, watch),
  ],
];

test.each(ways)('%s tells its rows from the top to the last, several times', (_, look, make) => {
  const told: (readonly [number, number])[] = [];
  make(look, (done, of) => told.push([done, of]));
  expect(told.length).toBeGreaterThan(2);
  expect(told.map(([done]) => done)).toEqual(told.map(([done]) => done).sort((a, b) => a - b));
  expect(told.every(([, of]) => of === 900)).toBe(true);
  expect(told.at(-1)?.[0]).toBe(900);
});

test.each(ways)('%s ends where its watch throws', (_, look, make) => {
  let rows = 0;
  const watch: RowWatch = (done) => {
    rows = done;
    throw new Error('not wanted');
  };
  expect(() => make(look, watch)).toThrow('not wanted');
  expect(rows).toBeLessThan(900);
});
