import type { Hand } from './state/hand.ts';

interface Drawn {
  readonly key: string;
  readonly part: 'hero' | 'select' | 'frame';
  readonly id: string;
}

/**
 * The key of the one cell that Tab leads to: where the keys are, or the first that is drawn, a frame in its place in the day
 * before one that is printed large. Only what is drawn can be reached; a sheet that scrolls and has no stop cannot be scrolled by keys.
 */
export function tabStop(drawn: readonly Drawn[], { at, chosen }: Pick<Hand, 'at' | 'chosen'>): string | null {
  const frames = drawn.filter(({ part }) => part === 'frame');
  const above = chosen ? drawn.find(({ part, id }) => part !== 'frame' && id === at) : undefined;
  return (above ?? frames.find(({ id }) => id === at) ?? frames[0] ?? drawn[0])?.key ?? null;
}
