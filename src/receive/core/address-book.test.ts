import { expect, test } from 'vitest';
import { defaultFtpLimits } from '../ftp/core/limits.ts';
import { AddressBook } from './address-book.ts';

const limits = {
  ...defaultFtpLimits,
  connectionsMax: 5,
  connectionsPerAddressMax: 3,
  connectionsReserved: 0,
  loginFailuresPerMinuteMax: 4,
};

test('4.4 the limit of one address and the limit in all hold, and a place is free again after leaving', () => {
  const book = new AddressBook(limits);
  expect([1, 2, 3, 4].map(() => book.enter('a'))).toEqual([true, true, true, false]);
  expect([1, 2, 3].map(() => book.enter('b'))).toEqual([true, true, false]);
  book.leave('a');
  expect([book.enter('c'), book.enter('c')]).toEqual([true, false]);
});

test('4.7 strangers leave the reserved places free, and only a known address gets them', () => {
  const book = new AddressBook({ ...limits, connectionsReserved: 2 });
  book.welcome('camera');
  expect(['a', 'b', 'c', 'd'].map((address) => book.enter(address))).toEqual([true, true, true, false]);
  expect([1, 2, 3].map(() => book.enter('camera'))).toEqual([true, true, false]);
});

test('4.7 so many addresses are known, then the one that logged in longest ago is a stranger again', () => {
  const book = new AddressBook({
    ...limits,
    connectionsMax: 3,
    connectionsReserved: 2,
    knownAddressesMax: 2,
  });
  for (const address of ['a', 'b', 'a', 'c']) book.welcome(address);
  book.enter('stranger');
  expect([book.enter('b'), book.enter('a'), book.enter('c')]).toEqual([false, true, true]);
});

test('4.2 failures count within a minute and per address', () => {
  const book = new AddressBook(limits);
  expect([0, 10, 20, 30].map((nowMs) => book.attempt('a', nowMs))).toEqual(
    [1, 2, 3, 4].map((failures) => ({ isHeard: true, failures })),
  );
  expect(book.attempt('a', 59_999)).toEqual({ isHeard: false, failures: 5 });
  expect(book.attempt('b', 59_999)).toEqual({ isHeard: true, failures: 1 });
  expect(book.attempt('a', 60_000)).toEqual({ isHeard: true, failures: 4 });
});

test('4.2 a right log-in takes its own note back and no other', () => {
  const book = new AddressBook(limits);
  book.attempt('a', 0);
  book.attempt('a', 1);
  book.welcome('a');
  expect(book.attempt('a', 2).failures).toBe(2);
});

test('4.2 many at once are not all looked at: an attempt counts before its answer is known', () => {
  const book = new AddressBook(limits);
  const heard = Array.from({ length: 40 }, () => book.attempt('a', 0).isHeard);
  expect(heard.filter((isHeard) => isHeard)).toHaveLength(limits.loginFailuresPerMinuteMax);
});

test('4.2 a flood of failures is remembered no further than it matters', () => {
  const book = new AddressBook(limits);
  for (let nowMs = 0; nowMs < 1000; nowMs += 1) book.attempt('a', nowMs);
  // The first four came at 0 to 3 ms: from a minute later on the address may try again.
  expect([book.attempt('a', 59_999).isHeard, book.attempt('a', 60_000).isHeard]).toEqual([false, true]);
});

test('4.2 the failures of so many addresses are remembered, and of one more the oldest are not', () => {
  const heard = (addresses: number): boolean => {
    const book = new AddressBook({ ...limits, loginFailuresPerMinuteMax: 1, failingAddressesMax: 3 });
    for (let number = 0; number < addresses; number += 1) book.attempt(`address ${number}`, 0);
    return book.attempt('address 0', 1).isHeard;
  };
  expect([heard(3), heard(4)]).toEqual([false, true]);
});
