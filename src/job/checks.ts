import { SetsideError } from '../base/index.ts';
import { type Tolerances, toleranceNames } from '../facts/index.ts';
import type { HandOver, Job, Jobs, JobWords, Shot } from './job.ts';
import {
  deliveriesMax,
  metadataCharactersMax,
  nameCharactersMax,
  namingCharactersMax,
  textCharactersMax,
  toleranceMax,
} from './limits.ts';

/** Where frames go while no job is open; no job may have this code. */
export const trayCode = 'unsorted';

/**
 * Who layout pictures come from, where the journal names a camera: no camera can have this name. Their frames stand in no list.
 */
export const layoutSender = '_layouts';

/** The job, to be changed. Throws `no-job`, `job-finished`. */
export function jobToChange(jobs: Jobs, code: string): Job {
  const job = knownJob(jobs, code);
  if (job.state === 'closed') throw new SetsideError('job-finished', `job ${code} is closed`);
  return job;
}

/** Throws `no-job`. */
export function knownJob(jobs: Jobs, code: string): Job {
  const job = jobs.get(code);
  if (job === undefined) throw new SetsideError('no-job', `there is no job of code "${code}"`);
  return job;
}

/** A shot that is listed. Throws `no-shot`. */
export function listedShot(job: Job, id: string): Shot {
  const shot = job.shots.find((each) => each.id === id && !each.hidden);
  if (shot === undefined) throw new SetsideError('no-shot', `job ${job.code} has no shot "${id}"`);
  return shot;
}

/**
 * A code becomes a folder on disks of every kind and a part of file names, so it is plain. Throws `bad-job-code`.
 * Names of devices that one system reserves (CON, NUL …) are refused everywhere: a home may move.
 */
export function assertJobCode(code: string): void {
  const plain = /^[A-Za-z0-9](?:[A-Za-z0-9._-]{0,38}[A-Za-z0-9])?$/.test(code);
  const reserved = /^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i.test(code);
  if (plain && !reserved && code.toLowerCase() !== trayCode) return;
  throw new SetsideError('bad-job-code', `"${code.slice(0, 60)}" cannot be the code of a job`);
}

/** Throws `bad-words`. */
export function assertWords({ title, client, fromDate, toDate, place, notes }: JobWords): void {
  for (const [what, text] of Object.entries({ title, client, place })) {
    assertText(what, text, nameCharactersMax);
  }
  assertText('notes', notes, textCharactersMax);
  for (const date of [fromDate, toDate]) {
    if (date !== null && !isDate(date)) throw new SetsideError('bad-words', `"${date}" is no date`);
  }
  if (fromDate !== null && toDate !== null && toDate < fromDate) {
    throw new SetsideError('bad-words', `the last day ${toDate} lies before the first, ${fromDate}`);
  }
}

/** Throws `bad-words`. */
export function assertShotWords({ name, description, camera, look }: Shot): void {
  if (name.trim() === '') throw new SetsideError('bad-words', 'a shot needs a name');
  assertText('name', name, nameCharactersMax);
  assertText('description', description, textCharactersMax);
  assertText('camera', camera ?? '', nameCharactersMax);
  assertText('look', look ?? '', nameCharactersMax);
}

/** Throws `bad-words`. */
export function assertHandOver({ naming, look, deliveries, metadata = '' }: HandOver): void {
  assertText('metadata', metadata, metadataCharactersMax);
  assertText('naming', naming, namingCharactersMax);
  assertText('look', look ?? '', nameCharactersMax);
  for (const name of deliveries) assertText('delivery', name, nameCharactersMax);
  if (deliveries.length > deliveriesMax) {
    throw new SetsideError('bad-words', `${deliveries.length} deliveries, at most ${deliveriesMax} fit`);
  }
  if (new Set(deliveries).size < deliveries.length || deliveries.some((name) => name.trim() === '')) {
    throw new SetsideError('bad-words', 'each delivery has a name of its own');
  }
  // A name is one file's: what would lead to another folder is none. Control characters are in no name.
  if (/[\\/]|\p{Cc}/u.test(naming)) throw new SetsideError('bad-words', `"${naming}" names no file`);
}

function assertText(what: string, text: string, charactersMax: number): void {
  if (text.length > charactersMax) {
    throw new SetsideError(
      'bad-words',
      `${what} has ${text.length} characters, at most ${charactersMax} fit`,
    );
  }
}

/** Throws `bad-tolerance`. */
export function assertTolerances(tolerances: Tolerances): void {
  for (const name of toleranceNames) {
    const limits = tolerances[name];
    if (limits === undefined) continue;
    const { good, bad } = limits;
    if (good >= 0 && good <= bad && bad <= toleranceMax) continue;
    throw new SetsideError('bad-tolerance', `${name}: expected 0 <= good <= bad, got ${good} and ${bad}`);
  }
}

/** Whether a text is a day of the Gregorian calendar as RFC 3339 section 5.6 writes it (full-date). */
export function isDate(text: string): boolean {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (match === null) return false;
  const [year = 0, month = 0, day = 0] = match.slice(1).map(Number);
  return month >= 1 && month <= 12 && day >= 1 && day <= daysOf(year, month);
}

/** RFC 3339 appendix C gives the rule of leap years. */
function daysOf(year: number, month: number): number {
  if (month !== 2) return [4, 6, 9, 11].includes(month) ? 30 : 31;
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
}
