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

/** The strike check of a job as it is now. Frames of other jobs are looked through only where a number is missing. */
export async function checkJob(sources: StrikeSources, job: Job): Promise<StrikeCheck> {
  const frames: StrikeFrame[] = [];
  for await (const row of sources.book.everyRow({ job: job.code }))
    frames.push(await strikeFrame(sources, row));
  const input = {
    frames,
    agreements: await sources.agreements(job.code),
    secondPlaces: sources.secondPlaces(),
    cardNumbers: sources.cardNumbers(),
  };
  const check = strikeCheck(job, { ...input, elsewhere: [] });
  const gapped = new Set(
    check.open.flatMap(({ finding, counting }) =>
      finding.code === 'strike.gap' ? (counting?.camera ?? []) : [],
    ),
  );
  if (gapped.size === 0) return check;
  const elsewhere: NumberedFrame[] = [];
  for (const camera of gapped) {
    for await (const row of sources.book.everyRow({ camera })) {
      if (row.job !== job.code) elsewhere.push(numberedFrame(row));
    }
  }
  return strikeCheck(job, { ...input, elsewhere });
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
