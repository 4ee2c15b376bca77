import { type RefObject, useCallback, useEffect, useLayoutEffect, useReducer, useRef } from 'react';
import {
  frameSpot,
  type GroupPlace,
  type SheetMeasures,
  type SheetSpot,
  spotsSeen,
} from '../viewport/index.ts';
import type { Field } from './sheet-field.tsx';
import { countsOf, framesIn, type SheetStep, type SheetStop, stepOnSheet } from './sheet-steps.ts';
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
      const measures = field.current?.measures;
      if (measures === undefined) return;
      const from = hand.at === null ? null : { id: hand.at, chosen: hand.chosen };
      const stop = stepOnSheet(groups, measures, from, way);
      if (stop === null) return;
      byKeys.current = true;
      tell(reach ? { type: 'reach', ...stop, lying } : { type: 'take', ...stop });
    },
    [groups, lying, field, hand.at, hand.chosen],
  );
  const { at, chosen } = hand;
  // Its row first; then it is drawn, and can have the focus.
  useLayoutEffect(() => {
    if (byKeys.current && at !== null) bringIntoSight({ id: at, chosen }, groups, field.current);
  }, [at, chosen, groups, field]);
  useEffect(() => {
    if (!byKeys.current || at === null) return;
    const frame = requestAnimationFrame(() => {
      const scroller = field.current?.scroller.current;
      const cell = [...(scroller?.querySelectorAll<HTMLElement>('.sheet-cell') ?? [])].find(
        ({ dataset }) => dataset.frameId === at && (dataset.part !== 'frame') === chosen,
      );
      cell?.focus({ preventScroll: true });
      if (cell !== undefined) byKeys.current = false;
    });
    return () => cancelAnimationFrame(frame);
  });
  return { hand, tell, step };
}

function bringIntoSight(stop: SheetStop, groups: readonly SheetGroup[], field: Field | null): void {
  const box = field?.scroller.current;
  if (field == null || box == null) return;
  for (const [index, group] of groups.entries()) {
    const place = field.layout.places[index];
    const spot = place === undefined ? null : spotOf(stop, group, place, field.measures);
    if (place === undefined || spot === null) continue;
    const { top, height } = spot;
    const own = place.top + top;
    const margin = field.measures.headHeight + field.measures.gap;
    if (own - margin < box.scrollTop) box.scrollTop = Math.max(0, own - margin);
    else if (own + height + margin > box.scrollTop + box.clientHeight)
      box.scrollTop = own + height + margin - box.clientHeight;
    return;
  }
}

/** Null where it does not lie there. */
function spotOf(
  { id, chosen }: SheetStop,
  group: SheetGroup,
  place: GroupPlace,
  measures: SheetMeasures,
): SheetSpot | null {
  if (!chosen) {
    const at = group.frames.findIndex((frame) => frame.id === id);
    return at < 0 ? null : frameSpot(at, place, measures);
  }
  const above = spotsSeen({ ...countsOf(group), frames: 0 }, place, measures, -1, place.framesTop);
  return above.find((spot) => framesIn(group, spot)[spot.index]?.id === id) ?? null;
}
