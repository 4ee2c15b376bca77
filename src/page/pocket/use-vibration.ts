import { useState } from 'react';
import type { Judgement } from '../../facts/index.ts';
import type { PageState } from '../state/index.ts';
import { gravest, useTellings } from '../voice/index.ts';

export interface Vibration {
  /** Whether this phone can, and its browser lets it. */
  readonly can: boolean;
  readonly on: boolean;
  toggle(): void;
  /** A guest has said something. */
  tellWord(): void;
}

/** On and off in turn, ms: told apart in a pocket by how many and how long. A good frame needs one short word. */
const patterns: Readonly<Record<Judgement, readonly number[]>> = {
  good: [70],
  doubt: [70, 90, 70],
  bad: [350, 120, 350],
  unknown: [600],
};
/** Three quick ones, which no verdict has. */
const wordPattern: readonly number[] = [40, 60, 40, 60, 40];
const place = 'setside.vibrate';

/**
 * Vibrates for what is told of new frames, as it is heard: once each, when it is measured; of several at once for the
 * gravest. Browsers want a touch before the first one, which the switch is.
 */
export function useVibration(state: Pick<PageState, 'frames' | 'link' | 'allFrames'>): Vibration {
  const can = 'vibrate' in navigator;
  const [on, setOn] = useState(wasOn);
  useTellings(state, (tellings) => {
    if (on && can) navigator.vibrate([...patterns[gravest(tellings)]]);
  });
  const toggle = (): void => {
    const next = !on;
    setOn(next);
    keep(next);
    if (next && can) navigator.vibrate([...patterns.good]);
  };
  const tellWord = (): void => {
    if (on && can) navigator.vibrate([...wordPattern]);
  };
  return { can, on, toggle, tellWord };
}

function wasOn(): boolean {
  try {
    return localStorage.getItem(place) === 'on';
  } catch {
    return false;
  }
}

function keep(on: boolean): void {
  try {
    localStorage.setItem(place, on ? 'on' : 'off');
  } catch {
    // Storage is full or forbidden: it works all the same, for this visit.
  }
}
