import { expect, test } from 'vitest';
import { arrivalStates } from '../facts/index.ts';
import { figurePhrase, sentence, sizePhrase } from '../words/index.ts';
import { type ArrivedFacts, judgeArrived, notMeasured } from './arrived.ts';

const whole: ArrivedFacts = {
  state: 'whole',
  bytes: 25_000_000,
  expectedBytes: 25_000_000,
  tookMs: 6300,
  copies: 1,
  copiesBeside: 0,
  missing: null,
  original: null,
  badCopyIn: null,
  fromFolder: false,
};

test('whole and in two places is good, and the figure is the size in MB', () => {
  const verdict = judgeArrived(whole);
  expect(verdict.judgement).toBe('good');
  expect(verdict.figure).toEqual({ value: 25, unit: 'MB' });
  expect(sentence(verdict.findings[0])).toBe('Whole: 25.0 MB in 6.3 s, safe in two places.');
});

test('the card says the size as the sentence does', () => {
  for (const bytes of [58_000, 12_049_999, 12_050_001, 999_999]) {
    const { figure, findings } = judgeArrived({ ...whole, bytes });
    expect(figurePhrase(figure?.value ?? 0, figure?.unit ?? '')).toBe(sizePhrase(bytes));
    expect(sentence(findings[0] ?? { code: '', args: {} })).toContain(sizePhrase(bytes));
  }
});

test('whole in one place is a doubt that says both in one sentence', () => {
  const verdict = judgeArrived({ ...whole, copies: 0 });
  expect(verdict.judgement).toBe('doubt');
  expect(sentence(verdict.findings[0])).toBe('Whole, 25.0 MB in 6.3 s, but in one place only.');
});

test('a copy on the same disk is no copy, and the sentence says why', () => {
  const verdict = judgeArrived({ ...whole, copies: 0, copiesBeside: 1 });
  expect(verdict.judgement).toBe('doubt');
  expect(sentence(verdict.findings[0])).toContain('same disk, or in memory, and does not count');
});

test('what cannot be proved whole is never good, in any state and with any number of copies', () => {
  for (const state of arrivalStates.filter((name) => name !== 'whole')) {
    for (const copies of [0, 1, 2]) {
      expect(judgeArrived({ ...whole, state, copies }).judgement).not.toBe('good');
    }
  }
});

test('broken off and damaged say at which share it was cut', () => {
  const cut: ArrivedFacts = { ...whole, state: 'damaged', bytes: 17_750_000 };
  expect(sentence(judgeArrived(cut).findings[0])).toContain('cut short at 71 %');
  const brokenOff: ArrivedFacts = { ...cut, state: 'broken-off' };
  expect(judgeArrived(brokenOff).judgement).toBe('bad');
  expect(sentence(judgeArrived(brokenOff).findings[0])).toContain('send it again from the camera');
  // Nobody can send what lies in a folder.
  expect(sentence(judgeArrived({ ...brokenOff, fromFolder: true }).findings[0])).toBe(
    'Broken off after 17.8 MB of 25.0 MB (71 %): it is copied anew by itself as soon as its card or folder can be read.',
  );
});

test('an original that went bad on the disk is bad although it arrived whole and has copies', () => {
  const altered = judgeArrived({ ...whole, original: { trouble: 'differs', copyIn: '/mnt/b' } });
  expect(altered.judgement).toBe('bad');
  expect(sentence(altered.findings[0])).toBe(
    'Altered on the disk: the original does not hold the bytes that the camera sent. Keep the card; a copy that was read back lies in /mnt/b. Put it back on the Hand-over page, or run: setside restore.',
  );
  const gone = judgeArrived({ ...whole, copies: 0, original: { trouble: 'missing', copyIn: null } });
  expect(sentence(gone.findings[0])).toBe(
    'Missing: the original is not on the disk any more. Keep the card: no copy is known.',
  );
});

test('a copy that was found bad is a doubt with its cure, however many are good', () => {
  const said = (copies: number): string => {
    const verdict = judgeArrived({ ...whole, copies, badCopyIn: '/mnt/b' });
    expect(verdict.judgement).toBe('doubt');
    return sentence(verdict.findings[0]);
  };
  const cure = 'To have a new one made, run: setside verify --mend.';
  expect(said(0)).toBe(`Here, but the copy in /mnt/b does not hold the same bytes. ${cure}`);
  expect(said(1)).toBe(`Safe in two places, but the copy in /mnt/b does not hold the same bytes. ${cure}`);
});

test('an empty file is bad although it arrived whole', () => {
  expect(judgeArrived({ ...whole, bytes: 0 }).judgement).toBe('bad');
});

test('a question without a reading is unknown and says so', () => {
  expect(notMeasured.judgement).toBe('unknown');
  expect(sentence(notMeasured.findings[0])).toBe('Not measured yet.');
});

test('a partner that did not come is a doubt that names it first', () => {
  const verdict = judgeArrived({ ...whole, missing: 'jpeg' });
  expect(verdict.judgement).toBe('doubt');
  expect(sentence(verdict.findings[0])).toBe('The JPEG of this frame has not come.');
  expect(sentence(judgeArrived({ ...whole, missing: 'raw' }).findings[0])).toContain('raw');
});
