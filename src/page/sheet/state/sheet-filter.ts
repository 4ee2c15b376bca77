import type { Frame } from '../../../contract/index.ts';
import { type Mark, marks } from '../../../facts/index.ts';
import { type Standing, worstJudgement } from '../../set/worst-judgement.ts';
import { momentOf } from '../../state/index.ts';
import { searchable } from './searchable.ts';

/** Which frames of a job the sheet shows; null asks nothing. */
export interface SheetFilter {
  /** Id of a shot; empty for frames of none. */
  readonly shot: string | null;
  readonly standing: Standing | null;
  /** `chosen`: any mark but out. */
  readonly mark: Mark | 'chosen' | null;
  readonly camera: string | null;
  /** Local time of day, `HH:MM`; empty for none. Up to counts the whole minute. */
  readonly fromTime: string;
  readonly toTime: string;
  /** Words that must all stand in the name, the shot's name, the camera, or a remark. */
  readonly text: string;
}

export const noFilter: SheetFilter = {
  shot: null,
  standing: null,
  mark: null,
  camera: null,
  fromTime: '',
  toTime: '',
  text: '',
};

/** How frames stand within their shot. */
export const sheetSorts = ['time', 'newest', 'standing', 'mark', 'camera', 'name'] as const;
export type SheetSort = (typeof sheetSorts)[number];

export function isFiltered(filter: SheetFilter): boolean {
  const { shot, ...others } = filter;
  // Of no shot is asked by an empty id.
  return shot !== null || Object.values(others).some((value) => value !== null && value !== '');
}

/** Whether a frame is asked for; `shotNames`: by id. */
export function passes(
  filter: SheetFilter,
  shotNames: ReadonlyMap<string, string> = new Map(),
): (frame: Frame) => boolean {
  const words = searchable(filter.text).split(/\s+/).filter(Boolean);
  const [from, to] = [minutesOf(filter.fromTime), minutesOf(filter.toTime)];
  const shotName = ({ shot }: Frame): string => searchable(shotNames.get(shot ?? '') ?? '');
  const hasWords = (text: string): boolean => words.every((word) => text.includes(word));
  return (frame) =>
    (filter.shot === null || (frame.shot ?? '') === filter.shot) &&
    (filter.camera === null || frame.camera === filter.camera) &&
    (filter.mark === null || (filter.mark === 'chosen' ? isChosen(frame) : frame.mark === filter.mark)) &&
    (filter.standing === null || standingOf(frame) === filter.standing) &&
    inTime(frame, from, to) &&
    (words.length === 0 || hasWords(`${wordsOf(frame)}\n${shotName(frame)}`));
}

/** Marked, and not as out. */
function isChosen({ mark }: Frame): boolean {
  return mark !== 'none' && mark !== 'out';
}

function wordsOf({ name, camera, remarks }: Frame): string {
  return searchable([name, camera, ...remarks.map(({ text }) => text)].join('\n'));
}

/** Minutes since midnight; null for nothing that can be read. */
function minutesOf(time: string): number | null {
  const [, hours, minutes] = /^(\d{1,2}):(\d{2})$/.exec(time) ?? [];
  return hours === undefined || minutes === undefined ? null : Number(hours) * 60 + Number(minutes);
}

/** From late to early goes over midnight. */
function inTime(frame: Frame, from: number | null, to: number | null): boolean {
  if (from === null && to === null) return true;
  const at = new Date(momentOf(frame));
  const minute = at.getHours() * 60 + at.getMinutes();
  const [first, last] = [from ?? 0, to ?? 24 * 60];
  return first <= last ? minute >= first && minute <= last : minute >= first || minute <= last;
}

/** How a frame stands, reckoned once: twenty thousand are asked at every change. */
export function standingOf(frame: Frame): Standing {
  const known = standings.get(frame);
  if (known !== undefined) return known;
  const standing = worstJudgement(frame);
  standings.set(frame, standing);
  return standing;
}

const standings = new WeakMap<Frame, Standing>();
const worstFirst: readonly Standing[] = ['bad', 'doubt', 'unknown', 'accepted', 'good'];

/** Frames that are alike stand in the order of the day. */
export const comparers: Readonly<Record<SheetSort, (one: Frame, other: Frame) => number>> = {
  time: byTime,
  newest: (one, other) => -byTime(one, other),
  standing: (one, other) =>
    worstFirst.indexOf(standingOf(one)) - worstFirst.indexOf(standingOf(other)) || byTime(one, other),
  mark: (one, other) => markPlace(one) - markPlace(other) || byTime(one, other),
  camera: (one, other) => compareText(one.camera, other.camera) || byTime(one, other),
  name: (one, other) => compareText(one.name, other.name) || byTime(one, other),
};

function byTime(one: Frame, other: Frame): number {
  return momentOf(one) - momentOf(other) || compareText(one.id, other.id);
}

/** Hero, select, alternate, none, out. */
function markPlace({ mark }: Frame): number {
  return mark === 'out' ? marks.length : marks.indexOf(mark);
}

function compareText(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0;
}
