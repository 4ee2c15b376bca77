import { SetsideError } from '../base/index.ts';
import type { FramesMarked, FramesToMark, FramesToTakeIn } from '../contract/index.ts';
import type { Finding } from '../facts/index.ts';
import { type Choice, type FrameChoice, inverseOfFrameChoices, planFrameChange } from '../job/index.ts';
import type { FrameRow } from '../register/index.ts';
import type { Who } from '../serve/index.ts';
import { chosenOf } from './chosen-of.ts';
import type { FrameBook } from './frame-book.ts';
import type { FrameFlow } from './frame-flow.ts';
import type { ActBook } from './jobs/act-book.ts';
import type { JobBook } from './jobs/job-book.ts';
import { whatOfFrames } from './jobs/what-changed.ts';
import type { InTurn } from './turn.ts';

export interface ManyFramesOptions {
  readonly book: Pick<FrameBook, 'rowsNamed'>;
  readonly flow: Pick<FrameFlow, 'changedAll'>;
  readonly jobs: Pick<JobBook, 'job' | 'jobs' | 'choose'>;
  readonly acts: Pick<ActBook, 'note' | 'notePart' | 'isTakenBack'>;
  readonly inTurn: InTurn;
}

/** A frame that is changed, and what was chosen of it. */
interface Changed {
  readonly row: FrameRow;
  readonly choices: readonly FrameChoice[];
}

/**
 * Many frames to one job as one act, so that it is taken back in one go; null where there is no such job. Those that are there
 * already are left alone. The pages are told behind the turn: nobody else's choice waits for that.
 */
export async function takeIn(
  options: ManyFramesOptions,
  job: string,
  { frames, shot, act }: FramesToTakeIn,
  who: Who,
): Promise<number | null> {
  const { flow, jobs, inTurn } = options;
  const moved = await inTurn(async () => {
    if (jobs.job(job) === null) return null;
    assertNotTakenBack(options, who, act);
    const wish = { job, ...(shot === undefined ? {} : { shot }) };
    const changed = (await rowsOf(options, frames)).flatMap((row): Changed[] => {
      const choices = planFrameChange(jobs.jobs(), chosenOf(row), wish);
      return choices.length === 0 ? [] : [{ row, choices }];
    });
    const rows = changed.map(({ row }) => row);
    const what = (count: number): Finding => whatOfFrames(jobs.jobs(), job, shot ?? null, rows, count);
    await choose(options, who, act, what, changed);
    return rows.map(({ id }) => id);
  });
  if (moved === null) return null;
  await flow.changedAll(moved, 'moved');
  return moved.length;
}

/**
 * Many frames marked alike as one act. Those that are so already are left alone: nothing of them is to be taken back. Those that
 * somebody has marked meanwhile are left too, and named: the many others need not wait for that question.
 */
export async function markFrames(
  options: ManyFramesOptions,
  { frames, mark, seen, act }: FramesToMark,
  who: Who,
): Promise<FramesMarked> {
  const meanwhile: FramesMarked['meanwhile'] = [];
  const marked = await options.inTurn(async () => {
    assertNotTakenBack(options, who, act);
    const changed: Changed[] = [];
    for (const row of await rowsOf(options, frames)) {
      if (row.mark === mark) continue;
      if ((seen?.[row.id] ?? row.mark) === row.mark)
        changed.push({ row, choices: [{ type: 'mark-set', frame: row.id, mark }] });
      else meanwhile.push({ frame: row.id, name: row.name, mark: row.mark });
    }
    const name = changed[0]?.row.name ?? '';
    const what = (count: number): Finding =>
      count === 1
        ? { code: 'job.frame-marked', args: { name, mark } }
        : { code: 'job.frames-marked', args: { count, mark } };
    await choose(options, who, act, what, changed);
    return changed.map(({ row }) => row.id);
  });
  await options.flow.changedAll(marked, 'marked');
  return { marked: marked.length, meanwhile };
}

/** Throws `act-taken-back`: then no more parts of it are made. */
function assertNotTakenBack({ acts }: ManyFramesOptions, who: Who, act: string | undefined): void {
  if (act !== undefined && acts.isTakenBack(who, act))
    throw new SetsideError('act-taken-back', 'what was done so far was taken back meanwhile');
}

/** Each frame once, as they were named. Throws `no-frame`. */
async function rowsOf({ book }: ManyFramesOptions, frames: readonly string[]): Promise<FrameRow[]> {
  const known = new Map<string, FrameRow>();
  for await (const row of book.rowsNamed(frames)) if (row.files.length > 0) known.set(row.id, row);
  return [...new Set(frames)].map((id) => {
    const row = known.get(id);
    if (row === undefined) throw new SetsideError('no-frame', `there is no frame ${id}`);
    return row;
  });
}

/** Journals what was chosen of all of them and notes the act, or the part of one. */
async function choose(
  { jobs, acts }: ManyFramesOptions,
  who: Who,
  act: string | undefined,
  what: (count: number) => Finding,
  changed: readonly Changed[],
): Promise<void> {
  if (changed.length === 0) return;
  const choices: Choice[] = changed.flatMap((each) => each.choices);
  await jobs.choose(choices, who);
  const inverse = changed.flatMap((each) => inverseOfFrameChoices(chosenOf(each.row), each.choices));
  if (act === undefined) acts.note(who, what(changed.length), choices, inverse);
  else acts.notePart(who, act, what, choices, inverse);
}
