import { InvalidArgumentError } from 'commander';

/** Reads a whole number of an option; both ends are allowed. */
export function wholeNumber(from: number, to: number): (text: string) => number {
  return (text) => {
    if (/^\d{1,10}$/.test(text) && Number(text) >= from && Number(text) <= to) return Number(text);
    throw new InvalidArgumentError(`expected a whole number from ${from} to ${to}`);
  };
}

/** Reads a number with up to six decimals. */
export function number(from: number, to: number): (text: string) => number {
  return (text) => {
    const value = /^\d{1,9}(\.\d{1,6})?$/.test(text) ? Number(text) : Number.NaN;
    if (value >= from && value <= to) return value;
    throw new InvalidArgumentError(`expected a number from ${from} to ${to}`);
  };
}

/** From one row of a sensor to the next: it is read in some milliseconds to a quarter of a second. */
export function rowTimeUs(text: string): number {
  const us = Number(text);
  if (us > 0 && us <= 1000) return us;
  throw new InvalidArgumentError(`expected microseconds, up to 1000, got "${text}"`);
}
