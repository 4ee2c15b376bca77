import { expect, test } from 'vitest';
import type { CardFile, CardFileState } from '../keep/index.ts';
import { cardLines } from './card-lines.ts';
import { cardProgress } from './card-progress.ts';

function file(path: string, state: CardFileState): CardFile {
  return {
    path,
    sizeBytes: 1000,
    sha256: null,
    state,
    original: null,
    camera: null,
    copies: [],
    findings: [],
  };
}

function linesOf(...files: readonly CardFile[]): string[] {
  const safe = files.every(({ state }) => state === 'safe');
  return cardLines({
    folder: '/card',
    files,
    bytes: 1000 * files.length,
    passedOver: [],
    findings: [],
    safe,
  });
}

test('a card of which everything is proved is told so, and what becomes of it is left to a person', () => {
  const lines = linesOf(file('A.JPG', 'safe'));
  expect(lines).toHaveLength(1);
  expect(lines[0]).toMatch(/^1 file on \/card, 1 kB: every one was read just now .* yours to decide\.$/);
});

test('with one file that is not, the card is to be kept, and the file is named', () => {
  for (const state of ['once', 'missing', 'unread'] as const) {
    const text = linesOf(file('A.JPG', 'safe'), file('B.JPG', state)).join('\n');
    expect(text).toContain('1 proved to be here twice');
    expect(text).toContain('Keep the card.');
    if (state !== 'unread') expect(text).toContain('B.JPG');
  }
});

test('a card full of strangers names some and counts the rest', () => {
  const files = Array.from({ length: 500 }, (_, index) => file(`${index}.JPG`, 'missing'));
  const lines = linesOf(...files);
  expect(lines.length).toBeLessThan(30);
  expect(lines).toContain('And 480 more of these; --json names them all.');
});

test('the time to go is told at the speed so far, once that says something', () => {
  let nowMs = 0;
  const said: string[] = [];
  const stream = { isTTY: true, write: (text: string) => said.push(text) };
  const { show } = cardProgress(stream, () => nowMs);
  const rest = { files: 4, bytes: 400_000_000, path: 'A.JPG' };
  show({ doneFiles: 0, doneBytes: 0, ...rest });
  nowMs = 10_000;
  show({ doneFiles: 1, doneBytes: 100_000_000, ...rest });
  expect(said[0]).toContain('0 of 4 files, 0 bytes of 400.0 MB\u001b');
  expect(said[1]).toContain('1 of 4 files, 100.0 MB of 400.0 MB, 30 s to go');
});
