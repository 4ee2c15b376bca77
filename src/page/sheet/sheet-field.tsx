import { type ReactNode, type RefObject, useLayoutEffect, useMemo, useRef } from 'react';
import { contactLabels, framesPhrase, shotlessPhrase } from '../../words/index.ts';
import {
  frameSpot,
  type GroupPlace,
  layoutSheet,
  noteHeight,
  type SheetLayout,
  type SheetMeasures,
  type SheetSpot,
  sheetMeasures,
  spotsSeen,
} from '../viewport/index.ts';
import { SheetCell } from './sheet-cell.tsx';
import { countsOf, framesIn } from './sheet-steps.ts';
import type { Hand } from './state/hand.ts';
import type { SheetGroup } from './state/sheet-groups.ts';
import { tabStop } from './tab-stop.ts';
import { type SeenStretch, useScroll } from './use-scroll.ts';

/** A cell is about so wide, CSS pixels: twelve across a large screen, three across a phone. */
const wishCssPx = 148;
const narrowWishCssPx = 104;
const wordsCssPx = 26;

/** Where things lie on the sheet now, for keys and for what brings a frame into sight. */
export interface Field {
  readonly layout: SheetLayout;
  readonly measures: SheetMeasures;
  readonly scroller: RefObject<HTMLDivElement | null>;
}

interface SheetFieldProps {
  readonly groups: readonly SheetGroup[];
  readonly hand: Hand;
  readonly field: RefObject<Field | null>;
  /** Earlier frames are still coming in: they lie down above, and what is seen stays. */
  readonly reading: boolean;
  readonly children: ReactNode;
}

/**
 * A sheet of paper for each shot on the grey, of which only what is seen is there. What one looks at stays where it is when
 * frames come in or are chosen above it.
 */
export function SheetField({ groups, hand, field, reading, children }: SheetFieldProps): ReactNode {
  const scroller = useRef<HTMLDivElement>(null);
  const { seen, look, flying } = useScroll(scroller);
  const shown = useRef<ReadonlySet<string>>(new Set());
  const showing = new Set<string>();
  const wish = seen.width < 700 ? narrowWishCssPx : wishCssPx;
  const measures = useMemo(() => sheetMeasures(seen.width, wish, wordsCssPx), [seen.width, wish]);
  const layout = useMemo(() => layoutSheet(groups.map(countsOf), measures), [groups, measures]);
  field.current = { layout, measures, scroller };
  useLayoutEffect(() => {
    shown.current = showing;
  });
  useSteady(scroller, groups, layout, measures, look, reading);
  const sheets =
    seen.height === 0 ? [] : groups.flatMap((group, at) => seenOf(group, layout.places[at], measures, seen));
  const drawn = sheets.flatMap(({ cells }) => cells);
  const stop = tabStop(drawn, hand);

  // While it flies by only the pictures that are there already are drawn: a new one would be gone before it was here.
  const shows = (key: string): boolean => {
    if (flying && !shown.current.has(key)) return false;
    showing.add(key);
    return true;
  };

  return (
    <section className="sheet-field" ref={scroller} onScroll={look} aria-label={contactLabels.frames}>
      {children}
      <div className="sheet-length" style={{ height: layout.height }}>
        {sheets.map(({ group, place, cells }) => (
          <SheetOfShot
            key={group.id}
            group={group}
            place={place}
            measures={measures}
            cells={cells}
            hand={hand}
            stop={stop}
            shows={shows}
          />
        ))}
      </div>
    </section>
  );
}

/** So much is drawn beyond the edges of what is seen: a turn of a wheel, and the fling of a finger. */
const aheadShare = 0.75;

interface Cell {
  readonly key: string;
  readonly part: SheetSpot['part'];
  readonly id: string;
  readonly frame: SheetGroup['frames'][number];
  readonly spot: SheetSpot;
}

/** A shot's sheet and those of its cells that are drawn; none where it lies elsewhere. */
function seenOf(
  group: SheetGroup,
  place: GroupPlace | undefined,
  measures: SheetMeasures,
  seen: SeenStretch,
): readonly { readonly group: SheetGroup; readonly place: GroupPlace; readonly cells: readonly Cell[] }[] {
  if (place === undefined || !touches(place, seen)) return [];
  const ahead = seen.height * aheadShare;
  const from = seen.top - ahead - place.top;
  const spots = spotsSeen(countsOf(group), place, measures, from, from + seen.height + 2 * ahead);
  const cells = spots.flatMap((spot) => {
    const frame = framesIn(group, spot)[spot.index];
    if (frame === undefined) return [];
    return [{ key: `${spot.part} ${frame.id}`, part: spot.part, id: frame.id, frame, spot }];
  });
  return [{ group, place, cells }];
}

