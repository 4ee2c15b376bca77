import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type Import, readImports, roomOf } from './imports.ts';
import { floors, pageMayImport, pureRoomPackages, pureRooms } from './rooms.ts';

const imports = readImports(join(import.meta.dirname, '../../src'));
const floorOf = (room: string): number => floors.findIndex((rooms) => rooms.includes(room));

function wrongArrow(entry: Import): string | null {
  const from = roomOf(entry.file);
  const to = entry.target === null ? null : roomOf(entry.target);
  if (from === null || to === null || from === to) return null;
  if (floorOf(to) < 0)
    return `${entry.file} imports ${to}/, which is not on the plan (test/architecture/rooms.ts)`;
  if (from === 'page' && !pageMayImport.includes(to)) {
    return `${entry.file} imports ${to}/: the page may import ${pageMayImport.join(', ')} only`;
  }
  if (floorOf(to) >= floorOf(from)) {
    return `${entry.file} imports ${to}/, which is not below ${from}/: declare an interface in ${from}/ and join the two in station/`;
  }
  return null;
}

test('every room is on the plan', () => {
  const rooms = new Set(imports.map((entry) => roomOf(entry.file)).filter((room) => room !== null));
  expect([...rooms].filter((room) => floorOf(room) < 0)).toEqual([]);
  expect(imports.length).toBeGreaterThan(20);
});

test('arrows point down, and the page imports pure rooms only', () => {
  expect(imports.map(wrongArrow).filter((sentence) => sentence !== null)).toEqual([]);
});

test('a room is entered by its door, index.ts, or by its kernels', () => {
  const throughTheWindow = imports
    .filter(
      ({ file, target }) => target !== null && roomOf(target) !== null && roomOf(file) !== roomOf(target),
    )
    .filter(
      ({ target }) => target !== null && !/^[^/]+\/index\.ts$/.test(target) && !target.includes('/kernels/'),
    )
    // What tests are made of is shared among what tests are made of; no door opens it to the product.
    .filter(({ file, target }) => !(isForTests(file) && target !== null && isForTests(target)))
    .map(
      ({ file, target }) => `${file} imports ${target}: export it from the room's index.ts if others need it`,
    );
  expect(throughTheWindow).toEqual([]);
});

test('the product imports nothing that tests are made of', () => {
  const made = imports
    .filter(({ file, target }) => target !== null && isForTests(target) && !isForTests(file))
    .map(({ file, target }) => `${file} imports ${target}, which is for tests`);
  expect(made).toEqual([]);
});

test('pure rooms use no package and no Node module beyond those named', () => {
  const strangers = imports
    .filter(({ file, target }) => target === null && isPure(file))
    .filter(({ file, specifier }) => !(pureRoomPackages[roomOf(file) ?? ''] ?? []).includes(specifier))
    .map(({ file, specifier }) => `${file} imports ${specifier}: a pure room takes it as a value instead`);
  expect(strangers).toEqual([]);
});

test('kernels import only kernels', () => {
  const strangers = imports
    .filter(({ file }) => file.includes('/kernels/'))
    .filter(({ target }) => target === null || !target.includes('/kernels/'))
    .map(({ file, specifier }) => `${file} imports ${specifier}`);
  expect(strangers).toEqual([]);
});

test('there is no import cycle', () => {
  const graph = new Map<string, string[]>();
  for (const { file, target } of imports) {
    if (target !== null) graph.set(file, [...(graph.get(file) ?? []), target]);
  }
  expect(firstCycle(graph)).toBeNull();
});

function isForTests(file: string): boolean {
  return file.includes('/testing/');
}

function isPure(file: string): boolean {
  return pureRooms.includes(roomOf(file) ?? '') || file.includes('/core/') || file.includes('/kernels/');
}

function firstCycle(graph: ReadonlyMap<string, readonly string[]>): string | null {
  const done = new Set<string>();
  const path: string[] = [];
  const visit = (file: string): string | null => {
    if (path.includes(file)) return [...path.slice(path.indexOf(file)), file].join(' -> ');
    if (done.has(file)) return null;
    path.push(file);
    for (const next of graph.get(file) ?? []) {
      const cycle = visit(next);
      if (cycle !== null) return cycle;
    }
    path.pop();
    done.add(file);
    return null;
  };
  for (const file of graph.keys()) {
    const cycle = visit(file);
    if (cycle !== null) return cycle;
  }
  return null;
}
