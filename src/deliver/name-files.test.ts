import { expect, test } from 'vitest';
import { nameKey } from './file-name.ts';
import { nameFiles } from './name-files.ts';
import { defaultTemplate, fillTemplate, type NameValues, placeholdersOf } from './name-template.ts';

const frame: NameValues = {
  job: 'J1',
  shot: 'Tea pot',
  counter: '0042',
  camera: 'cam1',
  date: '2026-11-30',
  name: 'IMG_0042',
  number: '1',
};

test('a template is filled in; what nobody knows goes with the separators before it', () => {
  expect(fillTemplate('{date}-{job}_{shot}.{counter}', frame).text).toBe('2026-11-30-J1_Tea pot.0042');
  expect(fillTemplate(defaultTemplate, { ...frame, shot: null })).toEqual({
    text: 'J1_0042',
    missing: ['shot'],
  });
  expect(fillTemplate(defaultTemplate, { ...frame, job: ' ' }).text).toBe('Tea pot_0042');
});

test('a file without a counter keeps its own name in that place, unless the template tells it anyway', () => {
  const named = { ...frame, counter: null, name: 'CON' };
  expect(fillTemplate(defaultTemplate, named)).toEqual({ text: 'J1_Tea pot_CON', missing: [] });
  expect(fillTemplate('{job}_{counter}_{name}', named)).toEqual({ text: 'J1_CON', missing: ['counter'] });
  expect(fillTemplate('{job}_{counter}_{number}', named)).toEqual({ text: 'J1_1', missing: ['counter'] });
  const names = ['CON', 'Müller', 'mug-final'].map((name) => ({ ...named, shot: null, name }));
  expect(nameFiles(defaultTemplate, names, '.jpg').map(({ name }) => name)).toEqual([
    'J1_CON.jpg',
    'J1_Müller.jpg',
    'J1_mug-final.jpg',
  ]);
});

test('what a template asks for and is not there is named', () => {
  expect(placeholdersOf('{job}_{client}').unknown).toEqual(['client']);
  expect(placeholdersOf('{job').unknown).toEqual(['{']);
  expect(placeholdersOf('{job}').known).toEqual(['job']);
});

test('a text in a placeholder stays text: no folder, no further placeholder', () => {
  const [named] = nameFiles('{shot}', [{ ...frame, shot: '../{job}/a' }], '.jpg');
  expect(named?.name).toBe('-{job}-a.jpg');
});

test('frames of one name are numbered, also where case or form alone tell them apart, and beside what lies there', () => {
  const shots = ['Tea', 'TEA', 'tea', 'Caf\u00e9', 'Cafe\u0301'];
  const names = nameFiles(
    '{shot}',
    shots.map((shot) => ({ ...frame, shot })),
    '.jpg',
    ['tea-2.JPG'],
  );
  expect(names.map(({ name }) => name)).toEqual([
    'Tea.jpg',
    'TEA-3.jpg',
    'tea-4.jpg',
    'Café.jpg',
    'Café-2.jpg',
  ]);
  expect(names.map(({ numbered }) => numbered)).toEqual([false, true, true, false, true]);
});

test('a name that looks like a numbered one is nobody else’s', () => {
  const shots = ['a', 'a', 'a-2', 'a'];
  const names = nameFiles(
    '{shot}',
    shots.map((shot) => ({ ...frame, shot })),
    '.jpg',
  );
  expect(names.map(({ name }) => name)).toEqual(['a.jpg', 'a-2.jpg', 'a-2-2.jpg', 'a-3.jpg']);
});

test('two thousand long names of one beginning are two thousand names that a disk can hold', () => {
  const frames = Array.from({ length: 2000 }, () => ({ ...frame, shot: 'é'.repeat(300) }));
  const names = nameFiles('{shot}', frames, '.jpg').map(({ name }) => name);
  expect(new Set(names.map(nameKey)).size).toBe(2000);
  for (const name of names) expect(new TextEncoder().encode(name).length).toBeLessThanOrEqual(200);
});
