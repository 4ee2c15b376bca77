import { beforeEach, describe, expect, it } from 'vitest';
import type { FrameChoice } from '../../job/index.ts';
import { ActBook } from './act-book.ts';

const operator = { name: 'operator', screen: 'screen01' };
const what = (count: number) => ({ code: 'job.frames-marked', args: { count, mark: 'hero' } });
const marked = (frame: string): FrameChoice[] => [{ type: 'mark-set', frame, mark: 'hero' }];
const back = (frame: string): FrameChoice[] => [{ type: 'mark-set', frame, mark: 'none' }];

describe('an act that comes in parts', () => {
  let acts: ActBook;

  beforeEach(() => {
    let ids = 0;
    acts = new ActBook(
      () => 1,
      () => `act-${++ids}`,
    );
  });

  it('is one act, told of all its frames, and is taken back as a whole with the last part first', () => {
    acts.notePart(operator, 'whole-01', what, marked('a'), back('a'));
    acts.notePart(operator, 'whole-01', what, marked('b'), back('b'));
    expect(acts.all()).toHaveLength(1);
    expect(acts.find(undefined)).toMatchObject({
      id: 'act-1',
      screen: 'screen01',
      what: what(2),
      choices: [...marked('a'), ...marked('b')],
      inverse: [...back('b'), ...back('a')],
    });
  });

  it('is found where it began, though somebody did something else meanwhile', () => {
    acts.notePart(operator, 'whole-01', what, marked('a'), back('a'));
    acts.note({ name: 'Tripod' }, { code: 'job.frame-marked', args: {} }, marked('a'), back('a'));
    acts.notePart(operator, 'whole-01', what, marked('b'), back('b'));
    expect(acts.all().map(({ by }) => by)).toEqual(['Tripod', 'operator']);
    expect(() => acts.find('act-1')).toThrow('a later act');
  });

  it('is another person’s own where two made up the same name', () => {
    acts.notePart(operator, 'whole-01', what, marked('a'), back('a'));
    acts.notePart({ name: 'Tripod' }, 'whole-01', what, marked('b'), back('b'));
    expect(acts.all()).toHaveLength(2);
  });

  it('is known as taken back until something else is done', () => {
    acts.notePart(operator, 'whole-01', what, marked('a'), back('a'));
    acts.takenBack(acts.find(undefined), operator);
    expect(acts.isTakenBack(operator, 'whole-01')).toBe(true);
    expect(acts.isTakenBack(operator, 'whole-02')).toBe(false);
  });
});
