import type { NumberedFrame } from '../../base/index.ts';
import type { Frame } from '../../contract/index.ts';
import type { Agreement, Question } from '../../facts/index.ts';
import {
  type CardNumber,
  isAskedAbout,
  type Job,
  type JudgedFrame,
  type StrikeCheck,
  type StrikeFile,
  type StrikeFrame,
  strikeCheck,
} from '../../job/index.ts';
import { counterOf } from '../../metadata/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { FrameBook } from '../frame-book.ts';

export interface StrikeSources {
  readonly book: Pick<FrameBook, 'everyRow' | 'filesOf' | 'frame'>;
  /** The client's word on shots of a job, by their ids. */
  readonly agreements: (job: string) => Promise<ReadonlyMap<string, Agreement>>;
  /** How many second places there are that count. */
  readonly secondPlaces: () => number;
  /** The last numbers on cards that were proved safe. */
  readonly cardNumbers: () => readonly CardNumber[];
}

/** The strike check of a job as it is now. */
export async function checkJob(sources: StrikeSources, job: Job): Promise<StrikeCheck> {
  return (await readForStrike(sources, job)).check(job);
}

/** What a strike check looks at, as it was when it was read. */
export interface StrikeReading {
  /** The check of the job with what people said for it by now; nothing is read a second time. */
  check(job: Job): Promise<StrikeCheck>;
}

/**
 * Reads every frame of a job, once: 20,000 take seconds, in which nobody else may have to wait. Frames of other jobs are looked
 * through only for cameras of which a number is missing.
 */
export async function readForStrike(sources: StrikeSources, job: Job): Promise<StrikeReading> {
  const frames: StrikeFrame[] = [];
  for await (const row of sources.book.everyRow({ job: job.code }))
    frames.push(await strikeFrame(sources, row));
  const input = {
    frames,
    agreements: await sources.agreements(job.code),
    secondPlaces: sources.secondPlaces(),
    cardNumbers: sources.cardNumbers(),
  };
  const elsewhere = new Map<string, readonly NumberedFrame[]>();
  const check = async (now: Job): Promise<StrikeCheck> => {
    const found = strikeCheck(now, { ...input, elsewhere: [] });
    const gapped = gappedCameras(found);
    if (gapped.size === 0) return found;
    for (const camera of gapped)
      if (!elsewhere.has(camera)) elsewhere.set(camera, await numbersElsewhere(sources, job.code, camera));
    const numbers = [...gapped].flatMap((camera) => elsewhere.get(camera) ?? []);
    return strikeCheck(now, { ...input, elsewhere: numbers });
  };
  return { check };
}

const gapCodes: ReadonlySet<string> = new Set(['strike.gap', 'strike.numbers-missing']);

function gappedCameras({ open }: StrikeCheck): ReadonlySet<string> {
  return new Set(
    open.flatMap(({ finding, counting }) => (gapCodes.has(finding.code) ? (counting?.camera ?? []) : [])),
  );
}

/** A camera's numbers that went to other jobs, or to the tray. */
async function numbersElsewhere(
  { book }: StrikeSources,
  job: string,
  camera: string,
): Promise<readonly NumberedFrame[]> {
  const numbers: NumberedFrame[] = [];
  for await (const row of book.everyRow({ camera, notJob: job })) numbers.push(numberedFrame(row));
  return numbers;
}

async function strikeFrame({ book }: StrikeSources, row: FrameRow): Promise<StrikeFrame> {
  const { shot, mark, purpose } = row;
  const files = book.filesOf(row).map(({ file, original }): StrikeFile => {
    // One that went bad on the disk is as little there as one that came so.
    const state = original === null ? file.state : 'damaged';
    return { name: file.name, state, copies: file.copies };
  });
  const judged = isAskedAbout({ mark, files }) ? await book.frame(row.id) : null;
  return {
    ...numberedFrame(row),
    shot,
    mark,
    purpose,
    files,
    judged: judged === null ? null : judgedFrame(judged),
  };
}

function numberedFrame({ id, camera, name, orderMs, times }: FrameRow): NumberedFrame {
  const cameMs = times.firstByteMs ?? orderMs;
  return { id, camera, name, counter: counterOf(name), momentMs: orderMs, cameMs };
}

function judgedFrame({ verdicts, acceptances, heldAgainst }: Frame): JudgedFrame {
  const verdict = (question: Question): JudgedFrame['verdicts'][Question] => {
    const { judgement, findings } = verdicts[question];
    return { judgement, because: findings[0] ?? null };
  };
  return {
    verdicts: {
      arrived: verdict('arrived'),
      sharp: verdict('sharp'),
      exposed: verdict('exposed'),
      inPlace: verdict('inPlace'),
      colour: verdict('colour'),
    },
    acceptances: acceptances.flatMap(({ question, judgement, name, reason }) =>
      judgement === 'good' ? [] : [{ question, judgement, name, reason }],
    ),
    target: heldAgainst.target,
  };
}
