import { expect, test } from 'vitest';
import type { Finding, Judgement } from '../facts/index.ts';
import { frameSentence } from './frame-sentence.ts';

const said = (judgement: Judgement, code = 'judge.not-measured', args: Finding['args'] = {}) => ({
  judgement,
  findings: [{ code, args }],
});
const good = said('good');
const allGood = {
  arrived: said('good', 'arrived.whole', { bytes: 25_400_000, places: 2 }),
  sharp: good,
  exposed: good,
  inPlace: good,
  colour: good,
};

test('the worst finding leads, bad before doubt, and the others are named', () => {
  const verdicts = { ...allGood, sharp: said('doubt', 'test.soft'), colour: said('bad', 'test.red') };
  expect(frameSentence(verdicts)).toBe('test.red. Sharp needs a look as well.');
});

test('a copy that is missing leads only where nothing of the picture is in doubt', () => {
  const alone = {
    ...allGood,
    arrived: said('doubt', 'arrived.one-place', { bytes: 7_000_000, milliseconds: 900 }),
  };
  expect(frameSentence(alone)).toMatch(/one place only/);
  const soft = { ...alone, sharp: said('doubt', 'test.soft') };
  expect(frameSentence(soft)).toBe('test.soft. Arrived needs a look as well.');
  const partner = { ...soft, arrived: said('doubt', 'test.partner') };
  expect(frameSentence(partner)).toBe('test.partner. Sharp needs a look as well.');
});

test('a frame with nothing wrong says that it is here and that the rest is right', () => {
  expect(frameSentence(allGood)).toBe('Whole: 25.4 MB, safe in two places. Everything else is right.');
});

test('what is not measured is said, never passed over as right', () => {
  const verdicts = { ...allGood, inPlace: said('unknown'), colour: said('unknown') };
  expect(frameSentence(verdicts)).toBe(
    'Whole: 25.4 MB, safe in two places. In place and True are not measured yet.',
  );
});

test('what was looked at and cannot be told is not what nobody has measured', () => {
  const verdicts = { ...allGood, sharp: said('unknown', 'sharp.no-edge'), colour: said('unknown') };
  expect(frameSentence(verdicts)).toBe(
    'Whole: 25.4 MB, safe in two places. Sharp cannot be told. True is not measured yet.',
  );
});

test('what was seen in a preview only is still to be measured', () => {
  const verdicts = {
    ...allGood,
    sharp: said('unknown', 'sharp.preview-sharp'),
    exposed: said('unknown', 'exposed.preview'),
  };
  expect(frameSentence(verdicts)).toBe(
    'Whole: 25.4 MB, safe in two places. Sharp and Exposed are not measured yet.',
  );
});

test('a frame on its way says how far it is and nothing more', () => {
  const unknown = said('unknown');
  const arrived = said('unknown', 'arrived.arriving', { bytes: 5_000_000, expectedBytes: 10_000_000 });
  expect(
    frameSentence({ arrived, sharp: unknown, exposed: unknown, inPlace: unknown, colour: unknown }),
  ).toBe('Arriving: 5.0 MB of 10.0 MB, 50 %.');
});

test('why a frame cannot be shown leads before a doubt, and after something bad', () => {
  const reason = { code: 'picture.empty', args: { name: 'A.DNG' } };
  const doubtful = { ...allGood, arrived: said('doubt', 'arrived.one-place') };
  expect(frameSentence(doubtful, reason)).toBe('A.DNG is empty. Arrived needs a look as well.');
  const bad = { ...allGood, arrived: said('bad', 'arrived.empty') };
  expect(frameSentence(bad, reason)).toMatch(/^The file is empty/);
});

test('what was accepted is named and leads no more; what is muted is passed over, and not called right', () => {
  const soft = said('doubt', 'test.soft');
  const accepted = { ...allGood, sharp: { ...soft, settled: 'accepted' as const } };
  expect(frameSentence(accepted)).toBe(
    'Whole: 25.4 MB, safe in two places. Sharp is accepted. Everything else is right.',
  );
  const muted = { ...allGood, sharp: { ...soft, settled: 'muted' as const } };
  expect(frameSentence(muted)).toBe(
    'Whole: 25.4 MB, safe in two places. Everything else that is spoken of is right.',
  );
  const worse = { ...accepted, colour: said('bad', 'test.red') };
  expect(frameSentence(worse)).toBe('test.red. Sharp is accepted. Everything else is right.');
});
