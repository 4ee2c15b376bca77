import { expect, test } from 'vitest';
import { agreementStanding, heroesSeen, isForGuests, seenPicture } from './agreement.ts';

const rendered = { state: 'rendered', look: 'l1', target: null } as const;
const frame = {
  id: 'f',
  shot: 'mug',
  mark: 'hero',
  purpose: 'picture',
  share: null,
  picture: rendered,
} as const;
const seen = { frame: 'f', look: 'l1', profile: null };

/** Decision 0016: marks share, a hand may say otherwise, what is out or no picture is never shown. */
test.each([
  ['a hero', {}, true],
  ['a select', { mark: 'select' }, true],
  ['an alternate', { mark: 'alternate' }, true],
  ['one without a mark', { mark: 'none' }, false],
  ['one without a mark, shown by hand', { mark: 'none', share: 'shown' }, true],
  ['a hero that is kept back', { share: 'kept-back' }, false],
  ['one put aside, shown by hand', { mark: 'out', share: 'shown' }, false],
  ['a target', { purpose: 'target' }, false],
  ['one that is still coming', { picture: { state: 'first-view' } }, false],
] as const)('%s is for guests: %o, %s', (_what, parts, expected) => {
  expect(isForGuests({ ...frame, ...parts })).toBe(expected);
});

test('an agreement stands for the very heroes it was given to, in whatever order', () => {
  const other = { frame: 'g', look: 'l1', profile: null };
  expect(agreementStanding([seen, other], [other, seen])).toBe('stands');
  expect(agreementStanding([seen], [seen, other])).toBe('older-hero');
  expect(agreementStanding([seen, other], [seen])).toBe('older-hero');
  expect(agreementStanding([seen], [other])).toBe('older-hero');
  expect(agreementStanding([seen], [])).toBe('older-hero');
  expect(agreementStanding([seen], [{ ...seen, look: 'l2' }])).toBe('older-look');
  expect(agreementStanding([seen], [{ ...seen, profile: 'p' }])).toBe('older-look');
});

test('the heroes of a shot are its own, and those only that guests see', () => {
  const frames = [
    frame,
    { ...frame, id: 'jug', shot: 'jug' },
    { ...frame, id: 'select', mark: 'select' },
    { ...frame, id: 'back', share: 'kept-back' },
    { ...frame, id: 'target', picture: { ...rendered, target: { profile: 'p' } } },
  ] as const;
  expect(heroesSeen(frames, 'mug')).toEqual([seen, { frame: 'target', look: 'l1', profile: 'p' }]);
  expect(seenPicture({ id: 'f', picture: { state: 'none' } })).toBeNull();
});
