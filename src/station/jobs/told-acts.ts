import { epochMsToRfc3339 } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { FrameChoice, Jobs, Looks } from '../../job/index.ts';
import type { ChosenEntry, Keep } from '../../keep/index.ts';
import { lookTitle } from '../looks/look-shape.ts';
import type { ActBook, UndoneAct } from './act-book.ts';
import { nameOfShot, whatOfFrame, whatOfFrames, whatOfJob } from './what-changed.ts';

export interface ToldActsOptions {
  readonly keep: Pick<Keep, 'chosenLately'>;
  readonly book: { readonly row: (frame: string) => Promise<{ name: string; job: string } | null> };
  readonly jobs: { readonly jobs: () => Jobs };
  readonly looks: { readonly looks: () => Looks };
  readonly acts: Pick<ActBook, 'undone'>;
  /** Since then what can be taken back is known as acts. */
  readonly startedMs: number;
}

/** As many as somebody looks through. */
export const toldMax = 60;

/**
 * What is told of who did what and is no act that can be taken back: what was chosen before this start, what people said by
 * name, and what was done since and taken back. The newest first; frames, shots and looks by the names they have now.
 */
export async function toldActs(options: ToldActsOptions): Promise<contract.ToldAct[]> {
  const entries = options.keep
    .chosenLately()
    .filter(({ record }) => isWord(record) || record.atMs < options.startedMs)
    .slice(-toldMax)
    .reverse();
  const told = await Promise.all(entries.map((entry) => toldAct(options, entry)));
  const undone = options.acts.undone().map(undoneAct).reverse();
  return [...told, ...undone]
    .sort((one, other) => Date.parse(other.at) - Date.parse(one.at))
    .slice(0, toldMax);
}

type Record = ChosenEntry['record'];

function isWord({ type }: Record): boolean {
  return type.startsWith('remark-') || type === 'agreed' || type === 'agreement-withdrawn';
}

async function toldAct(options: ToldActsOptions, entry: ChosenEntry): Promise<contract.ToldAct> {
  const { record } = entry;
  const { code, args } = await whatOf(options, entry);
  return {
    at: epochMsToRfc3339(record.atMs),
    by: speakerIn(record),
    what: { code, args: { ...args } },
    takenBack: null,
  };
}

function undoneAct({ act: { atMs, by, what }, ...taken }: UndoneAct): contract.ToldAct {
  return {
    at: epochMsToRfc3339(atMs),
    by,
    what: { code: what.code, args: { ...what.args } },
    takenBack: { at: epochMsToRfc3339(taken.atMs), by: taken.by },
  };
}

/** By the name that somebody gave; else by that of the operator or the link. */
function speakerIn(record: Record): string {
  switch (record.type) {
    case 'remark-made':
      return record.remark.by.name;
    case 'remark-answered':
      return record.answer.by.name;
    case 'remark-settled':
      return record.by.name;
    case 'agreed':
      return record.agreement.by.name;
    default:
      return record.who ?? '';
  }
}

async function whatOf(options: ToldActsOptions, { record, count }: ChosenEntry): Promise<Finding> {
  if (!('frame' in record)) return ofJobOrLook(options, record);
  const row = (await options.book.row(record.frame)) ?? { name: record.frame, job: '' };
  const { name } = row;
  switch (record.type) {
    case 'remark-made':
    case 'remark-answered':
      return { code: `told.${record.type}`, args: { name } };
    case 'remark-settled':
      return { code: record.settled ? 'told.remark-settled' : 'told.remark-opened', args: { name } };
    case 'acceptance-set': {
      const { question, acceptance } = record;
      const args = { frame: name, question };
      if (acceptance === null) return { code: 'job.acceptance-withdrawn', args };
      return { code: 'job.accepted', args: { ...args, name: acceptance.name } };
    }
    case 'slate-heeded':
      return { code: 'job.frame-changed', args: { name } };
    case 'shot-followed':
      return ofFrames(options, row, { type: 'shot-set', frame: record.frame, shot: record.shot }, count);
    default:
      return ofFrames(options, row, record, count);
  }
}

function ofFrames(
  { jobs, looks }: ToldActsOptions,
  row: { readonly name: string; readonly job: string },
  choice: FrameChoice,
  count: number,
): Finding {
  if (count === 1) return whatOfFrame(jobs.jobs(), looks.looks(), row, [choice]);
  if (choice.type === 'mark-set') return { code: 'job.frames-marked', args: { count, mark: choice.mark } };
  if (choice.type === 'job-set') return { code: 'job.frames-taken-in', args: { count, job: choice.job } };
  if (choice.type === 'shot-set') return whatOfFrames(jobs.jobs(), row.job, choice.shot, [row], count);
  return { code: 'told.frames-changed', args: { count } };
}

function ofJobOrLook({ jobs, looks }: ToldActsOptions, record: Record): Finding {
  switch (record.type) {
    case 'look-saved':
      return { code: 'job.look-saved', args: { look: lookTitle(record) } };
    case 'look-aside-set': {
      const known = looks.looks().get(record.look);
      const look = known === undefined ? record.look : lookTitle(known);
      return { code: record.aside ? 'job.look-laid-aside' : 'job.look-put-back', args: { look } };
    }
    case 'agreed': {
      const shot = nameOfShot(jobs.jobs(), record.job, record.agreement.shot);
      return { code: 'told.agreed', args: { shot } };
    }
    case 'agreement-withdrawn':
      return { code: 'told.agreement-withdrawn', args: { job: record.job } };
    case 'job-state-set':
      return whatOfJob(jobs.jobs(), record.job, { state: record.state });
    case 'shot-current-set':
      return whatOfJob(jobs.jobs(), record.job, { currentShot: record.shot });
    case 'job-tolerances-set':
      return { code: 'job.limits-changed', args: { job: record.job } };
    case 'shot-stated':
      return { code: 'job.shot-changed', args: { job: record.job, shot: record.shot.name } };
    case 'shots-ordered':
      return { code: 'job.shots-ordered', args: { job: record.job } };
    case 'job-signed-set':
      return record.signed === null
        ? { code: 'job.signature-gone', args: { job: record.job } }
        : { code: 'job.signed', args: { job: record.job, name: record.signed.name } };
    default:
      return { code: 'job.changed', args: { job: 'job' in record ? record.job : '' } };
  }
}
