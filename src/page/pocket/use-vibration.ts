import { useEffect, useRef, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import type { Judgement } from '../../facts/index.ts';
import { worstJudgement } from '../set/worst-judgement.ts';
import { isArriving } from '../state/index.ts';

export interface Vibration {
  /** Whether this phone can, and its browser lets it. */
  readonly can: boolean;
  readonly on: boolean;
  toggle(): void;
}

/** On and off in turn, ms: told apart in a pocket by how many and how long. A good frame needs one short word. */
const patterns: Readonly<Record<Judgement, readonly number[]>> = {
  good: [70],
  doubt: [70, 90, 70],
  bad: [350, 120, 350],
  unknown: [],
};
const place = 'setside.vibrate';

/**
 * Vibrates once for each frame that is followed, when its verdict is there, and again should that get worse or better.
 * Browsers want a touch before the first one, which the switch is. What was there when the page opened stays still.
 */
export function useVibration(frame: Frame | null, isLive: boolean): Vibration {
  const can = 'vibrate' in navigator;
  const [on, setOn] = useState(wasOn);
  const told = useRef<string | null>(null);
  useEffect(() => {
    if (frame === null || !isLive || isArriving(frame)) return;
    const judgement = worstJudgement(frame);
    const gist = `${frame.id} ${judgement}`;
    const isFirst = told.current === null;
    if (told.current === gist) return;
    told.current = gist;
    if (!isFirst && on && can) navigator.vibrate([...patterns[judgement]]);
  }, [frame, isLive, on, can]);
  const toggle = (): void => {
    const next = !on;
    setOn(next);
    keep(next);
    if (next && can) navigator.vibrate([...patterns.good]);
  };
  return { can, on, toggle };
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
