import type { Frame } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import { momentOf } from '../state/index.ts';
import type { TonePattern } from './tones.ts';

/** How far a frame's subject lies from its place: 1 is the limit of what is in place, 0 the reference itself. */
export interface PlaceStep {
  readonly frame: string;
  readonly shot: string | null;
  readonly momentMs: number;
  readonly timesLimit: number;
  /** What was judged of it: near the limit a doubt may lie within it, and is not in place for that. */
  readonly isInPlace: boolean;
}

/** Frames further apart are no longer one going to and fro. */
const pauseMsMax = 120_000;
/** Beyond so many limits all is equally far; nearer than a quarter of one all is there. */
const farthest = 32;
/** Two octaves for five halvings of the way: each halving is heard as nearly a major third. */
const lowHertz = 330;
const octaves = 2;

/** Where a frame lies on its way; null where its place was not measured against a reference. */
export function placeStepOf(frame: Frame): PlaceStep | null {
  const { findings, judgement } = frame.verdicts.inPlace;
  if (judgement === 'unknown') return null;
  const shares = findings.map(shareOf).filter((share) => share !== null);
  if (shares.length === 0) return null;
  return {
    frame: frame.id,
    shot: frame.shot,
    momentMs: momentOf(frame),
    timesLimit: Math.max(...shares),
    isInPlace: judgement === 'good',
  };
}

/** Whether the later of two is the next step of the same thing being moved: what was in its place is not on its way there. */
export function isNextStep(before: PlaceStep | null, now: PlaceStep): boolean {
  return (
    before !== null &&
    !before.isInPlace &&
    before.frame !== now.frame &&
    before.shot === now.shot &&
    now.momentMs >= before.momentMs &&
    now.momentMs - before.momentMs <= pauseMsMax
  );
}

/**
 * The tone of a step: it glides from where the last one lay to where this one lies, so that rising is nearer and falling is
 * farther. In place it sounds twice, high and short.
 */
export function nearingTones(before: PlaceStep | null, now: PlaceStep): TonePattern {
  if (now.isInPlace) {
    const hertz = pitchOf(1);
    return [0, 150].map((atMs) => ({ atMs, lastsMs: 100, hertz, toHertz: hertz, level: 1 }));
  }
  const to = pitchOf(now.timesLimit);
  const from = before !== null && isNextStep(before, now) ? pitchOf(before.timesLimit) : to;
  return [{ atMs: 0, lastsMs: 300, hertz: from, toHertz: to, level: 1 }];
}

/** 330 Hz far away, 1320 Hz in place. */
function pitchOf(timesLimit: number): number {
  const away = Math.log2(Math.min(farthest, Math.max(1, timesLimit))) / Math.log2(farthest);
  return lowHertz * 2 ** (octaves * (1 - away));
}

/** How many times its limit a finding tells of; null where it tells of none. */
function shareOf({ code, args }: Finding): number | null {
  const number = (name: string): number => {
    const value = args[name];
    return typeof value === 'number' ? value : 0;
  };
  const share = (value: number, limit: number): number | null => (limit > 0 ? Math.abs(value) / limit : null);
  if (code === 'place.good') return 0;
  if (code === 'place.turned') return share(number('degrees'), number('limitDegrees'));
  if (code === 'place.resized') return share(number('percent'), number('limitPercent'));
  if (code !== 'place.moved' && code !== 'place.part-moved') return null;
  return number('limitMm') > 0
    ? share(number('mm'), number('limitMm'))
    : share(Math.hypot(number('rightPx'), number('downPx')), number('limitPx'));
}
