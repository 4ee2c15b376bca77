import { expect, test } from 'vitest';
import { AddressBook } from './address-book.ts';
import { defaultFtpLimits } from './limits.ts';

const limits = {
  ...defaultFtpLimits,
  connectionsMax: 5,
  connectionsPerAddressMax: 3,
  loginFailuresPerMinuteMax: 4,
};

test('4.4 the limit of one address and the limit in all hold, and a place is free again after leaving', () => {
  const book = new AddressBook(limits);
  expect([1, 2, 3, 4].map(() => book.enter('a'))).toEqual([true, true, true, false]);
  expect([1, 2, 3].map(() => book.enter('b'))).toEqual([true, true, false]);
  book.leave('a');
  expect([book.enter('c'), book.enter('c')]).toEqual([true, false]);
});

test('4.2 failures count within a minute and per address', () => {
  const book = new AddressBook(limits);
  expect([0, 10, 20].map((nowMs) => book.fail('a', nowMs))).toEqual([1, 2, 3]);
  expect(book.mayTry('a', 30)).toBe(true);
  expect(book.fail('a', 30)).toBe(4);
  expect([book.mayTry('a', 59_999), book.mayTry('b', 59_999), book.mayTry('a', 60_000)]).toEqual([
    false,
    true,
    true,
  ]);
});

test('4.2 a flood of failures is remembered no further than it matters', () => {
  const book = new AddressBook(limits);
  for (let nowMs = 0; nowMs < 1000; nowMs += 1) book.fail('a', nowMs);
  expect(book.fail('a', 1000)).toBe(limits.loginFailuresPerMinuteMax + 1);
  // The first four came at 0 to 3 ms: from a minute later on the address may try again.
  expect([book.mayTry('a', 59_999), book.mayTry('a', 60_000)]).toEqual([false, true]);
});
