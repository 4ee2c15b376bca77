import { useEffect, useRef } from 'react';
import type { Frame } from '../../../contract/index.ts';
import { fetchLookVersions } from '../../link/index.ts';
import { baseOf, plainBase } from './base.ts';
import type { Work } from './use-working.ts';

/**
 * The page begins with the look in force of the frame it was opened on, unless somebody has turned something that is not
 * saved (before it was asked for or while the answer was on its way), or has gone on from that look already. Stepping to other frames shows them with the look at hand.
 */
export function useLookInForce(frame: Frame | null, { isTouched, openInForce, working }: Work): void {
  const isDone = useRef(false);
  const id = frame?.look.id ?? null;
  const isKnown = frame !== null;
  const isHonoured = isTouched || id === working.history.present.base.id || id === working.inForce;
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, as soon as the frame is known
  useEffect(() => {
    if (!isKnown || isDone.current) return;
    isDone.current = true;
    if (isHonoured) return;
    const asked = working.history.present;
    if (id === null) {
      openInForce(plainBase, asked);
      return;
    }
    fetchLookVersions(id).then(
      (versions) => {
        const inForce = versions.find((look) => look.id === id);
        if (inForce !== undefined) openInForce(baseOf(inForce), asked);
      },
      () => undefined,
    );
  }, [isKnown]);
}
