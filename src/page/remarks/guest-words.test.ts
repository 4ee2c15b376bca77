import { expect, test } from 'vitest';
import type { Remark, RemarkAnswer } from '../../contract/index.ts';
import { sampleFrame } from '../testing/sample-frame.ts';
import { guestWords, newWords } from './guest-words.ts';

const guest = { name: 'Ada', from: 'guest', link: null } as const;
const studio = { name: 'Lena', from: 'operator', link: null } as const;
const at = (second: number): string => `2026-10-01T08:00:0${second}.000Z`;
const answer = (id: string, by: RemarkAnswer['by'], second: number): RemarkAnswer => ({
  ...{ id, by, text: id, at: at(second) },
});
const remark = (id: string, by: Remark['by'], second: number, parts: Partial<Remark> = {}): Remark => ({
  ...{ id, by, text: id, at: at(second), point: null, inside: false, settled: null, answers: [] },
  ...parts,
});

test('what guests said and nobody has settled is told, answers too, the newest first; the studio’s own is not', () => {
  const frames = [
    sampleFrame('a', 0, {
      job: 'POTS',
      remarks: [
        remark('first', guest, 1, { answers: [answer('ours', studio, 2), answer('theirs', guest, 5)] }),
        remark('done', guest, 3, { settled: { by: studio, at: at(4) } }),
      ],
    }),
    sampleFrame('b', 0, { job: 'POTS', remarks: [remark('own', studio, 6), remark('last', guest, 7)] }),
    sampleFrame('c', 0, { job: 'OTHER', remarks: [remark('elsewhere', guest, 8)] }),
  ];
  const words = guestWords(frames, 'POTS');
  expect(words.map(({ id, frame }) => `${frame} ${id}`)).toEqual(['b last', 'a theirs', 'a first']);
  expect(newWords(words, null)).toEqual(words);
  expect(newWords(words, at(5)).map(({ id }) => id)).toEqual(['last']);
  expect(newWords(words, at(7))).toEqual([]);
});
