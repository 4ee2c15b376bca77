import type { KeyboardEvent } from 'react';
import type { Hand } from './hand.ts';

export interface TurnKeys {
  readonly onKeyDown: (event: KeyboardEvent) => void;
  readonly onKeyUp: () => void;
  readonly onBlur: () => void;
}

/**
 * Turning by keys: `turn` answers whether the key was one of its own. A key that is held is one turn, which ends when it
 * comes up, or when the focus goes elsewhere before it does.
 */
export function turnKeys(hand: Hand, turn: (event: KeyboardEvent) => boolean): TurnKeys {
  return {
    onKeyDown: (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      if (turn(event)) event.preventDefault();
    },
    onKeyUp: hand.letGo,
    onBlur: hand.letGo,
  };
}

/** Where a key takes a knob; null for another key, and for a rest that there is not. */
export function keyed(
  key: string,
  value: number,
  step: number,
  { min, max, rest }: { readonly min: number; readonly max: number; readonly rest: number | null },
): number | null {
  switch (key) {
    case 'ArrowRight':
    case 'ArrowUp':
      return value + step;
    case 'ArrowLeft':
    case 'ArrowDown':
      return value - step;
    case 'PageUp':
      return value + step * 10;
    case 'PageDown':
      return value - step * 10;
    case 'Home':
      return min;
    case 'End':
      return max;
    case '0':
      return rest;
    default:
      return null;
  }
}
