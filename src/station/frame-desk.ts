import { SetsideError } from '../base/index.ts';
import type { Frame, FramePatch, NewAcceptance } from '../contract/index.ts';
import type { Finding, Question } from '../facts/index.ts';
import {
  assertJobNotClosed,
  type FrameChoice,
  inverseOfFrameChoices,
  knownLook,
  planAcceptance,
  planFrameChange,
} from '../job/index.ts';
import type { FrameRow } from '../register/index.ts';
import type { FrameChoiceCalls, PatchBy } from '../serve/index.ts';
import { chosenOf } from './chosen-of.ts';
import type { FrameBook } from './frame-book.ts';
import type { FrameFlow } from './frame-flow.ts';
import type { ActBook } from './jobs/act-book.ts';
import type { JobBook } from './jobs/job-book.ts';
import { whatOfFrame } from './jobs/what-changed.ts';
import type { LookBook } from './looks/look-book.ts';
import { markFrames, takeIn } from './many-frames.ts';
import type { InTurn } from './turn.ts';

export interface FrameDeskOptions {
  readonly book: FrameBook;
  readonly flow: FrameFlow;
  readonly jobs: JobBook;
  readonly looks: Pick<LookBook, 'looks'>;
  readonly acts: ActBook;
  readonly inTurn: InTurn;
}

/** What people choose of a frame. Comparing the version and writing the choice is one step: two at once must not both pass. */
export function createFrameDesk(options: FrameDeskOptions): FrameChoiceCalls {
  const { inTurn } = options;
  return {
    patchFrame: (id, patch, by) => inTurn(() => patchFrame(options, id, patch, by)),
    accept: (id, question, acceptance, by) => inTurn(() => accept(options, id, question, acceptance, by)),
    takeIn: (job, wish, who) => takeIn(options, job, wish, who),
    markFrames: (wish, who) => markFrames(options, wish, who),
  };
}

async function patchFrame(
  options: FrameDeskOptions,
  id: string,
  { mark, job, shot, purpose, spot, look, share, seen }: FramePatch,
  by: PatchBy,
): Promise<Frame | null> {
  const row = await rowToChange(options, id, by);
  if (row === null) return null;
  assertSeen(row, { mark, shot }, seen);
  const looks = options.looks.looks();
  if (look !== undefined && look !== null) knownLook(looks, look);
  const choices = planFrameChange(options.jobs.jobs(), chosenOf(row), {
    ...(mark === undefined ? {} : { mark }),
    ...(job === undefined ? {} : { job }),
    ...(shot === undefined ? {} : { shot }),
    ...(purpose === undefined ? {} : { purpose }),
    ...(spot === undefined ? {} : { spot }),
    ...(look === undefined ? {} : { look }),
    ...(share === undefined ? {} : { share }),
  });
  await choose(options, row, by, whatOfFrame(options.jobs.jobs(), looks, row, choices), choices);
  if (mark !== undefined) await options.flow.changed(id, 'marked');
  if (choices.some(({ type }) => type === 'job-set' || type === 'shot-set'))
    await options.flow.changed(id, 'moved');
  if (choices.some(({ type }) => chosenTypes.has(type))) await options.flow.changed(id, 'chosen');
  if (choices.some(({ type }) => type === 'share-set')) await options.flow.changed(id, 'shared');
  return options.book.frame(id);
}

/**
 * Two people who say the same are of one mind; who would write over another's word without having seen it is asked first.
 * Throws `changed-meanwhile`.
 */
function assertSeen(
  row: Pick<FrameRow, 'id' | 'mark' | 'shot'>,
  wanted: Pick<FramePatch, 'mark' | 'shot'>,
  seen: FramePatch['seen'],
): void {
  for (const what of ['mark', 'shot'] as const) {
    const [before, now] = [seen?.[what], row[what]];
    if (before === undefined || wanted[what] === undefined || before === now || wanted[what] === now)
      continue;
    throw new SetsideError('changed-meanwhile', `the ${what} of frame ${row.id} is ${now} by now`);
  }
}

const chosenTypes: ReadonlySet<FrameChoice['type']> = new Set([
  'purpose-set',
  'spot-set',
  'look-set',
] as const);

async function accept(
  options: FrameDeskOptions,
  id: string,
  question: Question,
  acceptance: NewAcceptance | null,
  by: PatchBy,
): Promise<Frame | null> {
  const row = await rowToChange(options, id, by);
  const frame = await options.book.frame(id);
  if (row === null || frame === null) return null;
  assertJobNotClosed(options.jobs.jobs(), row.job);
  const judged = frame.verdicts[question].judgement;
  if (acceptance?.seen !== undefined && acceptance.seen !== judged)
    throw new SetsideError('changed-meanwhile', `the verdict on frame ${id} is ${judged} by now`);
  const choices: FrameChoice[] =
    acceptance === null
      ? [{ type: 'acceptance-set', frame: id, question, acceptance: null }]
      : planAcceptance(id, question, frame.verdicts[question].judgement, acceptance);
  const what: Finding =
    acceptance === null
      ? { code: 'job.acceptance-withdrawn', args: { frame: row.name, question } }
      : { code: 'job.accepted', args: { frame: row.name, name: acceptance.name, question } };
  await choose(options, row, by, what, choices);
  await options.flow.changed(id, 'chosen');
  return options.book.frame(id);
}

async function rowToChange({ book }: FrameDeskOptions, id: string, by: PatchBy): Promise<FrameRow | null> {
  const row = await book.row(id);
  if (row === null || row.files.length === 0) return null;
  if (by.ifVersion !== 'any' && !by.ifVersion.includes(row.version)) {
    throw new SetsideError('version-changed', `frame ${id} is at version ${row.version}`);
  }
  return row;
}

async function choose(
  { jobs, acts }: FrameDeskOptions,
  row: FrameRow,
  by: PatchBy,
  what: Finding,
  choices: readonly FrameChoice[],
): Promise<void> {
  await jobs.choose(choices, by.who);
  acts.note(by.who, what, choices, inverseOfFrameChoices(chosenOf(row), choices));
}
