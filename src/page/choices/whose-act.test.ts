import { describe, expect, it } from 'vitest';
import { whoseAct } from './whose-act.ts';

describe('whose act it was', () => {
  it('is not said of what was done on this screen', () => {
    expect(whoseAct({ by: 'operator', screen: 'mine0000' }, 'mine0000')).toBe('');
  });

  it('tells another page, and a command, of the same computer', () => {
    expect(whoseAct({ by: 'operator', screen: 'other000' }, 'mine0000')).toBe('on another screen');
    expect(whoseAct({ by: 'operator', screen: null }, 'mine0000')).toBe('by a command');
  });

  it('names who came in by a link', () => {
    expect(whoseAct({ by: 'Tripod', screen: 'other000' }, 'mine0000')).toBe('by Tripod');
  });
});
