import { useEffect, useState } from 'react';
import type { Finding } from '../../../facts/index.ts';
import type { Look, LookProfile } from '../../../look/index.ts';
import type { LookWork } from '../work/look-work.ts';
import type { Show } from './show.ts';

/** Compiles what is worked on and puts it on the canvas; what had to be assumed comes back. */
export function useTables(
  show: Show | null,
  work: LookWork | null,
  side: 'now' | 'before',
  look: Look | null,
  profile: LookProfile | null,
  isTurning: boolean,
): { readonly findings: readonly Finding[]; readonly isShown: boolean } {
  const [shown, setShown] = useState<{ readonly look: Look; readonly findings: readonly Finding[] } | null>(
    null,
  );
  useEffect(() => {
    if (show === null || work === null || look === null || profile === null) return;
    let isStale = false;
    work.compile(look, profile, isTurning ? 'turning' : 'rest').then((tables) => {
      if (tables === null) return;
      // A turn's table is shown though the knob has moved on: the picture follows.
      if (isStale && !isTurning) return;
      show.setTables(side, tables);
      setShown({ look, findings: tables.findings });
    });
    return () => {
      isStale = true;
    };
  }, [show, work, side, look, profile, isTurning]);
  return { findings: shown?.findings ?? [], isShown: shown !== null };
}