function touches({ top, height }: GroupPlace, seen: SeenStretch): boolean {
  const ahead = seen.height * aheadShare;
  return top + height > seen.top - ahead && top < seen.top + seen.height + ahead;
}

interface SheetOfShotProps {
  readonly group: SheetGroup;
  readonly place: GroupPlace;
  readonly measures: SheetMeasures;
  readonly cells: readonly Cell[];
  readonly hand: Hand;
  /** Key of the cell that Tab leads to. */
  readonly stop: string | null;
  /** Whether a cell's picture is drawn, by the cell's key. */
  readonly shows: (key: string) => boolean;
}

function SheetOfShot({ group, place, measures, cells, hand, stop, shows }: SheetOfShotProps): ReactNode {
  const name = group.name === '' ? (group.id === '' ? nameOfRest(group) : group.id) : group.name;
  const { heroes, frames, whole } = group;
  const note = shotlessPhrase(group.shotless);
  return (
    <section
      className="sheet-shot paper"
      data-group={group.id}
      aria-label={name}
      style={{ top: place.top, height: place.height }}
    >
      <h2 style={{ height: measures.headHeight }}>
        <span>{name}</span>
        <small>
          {frames.length === whole ? framesPhrase(whole) : contactLabels.shownOf(frames.length, whole)}
          {heroes.length === 0 ? '' : `, ${contactLabels.heroes(heroes.length)}`}
        </small>
      </h2>
      {note === '' ? null : (
        <p className="sheet-note" style={{ height: noteHeight(note.length, measures) }}>
          {note}
        </p>
      )}
      {cells.map(({ key, part, frame, spot }) => (
        <SheetCell
          key={key}
          frame={frame}
          part={part}
          spot={spot}
          inHand={hand.ids.has(frame.id)}
          stop={key === stop}
          shown={shows(key)}
        />
      ))}
    </section>
  );
}

/** Of no shot, or all together where nothing is grouped. */
function nameOfRest({ frames }: SheetGroup): string {
  return frames.some(({ shot }) => shot !== null) ? contactLabels.together : contactLabels.noShot;
}

interface Anchor {
  readonly id: string;
  /** From the top of what is seen, CSS pixels. */
  readonly offset: number;
}

/** Keeps the first frame that is seen at its height when the layout changes under it. */
function useSteady(
  scroller: RefObject<HTMLDivElement | null>,
  groups: readonly SheetGroup[],
  layout: SheetLayout,
  measures: SheetMeasures,
  look: () => void,
  reading: boolean,
): void {
  const anchor = useRef<Anchor | null>(null);
  const laid = useRef<SheetLayout | null>(null);
  useLayoutEffect(() => {
    const box = scroller.current;
    if (box === null) return;
    const held = anchor.current;
    if (laid.current !== null && laid.current !== layout && held !== null && (reading || box.scrollTop > 0)) {
      const top = topOf(held.id, groups, layout, measures);
      if (top !== null && Math.abs(top - held.offset - box.scrollTop) >= 1) {
        box.scrollTop = top - held.offset;
        look();
      }
    }
    laid.current = layout;
    const note = (): void => {
      anchor.current = anchorAt(box.scrollTop, groups, layout, measures);
    };
    note();
    box.addEventListener('scroll', note, { passive: true });
    return () => box.removeEventListener('scroll', note);
  }, [scroller, groups, layout, measures, look, reading]);
}

function topOf(
  id: string,
  groups: readonly SheetGroup[],
  layout: SheetLayout,
  measures: SheetMeasures,
): number | null {
  for (const [at, group] of groups.entries()) {
    const place = layout.places[at];
    const index = group.frames.findIndex((frame) => frame.id === id);
    if (place !== undefined && index >= 0) return place.top + frameSpot(index, place, measures).top;
  }
  return null;
}

/** The first frame whose top is seen. */
function anchorAt(
  top: number,
  groups: readonly SheetGroup[],
  layout: SheetLayout,
  measures: SheetMeasures,
): Anchor | null {
  const at = layout.places.findIndex((place) => place.top + place.height > top);
  const place = layout.places[at];
  const group = groups[at];
  if (place === undefined || group === undefined) return null;
  const row = measures.cellHeight + measures.gap;
  const index = Math.max(0, Math.ceil((top - place.top - place.framesTop) / row)) * measures.columns;
  const frame = group.frames[Math.min(index, group.frames.length - 1)];
  if (frame === undefined) return null;
  const own = place.top + frameSpot(Math.min(index, group.frames.length - 1), place, measures).top;
  return { id: frame.id, offset: own - top };
}
