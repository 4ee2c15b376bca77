import { SetsideError } from '../base/index.ts';
import type {
  Frame,
  FramePatch,
  FramesMarked,
  FramesToMark,
  FramesToTakeIn,
  NewAcceptance,
} from '../contract/index.ts';
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
import type { FrameChoiceCalls, PatchBy, Who } from '../serve/index.ts';
import { chosenOf } from './chosen-of.ts';
import type { FrameBook } from './frame-book.ts';
import type { FrameFlow } from './frame-flow.ts';
import type { ActBook } from './jobs/act-book.ts';
import type { JobBook } from './jobs/job-book.ts';
import { whatOfFrame, whatOfFrames } from './jobs/what-changed.ts';
import type { LookBook } from './looks/look-book.ts';
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
    takeIn: (job, wish, who) => inTurn(() => takeIn(options, job, wish, who)),
    markFrames: (wish, who) => inTurn(() => markFrames(options, wish, who)),
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

/** Many frames to one job as one act, so that it is taken back in one go. Those that are there already are left alone. */
async function takeIn(
  { book, flow, jobs, acts }: FrameDeskOptions,
  job: string,
  { frames, shot }: FramesToTakeIn,
  who: Who,
): Promise<number | null> {
  if (jobs.job(job) === null) return null;
  const moved: { readonly row: FrameRow; readonly choices: readonly FrameChoice[] }[] = [];
  for (const id of new Set(frames)) {
    const row = await book.row(id);
    if (row === null || row.files.length === 0) throw new SetsideError('no-frame', `there is no frame ${id}`);
    const choices = planFrameChange(jobs.jobs(), chosenOf(row), {
      job,
      ...(shot === undefined ? {} : { shot }),
    });
    if (choices.length > 0) moved.push({ row, choices });
  }
  const choices = moved.flatMap((each) => each.choices);
  if (choices.length === 0) return 0;
  await jobs.choose(choices);
  const inverse = moved.flatMap((each) => inverseOfFrameChoices(chosenOf(each.row), each.choices));
  acts.note(
    who,
    whatOfFrames(
      jobs.jobs(),
      job,
      shot ?? null,
      moved.map(({ row }) => row),
    ),
    choices,
    inverse,
  );
  for (const { row } of moved) await flow.changed(row.id, 'moved');
  return moved.length;
}

/**
 * Many frames marked alike as one act. Those that are so already are left alone: nothing of them is to be taken back. Those that
 * somebody has marked meanwhile are left too, and named: the many others need not wait for that question.
 */
async function markFrames(
  { book, flow, jobs, acts }: FrameDeskOptions,
  { frames, mark, seen, act }: FramesToMark,
  who: Who,
): Promise<FramesMarked> {
  if (act !== undefined && acts.isTakenBack(who, act))
    throw new SetsideError('act-taken-back', 'what was marked so far was taken back meanwhile');
  const rows: FrameRow[] = [];
  const meanwhile: FramesMarked['meanwhile'] = [];
  for (const id of new Set(frames)) {
    const row = await book.row(id);
    if (row === null || row.files.length === 0) throw new SetsideError('no-frame', `there is no frame ${id}`);
    if (row.mark === mark) continue;
    if ((seen?.[id] ?? row.mark) === row.mark) rows.push(row);
    else meanwhile.push({ frame: id, name: row.name, mark: row.mark });
  }
  const [first] = rows;
  if (first === undefined) return { marked: 0, meanwhile };
  const choiceOf = ({ id }: FrameRow): FrameChoice => ({ type: 'mark-set', frame: id, mark });
  const choices = rows.map(choiceOf);
  const what = (count: number): Finding =>
    count === 1
      ? { code: 'job.frame-marked', args: { name: first.name, mark } }
      : { code: 'job.frames-marked', args: { count, mark } };
  await jobs.choose(choices);
  const inverse = rows.flatMap((row) => inverseOfFrameChoices(chosenOf(row), [choiceOf(row)]));
  if (act === undefined) acts.note(who, what(rows.length), choices, inverse);
  else acts.notePart(who, act, what, choices, inverse);
  for (const { id } of rows) await flow.changed(id, 'marked');
  return { marked: rows.length, meanwhile };
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
  await jobs.choose(choices);
  acts.note(by.who, what, choices, inverseOfFrameChoices(chosenOf(row), choices));
}
