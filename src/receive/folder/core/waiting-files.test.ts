import { describe, expect, test } from 'vitest';
import { defaultFolderLimits } from './limits.ts';
import { isPassedOver } from './passed-over.ts';
import { Stillness, stillnessNeededMs } from './stillness.ts';
import { WaitingFiles } from './waiting-files.ts';

const sight = (sizeBytes: number, modifiedMs = 0): { sizeBytes: number; modifiedMs: number } => ({
  sizeBytes,
  modifiedMs,
});

describe('12.3 names that are passed over', () => {
  test.each([
    '.DS_Store',
    '._IMG_0001.JPG',
    'IMG_0001.JPG.tmp',
    'IMG_0001.JPG.PART',
    'IMG_0001.JPG~',
    '~$notes.txt',
    'Thumbs.db',
    'System Volume Information',
  ])('%s is', (name) => expect(isPassedOver(name)).toBe(true));

  test.each(['IMG_0001.JPG', 'DCIM', 'a.temporary', 'part.dng', 'x~1.jpg', 'tmp', ''])('%s is not', (name) =>
    expect(isPassedOver(name)).toBe(false),
  );
});

describe('12.2 lying still', () => {
  test('begins anew with each change of size or time, and does not look at the time itself', () => {
    const stillness = new Stillness(sight(1, 900_000), 0);
    expect(stillness.look(sight(1, 900_000), 50)).toBe(true);
    expect(stillness.stillMs(60)).toBe(60);
    expect(stillness.look(sight(2, 900_000), 70)).toBe(false);
    expect(stillness.stillMs(90)).toBe(20);
    expect(stillness.look(sight(2, 5), 95)).toBe(false);
    expect(stillness.stillMs(95)).toBe(0);
  });

  test('takes longer the less is proved', () => {
    const needed = (['whole', 'unknown', 'cut'] as const).map((proof) =>
      stillnessNeededMs(proof, defaultFolderLimits),
    );
    expect(needed).toEqual([2_000, 10_000, 60_000]);
  });
});

describe('files that wait', () => {
  test('12.6 the newest comes first, by name where the times are the same', () => {
    const waiting = new WaitingFiles(10);
    waiting.see('a/IMG_0002.JPG', sight(1, 100), 0, false);
    waiting.see('a/IMG_0003.JPG', sight(1, 100), 0, false);
    waiting.see('a/IMG_0001.JPG', sight(1, 200), 0, false);
    const order = [1, 2, 3, 4].map(() => waiting.nextStill(10, 10)?.path.slice(-5, -4));
    expect(order).toEqual(['1', '3', '2', undefined]);
  });

  test('12.2 a file is next one moment after it has lain still long enough, not before', () => {
    const waiting = new WaitingFiles(10);
    waiting.see('a', sight(1), 0, false);
    waiting.see('a', sight(2), 5, false);
    expect(waiting.nextStill(10, 14)).toBeNull();
    expect(waiting.nextStill(10, 15)?.path).toBe('a');
  });

  test('only what turned up just now is followed, and what was put back is not', () => {
    const waiting = new WaitingFiles(10);
    waiting.see('old', sight(1), 0, false);
    waiting.see('new', sight(1), 0, true);
    const file = waiting.nextFresh(0);
    expect([file?.path, waiting.nextFresh(0)]).toEqual(['new', null]);
    if (file === null) throw new Error('there was one');
    waiting.putBack(file, 50, 1);
    expect([waiting.nextFresh(99), waiting.nextStill(0, 49)?.path]).toEqual([null, 'old']);
    expect(waiting.nextStill(0, 50)).toMatchObject({ path: 'new', tries: 1 });
  });

  test('12.6 as many wait as may, one more is not noted', () => {
    const waiting = new WaitingFiles(2);
    expect(['a', 'b', 'c', 'a'].map((path) => waiting.see(path, sight(1), 0, false))).toEqual([
      true,
      true,
      false,
      true,
    ]);
  });
});
