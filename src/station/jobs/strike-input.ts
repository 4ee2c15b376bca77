import type { NumberedFrame } from '../../base/index.ts';
import type { Frame } from '../../contract/index.ts';
import { type Agreement, isOfTheShoot, type Question } from '../../facts/index.ts';
import {
  type CardNumber,
  isAskedAbout,
  type Job,
  type JudgedFrame,
  type StrikeCheck,
  type StrikeFrame,
  strikeCheck,
} from '../../job/index.ts';
import { counterOf } from '../../metadata/index.ts';
import type { BriefFrame } from '../../register/index.ts';
import type { FrameBook } from '../frame-book.ts';

export interface StrikeSources {
  readonly book: Pick<FrameBook, 'everyBrief' | 'countedFiles' | 'framesNamed'>;
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
 * Reads every frame of a job, once, page by page: with 20,000 nobody else may have to wait meanwhile. Frames of other jobs are looked
 * through only for cameras of which a number is missing.
 */
export async function readForStrike(sources: StrikeSources, job: Job): Promise<StrikeReading> {
  const unjudged: Omit<StrikeFrame, 'judged'>[] = [];
  for await (const rows of sources.book.everyBrief({ job: job.code }))
    unjudged.push(...rows.filter(isOfTheShoot).map((row) => strikeFrame(sources, row)));
  const asked = unjudged.filter(isAskedAbout).map(({ id }) => id);
  const judged = new Map<string, JudgedFrame>();
  for await (const frame of sources.book.framesNamed(asked)) judged.set(frame.id, judgedFrame(frame));
  const input = {
    frames: unjudged.map((frame) => ({ ...frame, judged: judged.get(frame.id) ?? null })),
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
  for await (const rows of book.everyBrief({ camera, notJob: job }))
    numbers.push(...rows.filter(isOfTheShoot).map(numberedFrame));
  return numbers;
}

function strikeFrame({ book }: StrikeSources, row: BriefFrame): Omit<StrikeFrame, 'judged'> {
  const { shot, mark, purpose } = row;
  return { ...numberedFrame(row), shot, mark, purpose, files: book.countedFiles(row.files) };
}

function numberedFrame({ id, camera, name, orderMs, firstByteMs }: BriefFrame): NumberedFrame {
  const cameMs = firstByteMs ?? orderMs;
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
