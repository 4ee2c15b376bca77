import { describe, expect, test } from 'vitest';
import { FirstLook } from './first-look.ts';

const limits = { quietMs: 10, firstLookMs: 1000 };

describe('12.6 the first look at a folder', () => {
  test('is over when the last file seen has lain still for as long as the first', () => {
    const look = new FirstLook(limits, 0);
    look.seeing();
    look.seeing();
    look.seen(20);
    look.listed(30);
    expect(look.isOver(500)).toBe(false);
    look.seen(500);
    expect([509, 510].map((nowMs) => look.isOver(nowMs))).toEqual([false, true]);
  });

  test('is not over while names are still being told, though each one told was seen', () => {
    const look = new FirstLook(limits, 0);
    look.seeing();
    look.seen(1);
    expect(look.isOver(500)).toBe(false);
    look.listed(600);
    expect([609, 610].map((nowMs) => look.isOver(nowMs))).toEqual([false, true]);
  });

  test('of a folder that has no end holds up nothing for longer than its limit', () => {
    const look = new FirstLook(limits, 100);
    look.seeing();
    expect([1099, 1100].map((nowMs) => look.isOver(nowMs))).toEqual([false, true]);
  });

  test('is not begun again by what turns up later', () => {
    const look = new FirstLook(limits, 0);
    look.listed(0);
    look.seeing();
    expect(look.isOver(10)).toBe(true);
    look.seen(15);
    expect(look.isOver(16)).toBe(true);
  });
});
