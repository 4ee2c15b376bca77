import { describe, expect, it } from 'vitest';
import { leftOf, markToSend, withoutFrames } from './open-marks.ts';

const one = { id: 'a', mark: 'hero' } as const;
const other = { id: 'b', mark: 'none' } as const;

describe('which mark is sent', () => {
  it('takes away a mark that all have', () => {
    expect(markToSend('hero', [one], [])).toBe('none');
    expect(markToSend('hero', [one, other], [])).toBe('hero');
  });

  it('sends again what had no answer, though it may have gone through', () => {
    expect(markToSend('hero', [one], [{ wanted: 'hero', ids: ['a'] }])).toBe('hero');
  });

  it('takes away again what is about other frames, or another mark', () => {
    expect(markToSend('hero', [one], [{ wanted: 'hero', ids: ['b'] }])).toBe('none');
    expect(markToSend('select', [{ ...one, mark: 'select' }], [{ wanted: 'hero', ids: ['a'] }])).toBe('none');
  });
});

describe('what is left of a mark without an answer', () => {
  const shown = new Map<string, { readonly mark: 'hero' | 'none' }>([
    ['a', one],
    ['b', other],
  ]);

  it('counts those that do not have it', () => {
    expect(leftOf({ wanted: 'hero', ids: ['a', 'b'] }, shown)).toBe(1);
    expect(leftOf({ wanted: 'hero', ids: ['a'] }, shown)).toBe(0);
  });

  it('does not wait for a frame that is gone', () => {
    expect(leftOf({ wanted: 'hero', ids: ['gone'] }, shown)).toBe(0);
  });
});

it('stays open, what another call was about, when one is answered', () => {
  const open = [
    { wanted: 'hero', ids: ['a', 'b'] },
    { wanted: 'out', ids: ['c'] },
  ] as const;
  expect(withoutFrames(open, ['d'])).toEqual(open);
  expect(withoutFrames(open, ['b', 'c'])).toEqual([{ wanted: 'hero', ids: ['a'] }]);
});
