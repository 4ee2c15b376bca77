import { randomUUID } from 'node:crypto';
import { SetsideError } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import {
  type Choice,
  inverseOfFrameChoices,
  inverseOfJobChoices,
  inverseOfLookChoices,
  isFrameChoice,
  isJobChoice,
  isLookChoice,
  type KeptLook,
  knownLook,
  type LookChoice,
  type Looks,
  lookNameKey,
  newestOfName,
  planLookAside,
  planLookSaved,
  planLookUse,
  planWishesMet,
  versionsOfName,
} from '../../job/index.ts';
import type { Look } from '../../look/index.ts';
import type { FrameRow } from '../../register/index.ts';
import type { LookCalls, Who } from '../../serve/index.ts';
import { chosenOf } from '../chosen-of.ts';
import { type JobDeskOptions, jobsIn } from '../jobs/choose-for-jobs.ts';
import type { LookBook } from './look-book.ts';
import { lookShape, lookTitle } from './look-shape.ts';

export interface LookDeskOptions
  extends Pick<JobDeskOptions, 'jobs' | 'acts' | 'book' | 'flow' | 'tell' | 'inTurn'> {
  readonly looks: LookBook;
}

/** The calls about looks that are kept: the rules plan, the journal holds, each can be taken back. */
export function createLookDesk(options: LookDeskOptions): Omit<LookCalls, 'tryLook'> {
  const { looks, inTurn } = options;
  return {
    looks: async (all) => byName(looks.looks(), all).map(lookShape),
    look: async (id) => {
      const look = looks.looks().get(id);
      if (look === undefined) return null;
      const versions = versionsOfName(looks.looks(), look.name).map(lookShape);
      return { ...lookShape(look), versions };
    },
    saveLook: (document, who) => inTurn(() => saveLook(options, document, who)),
    layLookAside: (id, aside, who) => inTurn(() => layAside(options, id, aside, who)),
    useLook: (id, use, who) => inTurn(() => useLook(options, id, use, who)),
  };
}

/** By name: every version, the newest first; or of each name the newest that is not laid aside, else the newest. */
function byName(looks: Looks, all: boolean): readonly KeptLook[] {
  const names = new Set([...looks.values()].map(({ name }) => lookNameKey(name)));
  return [...names]
    .sort((a, b) => (a < b ? -1 : 1))
    .flatMap((name) => {
      const versions = versionsOfName(looks, name);
      return all ? versions : (newestOfName(looks, name) ?? versions.slice(0, 1));
    });
}

async function saveLook(
  options: LookDeskOptions,
  document: Look,
  who: Who,
): Promise<{ look: contract.Look; isNew: boolean }> {
  const { jobs, looks } = options;
  const { look: id, choices } = planLookSaved(looks.looks(), document, who.name, randomUUID);
  const isNew = !looks.looks().has(id);
  const wishes = planWishesMet(jobs.jobs(), { id, name: document.title });
  await choose(options, who, [...choices, ...wishes], [], (title) => ({
    code: isNew ? 'job.look-saved' : 'job.look-put-back',
    args: { look: title(id) },
  }));
  return { look: lookShape(knownLook(looks.looks(), id)), isNew };
}

async function layAside(
  options: LookDeskOptions,
  id: string,
  aside: boolean,
  who: Who,
): Promise<contract.Look | null> {
  const { looks } = options;
  if (!looks.looks().has(id)) return null;
  const choices: readonly LookChoice[] = planLookAside(looks.looks(), id, aside);
  await choose(options, who, choices, [], (title) => ({
    code: aside ? 'job.look-laid-aside' : 'job.look-put-back',
    args: { look: title(id) },
  }));
  return lookShape(knownLook(looks.looks(), id));
}

async function useLook(
  options: LookDeskOptions,
  id: string,
  { job, whole, shots = [], frames = [] }: contract.LookUse,
  who: Who,
): Promise<number | null> {
  const look = options.looks.looks().get(id);
  if (look === undefined) return null;
  const rows = await Promise.all([...new Set(frames)].map((frame) => rowOf(options, frame)));
  const isWhole = whole === true || shots.length === 0;
  const places = { job: job ?? null, whole: isWhole, shots, frames: rows.map(chosenOf) };
  const choices = planLookUse(options.jobs.jobs(), look, places);
  await choose(options, who, choices, rows, (title) => ({
    code: 'job.look-used',
    args: {
      look: title(id),
      job: choices.some(({ type }) => type === 'job-hand-over-set') ? (job ?? '') : '',
      shots: choices.filter(({ type }) => type === 'shot-stated').length,
      frames: choices.filter(isFrameChoice).length,
    },
  }));
  return choices.length;
}

async function rowOf({ book }: LookDeskOptions, frame: string): Promise<FrameRow> {
  const row = await book.row(frame);
  if (row === null || row.files.length === 0)
    throw new SetsideError('no-frame', `there is no frame ${frame}`);
  return row;
}

/** Journals them as one act and tells the pages. `rows` are the frames among them as they were before. */
async function choose(
  { jobs, looks, acts, flow, tell }: LookDeskOptions,
  who: Who,
  choices: readonly Choice[],
  rows: readonly FrameRow[],
  what: (title: (look: string) => string) => Finding,
): Promise<void> {
  if (choices.length === 0) return;
  const ofFrames = choices.filter(isFrameChoice);
  const ofJobs = choices.filter(isJobChoice);
  const inverse = [
    ...rows.flatMap((row) =>
      inverseOfFrameChoices(
        chosenOf(row),
        ofFrames.filter(({ frame }) => frame === row.id),
      ),
    ),
    ...inverseOfJobChoices(jobs.jobs(), ofJobs),
    ...inverseOfLookChoices(choices.filter(isLookChoice)),
  ];
  await jobs.choose(choices, who);
  const title = (look: string): string => lookTitle(knownLook(looks.looks(), look));
  acts.note(who, what(title), choices, inverse);
  for (const code of jobsIn(ofJobs)) await tell(code, true);
  for (const { frame } of ofFrames) await flow.changed(frame, 'chosen');
}
