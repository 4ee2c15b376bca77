import { type RefObject, useCallback, useEffect, useLayoutEffect, useReducer, useRef } from 'react';
import { frameSpot } from '../viewport/index.ts';
import type { Field } from './sheet-field.tsx';
import { type SheetStep, stepOnSheet } from './sheet-steps.ts';
import { emptyHand, type Hand, type HandAction, reduceHand } from './state/hand.ts';
import type { SheetGroup } from './state/sheet-groups.ts';

export interface HandTools {
  readonly hand: Hand;
  readonly tell: (action: HandAction) => void;
  /** One step with the keys; `reach` takes all on the way in hand. */
  readonly step: (step: SheetStep, reach: boolean) => void;
}

/** What is in hand, and the keys' way over the sheet: the frame they are at is brought into sight and has the focus. */
export function useHand(
  groups: readonly SheetGroup[],
  lying: readonly string[],
  field: RefObject<Field | null>,
): HandTools {
  const [hand, tell] = useReducer(reduceHand, emptyHand);
  const byKeys = useRef(false);
  const step = useCallback(
    (way: SheetStep, reach: boolean) => {
      const id = stepOnSheet(groups, field.current?.measures.columns ?? 1, hand.at, way);
      if (id === null) return;
      byKeys.current = true;
      tell(reach ? { type: 'reach', id, lying } : { type: 'take', id });
    },
    [groups, lying, field, hand.at],
  );
  const { at } = hand;
  // Its row first; then it is drawn, and can have the focus.
  useLayoutEffect(() => {
    if (byKeys.current && at !== null) bringIntoSight(at, groups, field.current);
  }, [at, groups, field]);
  useEffect(() => {
    if (!byKeys.current || at === null) return;
    const frame = requestAnimationFrame(() => {
      const scroller = field.current?.scroller.current;
      const cell = [...(scroller?.querySelectorAll<HTMLElement>('.sheet-cell') ?? [])].find(
        ({ dataset }) => dataset.frameId === at && dataset.part === 'frame',
      );
      cell?.focus({ preventScroll: true });
      if (cell !== undefined) byKeys.current = false;
    });
    return () => cancelAnimationFrame(frame);
  });
  return { hand, tell, step };
}

function bringIntoSight(id: string, groups: readonly SheetGroup[], field: Field | null): void {
  const box = field?.scroller.current;
  if (field == null || box == null) return;
  for (const [index, { frames }] of groups.entries()) {
    const at = frames.findIndex((frame) => frame.id === id);
    const place = field.layout.places[index];
    if (at < 0 || place === undefined) continue;
    const { top, height } = frameSpot(at, place, field.measures);
    const own = place.top + top;
    const margin = field.measures.headHeight + field.measures.gap;
    if (own - margin < box.scrollTop) box.scrollTop = Math.max(0, own - margin);
    else if (own + height + margin > box.scrollTop + box.clientHeight)
      box.scrollTop = own + height + margin - box.clientHeight;
    return;
  }
}
