import type { Agreement } from '../../facts/index.ts';
import { type Job, listedShots } from '../job.ts';
import { fileLines } from './file-lines.ts';
import { type NumberedFrames, numberLines, type StrikeCamera, strikeCameras } from './number-lines.ts';
import { type StrikeShot, strikeShot } from './shot-lines.ts';
import type { StrikeFrame } from './strike-frame.ts';
import { lineOf, type StrikeLine, worstFirst } from './strike-line.ts';
import type { CardNumber, Explained } from './strike-state.ts';

/** What the check goes by. */
export interface StrikeInput extends NumberedFrames {
  /** The client's word on shots, by their ids; a shot that is not among them has none. */
  readonly agreements: ReadonlyMap<string, Agreement>;
  /** How many second places there are that count. */
  readonly secondPlaces: number;
  /** What card checks found; of cards only of which every file is here twice. */
  readonly cardNumbers: readonly CardNumber[];
}

/** May the set come down: what could be verified of a job, and what could not. */
export interface StrikeCheck {
  /** No line is open. */
  readonly ready: boolean;
  /** What is missing, worst first. */
  readonly open: readonly StrikeLine[];
  /** What somebody took upon themselves, by name and with a reason. */
  readonly accepted: readonly StrikeLine[];
  /** In the order of the day. */
  readonly shots: readonly StrikeShot[];
  readonly cameras: readonly StrikeCamera[];
  readonly frames: number;
}

/** The strike check (`docs/strike.md`). It says what was verified; it never says that a card may be wiped. */
export function strikeCheck(job: Job, input: StrikeInput): StrikeCheck {
  const { frames, agreements, secondPlaces } = input;
  const byShot = framesByShot(frames);
  const shots = listedShots(job).map((shot) =>
    strikeShot(shot, byShot.get(shot.id) ?? [], agreements.get(shot.id) ?? null),
  );
  const chosen = new Set(shots.flatMap((shot) => shot.chosen.map(({ id }) => id)));
  const cameras = strikeCameras(input, job.strike.lastNumbers, input.cardNumbers);
  const lines = [
    ...(shots.length === 0
      ? [lineOf({ cost: 'reshoot', finding: { code: 'strike.no-shots', args: { job: job.code } } })]
      : []),
    ...shots.flatMap((shot) => shot.lines),
    ...fileLines(frames, chosen, secondPlaces),
    ...numberLines(input, cameras),
  ].map((line) => explained(line, job.strike.explained));
  const open = worstFirst(lines.filter(({ accepted }) => accepted === null));
  return {
    ready: open.length === 0,
    open,
    accepted: worstFirst(lines.filter(({ accepted }) => accepted !== null)),
    shots,
    cameras,
    frames: frames.length,
  };
}

/** A job has hundreds of shots and thousands of frames: each is looked at once. */
function framesByShot(frames: readonly StrikeFrame[]): ReadonlyMap<string | null, readonly StrikeFrame[]> {
  const byShot = new Map<string | null, StrikeFrame[]>();
  for (const frame of frames) {
    const own = byShot.get(frame.shot);
    if (own === undefined) byShot.set(frame.shot, [frame]);
    else own.push(frame);
  }
  return byShot;
}

function explained(line: StrikeLine, said: readonly Explained[]): StrikeLine {
  const by = line.explainable ? said.find((each) => each.line === line.key) : undefined;
  return by === undefined ? line : { ...line, accepted: { name: by.name, reason: by.reason } };
}

/**
 * What a signature is given to, as one text: which frames are chosen and how they were judged, who accepted what, which
 * numbers came. Whatever changes any of it reopens the check.
 */
export function stateOf({ open, accepted, shots, cameras, frames }: StrikeCheck): string {
  return JSON.stringify({
    open: open.map(({ key }) => key),
    accepted: accepted.map(({ key, accepted: by }) => [key, by?.name, by?.reason]),
    shots: shots.map(({ lines: _lines, name: _name, ...shot }) => shot),
    cameras: cameras.map(({ said, ...camera }) => ({ ...camera, said: said?.counter ?? null })),
    frames,
  });
}
