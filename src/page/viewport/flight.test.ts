import { describe, expect, it } from 'vitest';
import { atRest, type Flight, flightSeen } from './flight.ts';

const heightCssPx = 800;

/** Scrolls evenly, seen sixty times a second. */
function scrolled(from: Flight, screensPerS: number, forMs: number, atMs = 1000): Flight {
  let flight = from;
  for (let past = 0; past <= forMs; past += 1000 / 60)
    flight = flightSeen(flight, (past / 1000) * screensPerS * heightCssPx, heightCssPx, atMs + past);
  return flight;
}

describe('how fast the sheet is scrolled', () => {
  it('flies at five screens a second, not at one', () => {
    expect(scrolled(atRest, 5, 300).flying).toBe(true);
    expect(scrolled(atRest, 1, 300).flying).toBe(false);
  });

  it('flies upwards as well', () => {
    expect(scrolled(atRest, -5, 300).flying).toBe(true);
  });

  it('goes on flying at a speed that would not begin it, and lands below that', () => {
    const flying = { ...scrolled(atRest, 5, 300), top: 0, atMs: 1000 };
    expect(scrolled(flying, 1.5, 300).flying).toBe(true);
    expect(scrolled(flying, 0.5, 300).flying).toBe(false);
  });

  it('is at rest for one jump, however far', () => {
    const before = flightSeen(atRest, 0, heightCssPx, 1000);
    expect(flightSeen(before, 90_000, heightCssPx, 9000).flying).toBe(false);
  });

  it('flies on where a busy machine is late with a step', () => {
    const flying: Flight = { top: 0, atMs: 1000, flying: true };
    expect(flightSeen(flying, 1_200, heightCssPx, 1300).flying).toBe(true);
    expect(flightSeen(flying, 1_200, heightCssPx, 2100).flying).toBe(false);
  });

  it('is at rest where nothing is seen yet', () => {
    expect(flightSeen({ top: 0, atMs: 0, flying: true }, 900, 0, 100).flying).toBe(false);
  });
});
