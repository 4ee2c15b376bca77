import { expect, test } from 'vitest';
import { mergeFindings } from './merge-findings.ts';
import { sentence } from './sentences.ts';

const silent = (camera: string, minutes: number) => ({
  code: 'line.camera-silent',
  args: { camera, minutes },
});
const brokenOff = (name: string) => ({ code: 'page.broken-off', args: { name } });

test('one finding alone stays as it is', () => {
  expect(mergeFindings([silent('cam1', 5)])).toEqual(silent('cam1', 5));
});

test('two cameras that are silent are said in one sentence, each with its time', () => {
  expect(sentence(mergeFindings([silent('cam1', 5), silent('cam2', 12)]))).toBe(
    'cam1 and cam2 have been silent for 5 and 12 min: look at their batteries, their Wi-Fi, and whether they have gone to sleep.',
  );
  expect(sentence(mergeFindings([silent('cam1', 5), silent('cam2', 5)]))).toContain('silent for 5 min:');
});

test('what is the same in all is said once', () => {
  const failed = (folder: string) => ({ code: 'copy.failed', args: { folder, why: 'EIO' } });
  expect(sentence(mergeFindings([failed('/a'), failed('/b')]))).toBe(
    'Nothing can be written to the second places /a and /b (EIO). It is tried again by itself.',
  );
});

test('three are named, of more the first two, and the others are counted', () => {
  const [one, two, three, four] = ['A', 'B', 'C', 'D'].map(brokenOff);
  if (one === undefined || two === undefined || three === undefined || four === undefined)
    throw new Error('there are four');
  expect(mergeFindings([one, two, three]).args.name).toBe('A, B and C');
  expect(sentence(mergeFindings([one, two, three, four]))).toMatch(/^A, B and 2 more broke off/);
});

test('every code that can be merged has words for several', () => {
  const codes = [
    ...['copy.away', 'copy.silent', 'copy.foreign', 'copy.full', 'copy.failed', 'copy.same-device'],
    ...[
      'copy.in-memory',
      'copy.journal-differs',
      'line.camera-silent',
      'line.port-in-use',
      'page.broken-off',
    ],
  ];
  for (const code of codes) {
    const args = { folder: '/a', camera: 'cam1', port: 21, door: 'FTP', name: 'A', why: 'EIO', minutes: 1 };
    const other = { folder: '/b', camera: 'cam2', port: 22, door: 'SFTP', name: 'B', why: 'EIO', minutes: 1 };
    const merged = sentence(
      mergeFindings([
        { code, args },
        { code, args: other },
      ]),
    );
    expect(merged, code).toContain(' and ');
    expect(merged, code).not.toMatch(/ and \S+ (is|lies|has|does|broke off and waits)\b/);
  }
});
