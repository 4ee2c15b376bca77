import { expect, test } from 'vitest';
import { compileLook, defaultLook, lookSchema, tableHash, unknownProfile } from '../../../look/index.ts';
import { Compiler } from './compiler.ts';

const look = lookSchema.parse({
  ...defaultLook,
  cdl: { slope: [1.04, 1, 0.97] },
});
const brighter = lookSchema.parse({ ...look, exposureEv: 0.7, curve: { ...defaultLook.curve, gamma: 1.5 } });
const still = (): number => 0;

test('at rest a look has the table that the station names by its hash, whatever was turned before', () => {
  const compiler = new Compiler(still);
  compiler.compile(look, unknownProfile, 'turning');
  compiler.compile(brighter, unknownProfile, 'turning');
  const rest = compiler.compile(brighter, unknownProfile, 'rest');
  expect(tableHash(rest)).toBe(tableHash(compileLook(brighter, unknownProfile, 'as-needed')));
});

test('a knob of tone leaves the lattice as it is, and tone follows exactly', () => {
  const compiler = new Compiler(still);
  const before = compiler.compile(look, unknownProfile, 'rest');
  const turned = compiler.compile(brighter, unknownProfile, 'turning');
  expect(turned.table).toBe(before.table);
  expect(turned.tableKey).toBe(before.tableKey);
  const exact = compileLook(brighter, unknownProfile, 'as-needed');
  expect(turned.matrix).toEqual(exact.matrix);
  expect(turned.curve).toEqual(exact.curve);
});

test('a knob of colour makes another lattice, and a slow machine a smaller one from then on', () => {
  let now = 0;
  const compiler = new Compiler(() => {
    now += 60;
    return now;
  });
  const stronger = { ...look, cdl: { ...look.cdl, saturation: 1.2 } };
  const first = compiler.compile(look, unknownProfile, 'turning');
  const second = compiler.compile(stronger, unknownProfile, 'turning');
  expect([first.table?.size, second.table?.size]).toEqual([33, 17]);
  expect(first.tableKey).not.toBe(second.tableKey);
});

test('a look of tone alone has no table; one of colour without a curve is compiled whole', () => {
  const compiler = new Compiler(still);
  expect(compiler.compile(defaultLook, unknownProfile, 'rest').tableKey).toBeNull();
  const bare = { ...look, curve: null };
  compiler.compile(bare, unknownProfile, 'turning');
  const again = compiler.compile({ ...bare, exposureEv: 1 }, unknownProfile, 'turning');
  expect(tableHash(again)).toBe(tableHash(compileLook({ ...bare, exposureEv: 1 }, unknownProfile, 33)));
});
