import type { Judgement } from '../../facts/index.ts';

/** One sounding tone of a pattern. */
export interface Tone {
  /** From the beginning of the pattern. */
  readonly atMs: number;
  readonly lastsMs: number;
  readonly hertz: number;
  /** Where it glides to; the same for a level tone. */
  readonly toHertz: number;
  /** 0 … 1, before the volume. */
  readonly level: number;
}

export type TonePattern = readonly Tone[];

/** `count` equal tones with equal pauses. */
function repeated(count: number, lastsMs: number, pauseMs: number, hertz: number, level = 1): TonePattern {
  return Array.from({ length: count }, (_, index) => ({
    atMs: index * (lastsMs + pauseMs),
    lastsMs,
    hertz,
    toHertz: hertz,
    level,
  }));
}

/**
 * Told apart by how many, how long and how high, so that neither a language nor a good ear is needed: one short high, two
 * middling, three long low; unknown is one long soft one. All lie where small loudspeakers are loud and where hearing has
 * lost least with age (500 to 1500 Hz; common practice, no source).
 */
export const verdictTones: Readonly<Record<Judgement, TonePattern>> = {
  good: repeated(1, 90, 0, 1175),
  doubt: repeated(2, 140, 110, 784),
  bad: repeated(3, 240, 90, 523),
  unknown: repeated(1, 420, 0, 659, 0.6),
};

/** The station is gone: falls twice, as nothing else does. */
export const goneTones: TonePattern = [0, 520].map((atMs) => ({
  atMs,
  lastsMs: 420,
  hertz: 880,
  toHertz: 440,
  level: 1,
}));

/** A guest has said something: rises softly twice, where every verdict is level. */
export const wordTones: TonePattern = [0, 220].map((atMs) => ({
  atMs,
  lastsMs: 140,
  hertz: 587,
  toHertz: 880,
  level: 0.7,
}));

/** How long a pattern sounds, ms. */
export function lengthMsOf(pattern: TonePattern): number {
  return pattern.reduce((longest, { atMs, lastsMs }) => Math.max(longest, atMs + lastsMs), 0);
}
