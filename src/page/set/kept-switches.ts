import { z } from 'zod';
import { questions } from '../../facts/index.ts';
import { firstState, type PageState } from '../state/index.ts';

const place = 'setside.switches';
const switches = z.object({
  farView: z.boolean(),
  dimSurround: z.boolean(),
  letterKeys: z.boolean(),
  /** The verdict that lies open. */
  open: z.enum(questions).nullable().default(null),
});

/** The first state with the switches as this screen left them. */
export function withKeptSwitches(): PageState {
  try {
    const kept = switches.safeParse(JSON.parse(localStorage.getItem(place) ?? 'null'));
    return kept.success ? { ...firstState, ...kept.data } : firstState;
  } catch {
    return firstState;
  }
}

/** Keeps them for the next time; a browser that keeps nothing loses only the comfort. */
export function keepSwitches({
  farView,
  dimSurround,
  letterKeys,
  open,
}: Pick<PageState, 'farView' | 'dimSurround' | 'letterKeys' | 'open'>): void {
  try {
    localStorage.setItem(place, JSON.stringify({ farView, dimSurround, letterKeys, open }));
  } catch {
    // Storage is full or forbidden: the switches work all the same, for this visit.
  }
}
