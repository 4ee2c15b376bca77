import { useEffect, useRef, useState } from 'react';
import type { Look, LookProfile } from '../../../look/index.ts';
import type { Pace } from '../off-thread/compiler.ts';
import type { LookWork } from '../off-thread/look-work.ts';
import type { Show } from './show.ts';

export interface ShownTables {
  /** Some table of some look is on the canvas. */
  readonly isShown: boolean;
  /** It is the one that the station would compile of the look at hand. */
  readonly isAtRest: boolean;
}

interface ShownTable {
  readonly look: Look;
  readonly profile: LookProfile;
  readonly isRest: boolean;
}

/** Compiles what is worked on and puts it on the canvas: by `turning` while a knob is turned, by `rest` otherwise. */
export function useTables(
  show: Show | null,
  { turning, rest }: { readonly turning: LookWork | null; readonly rest: LookWork | null },
  side: 'now' | 'before',
  look: Look | null,
  profile: LookProfile | null,
  isTurning: boolean,
): ShownTables {
  const [shown, setShown] = useState<ShownTable | null>(null);
  /** Wishes are counted: of two workers the one that was asked first may answer last. */
  const count = useRef({ asked: 0, shown: 0 });
  useEffect(() => {
    if (show === null || look === null || profile === null) return;
    let isStale = false;
    const ask = (work: LookWork, pace: Pace): void => {
      count.current.asked += 1;
      const own = count.current.asked;
      work.compile(look, profile, pace).then((tables) => {
        if (tables === null || own < count.current.shown) return;
        // While a knob is turned its table is shown though it has moved on: the picture follows.
        if (isStale && !isTurning) return;
        count.current.shown = own;
        show.setTables(side, tables);
        setShown({ look, profile, isRest: pace === 'rest' });
      });
    };
    // A step by a key is seen at once too, and then finer.
    if (turning !== null) ask(turning, 'turning');
    if (rest !== null && !isTurning) ask(rest, 'rest');
    return () => {
      isStale = true;
    };
  }, [show, turning, rest, side, look, profile, isTurning]);
  const isOf = shown?.look === look && shown?.profile === profile;
  return { isShown: shown !== null, isAtRest: isOf && shown?.isRest === true };
}
