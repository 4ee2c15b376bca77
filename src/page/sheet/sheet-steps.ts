import { shotlessPhrase } from '../../words/index.ts';
import {
  layoutSheet,
  type SheetCounts,
  type SheetLayout,
  type SheetMeasures,
  type SheetSpot,
  spotsSeen,
} from '../viewport/index.ts';
import type { SheetGroup } from './state/sheet-groups.ts';

/** Which way a key goes on the sheet. */
export type SheetStep = 'left' | 'right' | 'up' | 'down' | 'first' | 'last';

/** Where the keys are: at a frame, among the chosen above or where it was taken. */
export interface SheetStop {
  readonly id: string;
  readonly chosen: boolean;
}

type Group = Pick<SheetGroup, 'heroes' | 'selects' | 'frames' | 'shotless'>;

/** A spot that the keys can go to, CSS pixels of the whole sheet. */
interface Station extends SheetStop {
  readonly middle: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * Where a step leads from another spot; null at the end of the way. Left and right go as one reads: heroes, selects, then the
 * frames as they were taken, shot by shot. Up and down go to the nearest spot of the next row, whatever lies there. From nowhere every
 * step leads to the first frame.
 */
export function stepOnSheet(
  groups: readonly Group[],
  measures: SheetMeasures,
  from: SheetStop | null,
  step: SheetStep,
): SheetStop | null {
  const filled = groups.filter(({ frames }) => frames.length > 0);
  const firstFrame = stopAt(filled[0]?.frames[0]?.id, false);
  if (step === 'last') return stopAt(filled.at(-1)?.frames.at(-1)?.id, false);
  const at = from === null ? null : placeIn(filled, from);
  if (step === 'first' || at === null) return firstFrame;
  // What lies two sheets away is never the next: three are laid out, however many there are.
  const near = filled.slice(Math.max(0, at.group - 1), at.group + 2);
  const stations = stationsOf(near, layoutSheet(near.map(countsOf), measures), measures);
  const own = stations.findIndex(({ id, chosen }) => id === at.stop.id && chosen === at.stop.chosen);
  const here = stations[own];
  if (here === undefined) return firstFrame;
  if (step === 'left' || step === 'right') return plain(stations[own + (step === 'left' ? -1 : 1)]);
  return plain(nearest(stations, here, step));
}

function stopAt(id: string | undefined, chosen: boolean): SheetStop | null {
  return id === undefined ? null : { id, chosen };
}

function plain(station: Station | undefined): SheetStop | null {
  return station === undefined ? null : { id: station.id, chosen: station.chosen };
}

/** The group it lies in; one that is chosen no longer is where it was taken. */
function placeIn(groups: readonly Group[], from: SheetStop): { group: number; stop: SheetStop } | null {
  const group = groups.findIndex(({ frames }) => frames.some(({ id }) => id === from.id));
  const found = groups[group];
  if (found === undefined) return null;
  const chosen = from.chosen && [...found.heroes, ...found.selects].some(({ id }) => id === from.id);
  return { group, stop: { id: from.id, chosen } };
}

export function countsOf({ heroes, selects, frames, shotless }: Group): SheetCounts {
  return {
    heroes: heroes.length,
    selects: selects.length,
    frames: frames.length,
    noteLetters: shotlessPhrase(shotless).length,
  };
}

/** In the order in which one reads. */
function stationsOf(groups: readonly Group[], { places }: SheetLayout, measures: SheetMeasures): Station[] {
  return groups.flatMap((group, index) => {
    const place = places[index];
    if (place === undefined) return [];
    return spotsSeen(countsOf(group), place, measures, -1, place.height).flatMap((spot): Station[] => {
      const frame = framesIn(group, spot)[spot.index];
      if (frame === undefined) return [];
      const top = place.top + spot.top;
      const middle = spot.left + spot.width / 2;
      return [{ id: frame.id, chosen: spot.part !== 'frame', middle, top, bottom: top + spot.height }];
    });
  });
}

export function framesIn({ heroes, selects, frames }: Group, { part }: SheetSpot): SheetGroup['frames'] {
  return part === 'hero' ? heroes : part === 'select' ? selects : frames;
}

/** Of the row that begins next above, or below, the spot whose middle is nearest; of two as near the left one. */
function nearest(stations: readonly Station[], from: Station, step: 'up' | 'down'): Station | undefined {
  const beyond = stations.filter((each) =>
    step === 'up' ? each.bottom <= from.top : each.top >= from.bottom,
  );
  const edge = (each: Station): number => (step === 'up' ? -each.bottom : each.top);
  const row = Math.min(...beyond.map(edge));
  return beyond
    .filter((each) => edge(each) === row)
    .reduce<Station | undefined>(
      (best, each) =>
        best === undefined || Math.abs(each.middle - from.middle) < Math.abs(best.middle - from.middle)
          ? each
          : best,
      undefined,
    );
}
