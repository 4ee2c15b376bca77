import { expect, test } from 'vitest';
import type { BrokenOffFile } from '../../keep/index.ts';
import { sentence } from '../../words/index.ts';
import { diedLines } from './died-lines.ts';

const file: BrokenOffFile = {
  arrival: 'a',
  frame: 'f',
  job: 'unsorted',
  camera: 'cam1',
  name: 'X.DNG',
  viewPath: '/X.DNG',
  diskPath: '/home/incoming/a-X.DNG',
  sizeBytes: 1_200_000,
  announcedBytes: null,
  firstByteMs: 10,
  lastByteMs: null,
  atMs: 100,
  expectedBytes: null,
  end: 'died',
};

test('what a start finds cut off by a crash is told once, and nothing that broke off otherwise or earlier', () => {
  const lines = diedLines(
    [file, { ...file, end: 'reset' }, { ...file, atMs: 99 }, { ...file, camera: 'card', arrival: 'b' }],
    100,
    (arrival) => (arrival === 'b' ? 'folder' : 'ftp'),
  );
  expect(lines.map(({ camera, finding }) => [camera, sentence(finding)])).toEqual([
    ['cam1', 'X.DNG broke off after 1.2 MB: the station ended all at once.'],
    ['card', 'X.DNG was not taken whole, 1.2 MB of it came: the station ended all at once.'],
  ]);
});
