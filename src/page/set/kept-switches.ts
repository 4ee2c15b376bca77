import { z } from 'zod';
import { firstState, type PageState } from '../state/index.ts';

const place = 'setside.switches';
const switches = z.object({ farView: z.boolean(), dimSurround: z.boolean(), letterKeys: z.boolean() });

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
export function keepSwitches({ farView, dimSurround, letterKeys }: PageState): void {
  try {
    localStorage.setItem(place, JSON.stringify({ farView, dimSurround, letterKeys }));
  } catch {
    // Storage is full or forbidden: the switches work all the same, for this visit.
  }
}
