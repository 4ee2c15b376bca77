import type { EpochMs } from '../../base/index.ts';
import { type Agreement, type Judgement, showsLight, type Tolerance } from '../../facts/index.ts';
import type { StrikeCamera } from '../strike/number-lines.ts';
import type { StrikeCheck } from '../strike/strike-check.ts';
import { isBroken } from '../strike/strike-frame.ts';
import type { StrikeLine } from '../strike/strike-line.ts';
import type { ReportColour, ReportFrame } from './report-frame.ts';
import { type ReportClock, type ReportTimes, reportTimes } from './times.ts';

/** What the report of a job goes by. */
export interface ReportInput {
  readonly check: StrikeCheck;
  /** Of the job, in the order of the day. */
  readonly frames: readonly ReportFrame[];
  readonly clocks: readonly ReportClock[];
  readonly lightLimit: Tolerance;
  /** How many second places there are that count. */
  readonly secondPlaces: number;
  /** Who signed the strike check, and whether nothing has changed since. */
  readonly signed: ReportSigned | null;
}

export interface ReportSigned {
  readonly name: string;
  readonly atMs: EpochMs;
  readonly stands: boolean;
}

/** How a job went, for one sheet of paper. What nothing is known of is null or empty, never nought. */
export interface JobReport {
  readonly shots: readonly ReportShot[];
  /** Frames that lie in the job, those that are marked out too. */
  readonly frames: number;
  /** Of those, frames that belong to no shot of the list. */
  readonly shotless: number;
  readonly times: ReportTimes;
  readonly colour: readonly ReportTarget[];
  readonly light: ReportLight;
  readonly numbers: ReportNumbers;
  readonly copies: ReportCopies;
  readonly ready: boolean;
  /** Worst first. */
  readonly open: readonly StrikeLine[];
  readonly accepted: readonly StrikeLine[];
  readonly signed: ReportSigned | null;
}

export interface ReportShot {
  readonly name: string;
  /** Pictures that are not marked out. */
  readonly pictures: number;
  readonly heroes: Counted;
  readonly selects: Counted;
  /** Null where nobody asks for it. */
  readonly agreement: Agreement | null;
  /** Lines of the strike check about it that are open, and that somebody took upon themselves. */
  readonly open: number;
  readonly accepted: number;
}

export interface Counted {
  readonly there: number;
  readonly wanted: number;
}

/** A target that was photographed: how far its colours are off. */
export interface ReportTarget extends ReportColour {
  readonly name: string;
  readonly shot: string | null;
  readonly atMs: EpochMs;
}

export interface ReportLight {
  readonly limit: Tolerance;
  /** Pictures whose light is known against the reference of their shot, in the order of the day. */
  readonly points: readonly LightPoint[];
  /** Pictures of which it is not. */
  readonly unknown: number;
}

export interface LightPoint {
  readonly name: string;
  readonly shot: string | null;
  readonly atMs: EpochMs;
  readonly ev: number;
  readonly judgement: Exclude<Judgement, 'unknown'>;
}

export interface ReportNumbers {
  /** Numbers that are known to be missing, those that somebody explained too. */
  readonly missing: number;
  /** What the check says of numbers, open lines first. */
  readonly lines: readonly StrikeLine[];
  readonly cameras: readonly StrikeCamera[];
}

export interface ReportCopies {
  readonly secondPlaces: number;
  /** Files that are here whole, or as whole as anybody can tell. */
  readonly files: number;
  /** Of those, with a copy on another device that was read back and found the same. */
  readonly twice: number;
  /** Of those, read back from the device itself and not from memory. */
  readonly direct: number;
  /** Files that came damaged, broke off, or are on their way. */
  readonly notWhole: number;
}

/** Pure: what was counted and measured, put in order. */
export function jobReport(input: ReportInput): JobReport {
  const { check, frames, signed } = input;
  return {
    shots: check.shots.map((shot) => reportShot(shot, frames, check.accepted)),
    frames: frames.length,
    shotless: frames.filter(({ shot }) => !check.shots.some(({ id }) => id === shot)).length,
    times: reportTimes(frames, input.clocks),
    colour: frames.flatMap(({ name, shot, momentMs, colour }) =>
      colour === null ? [] : [{ ...colour, name, shot: nameOf(check, shot), atMs: momentMs }],
    ),
    light: reportLight(input),
    numbers: reportNumbers(check),
    copies: reportCopies(input),
    ready: check.ready,
    open: check.open,
    accepted: check.accepted,
    signed,
  };
}

function reportShot(
  shot: StrikeCheck['shots'][number],
  frames: readonly ReportFrame[],
  accepted: readonly StrikeLine[],
): ReportShot {
  const own = frames.filter((frame) => frame.shot === shot.id);
  const marked = (mark: string): number => own.filter((frame) => frame.mark === mark).length;
  return {
    name: shot.name,
    pictures: own.filter(({ mark, purpose }) => mark !== 'out' && purpose === 'picture').length,
    heroes: { there: marked('hero'), wanted: shot.heroesWanted },
    selects: { there: marked('select'), wanted: shot.selectsWanted },
    agreement: shot.agreement,
    open: shot.lines.filter(({ key }) => !accepted.some((line) => line.key === key)).length,
    accepted: accepted.filter((line) => line.shot === shot.id).length,
  };
}

function reportLight({ check, frames, lightLimit }: ReportInput): ReportLight {
  const lit = frames.filter(({ mark, purpose }) => mark !== 'out' && showsLight(purpose));
  const points = lit.flatMap(({ name, shot, momentMs, lightEv }): LightPoint[] =>
    lightEv === null
      ? []
      : [
          {
            name,
            shot: nameOf(check, shot),
            atMs: momentMs,
            ev: lightEv,
            judgement: judged(lightEv, lightLimit),
          },
        ],
  );
  return { limit: lightLimit, points, unknown: lit.length - points.length };
}

/** By the limit alone: how sure each reading is stands with its frame. */
function judged(ev: number, { good, bad }: Tolerance): LightPoint['judgement'] {
  const off = Math.abs(ev);
  if (off > bad) return 'bad';
  return off > good ? 'doubt' : 'good';
}

const missingCodes: ReadonlySet<string> = new Set(['strike.gap', 'strike.numbers-missing']);
const numberCodes: ReadonlySet<string> = new Set([
  ...missingCodes,
  'strike.number-wanted',
  'strike.number-behind',
  'strike.no-numbers',
]);

function reportNumbers({ open, accepted, cameras }: StrikeCheck): ReportNumbers {
  const lines = [...open, ...accepted].filter(({ finding }) => numberCodes.has(finding.code));
  const counts = lines.map(({ finding: { code, args } }) =>
    missingCodes.has(code) ? Number(args.count) : 0,
  );
  return { missing: counts.reduce((sum, count) => sum + count, 0), lines, cameras };
}

function reportCopies({ frames, secondPlaces }: ReportInput): ReportCopies {
  const files = frames.filter(({ mark }) => mark !== 'out').flatMap((frame) => frame.files);
  const here = files.filter(({ state }) => state !== 'arriving' && !isBroken(state));
  const twice = here.filter(({ copies }) => copies > 0);
  return {
    secondPlaces,
    files: here.length,
    twice: twice.length,
    direct: twice.filter(({ readBack }) => readBack === 'direct').length,
    notWhole: files.length - here.length,
  };
}

function nameOf({ shots }: StrikeCheck, id: string | null): string | null {
  return id === null ? null : (shots.find((shot) => shot.id === id)?.name ?? id);
}
