import { expect, test } from 'vitest';
import { sentence } from '../words/index.ts';
import { homeFindings } from './home-findings.ts';

const wishes = { demo: false, memoryCounts: false };
const inMemory = (): boolean => true;

test('a home in memory is told, with what to do', () => {
  const found = homeFindings('/dev/shm/set', wishes, inMemory);
  expect(found).toEqual([{ code: 'keep.home-in-memory', args: { home: '/dev/shm/set' } }]);
  expect(found.map((finding) => sentence(finding))[0]).toMatch(/goes with the power.*--home/);
});

test('a demo, and trials that say that memory counts, may lie there', () => {
  expect(homeFindings('/dev/shm/set', { ...wishes, demo: true }, inMemory)).toEqual([]);
  expect(homeFindings('/dev/shm/set', { ...wishes, memoryCounts: true }, inMemory)).toEqual([]);
});

test('a home on a disk is no finding, nor one that cannot be asked about', () => {
  expect(homeFindings('/srv/set', wishes, () => false)).toEqual([]);
  const gone = (): boolean => {
    throw new Error('ENOENT');
  };
  expect(homeFindings('/srv/set', wishes, gone)).toEqual([]);
});
