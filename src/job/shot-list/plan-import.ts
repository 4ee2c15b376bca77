import { jobToChange } from '../checks.ts';
import type { JobChoice } from '../choice.ts';
import { type Job, type Jobs, listedShots, plainShot, type Shot } from '../job.ts';
import { assertRoom, changedShot, firstBecomesCurrent } from '../plan-shot.ts';
import { newShotId } from '../shot-id.ts';
import { cellWriters } from './cells.ts';
import { type Column, columns } from './columns.ts';
import type { ListedShot } from './read-shot-list.ts';

/** What an import does with one line. */
export interface ImportLine {
  readonly line: number;
  readonly id: string;
  readonly name: string;
  readonly what: 'added' | 'changed' | 'same';
  /** Of a line that changes a shot: which fields, as their cells have them; a shot that is only listed again names none. */
  readonly changes: readonly ChangedField[];
}

export interface ChangedField {
  readonly field: Column;
  readonly from: string;
  readonly to: string;
}

export interface ImportPlan {
  readonly lines: readonly ImportLine[];
  readonly choices: readonly JobChoice[];
  /** Whether shots that are there already come into the list's order. */
  readonly reorders: boolean;
}

/**
 * What taking a list in would do: a line meets the shot of its id, else the one of its name, else is a new shot. The
 * list's order is taken over; shots that it does not name stay, behind the others. Nothing is taken away.
 * Throws `no-job`, `job-finished`, `too-many-shots`.
 */
export function planImport(jobs: Jobs, code: string, listed: readonly ListedShot[]): ImportPlan {
  const job = jobToChange(jobs, code);
  const matches = matchShots(job, listed);
  assertRoom(job, matches.filter(({ before }) => before === null).length);
  const lines = matches.map(({ line, before, after }): ImportLine => {
    const what = before === null ? 'added' : sameShot(before, after) ? 'same' : 'changed';
    return { line, id: after.id, name: after.name, what, changes: changesOf(before, after) };
  });
  const choices = matches
    .filter(({ before, after }) => before === null || !sameShot(before, after))
    .map(({ after }): JobChoice => ({ type: 'shot-stated', job: code, shot: after }));
  const current = firstBecomesCurrent(job, matches[0]?.after.id);
  const order = orderChoice(job, matches);
  return { lines, choices: [...choices, ...order, ...current], reorders: order.length > 0 };
}

function changesOf(before: Shot | null, after: Shot): ChangedField[] {
  if (before === null) return [];
  return columns
    .map((field) => ({ field, from: cellWriters[field](before), to: cellWriters[field](after) }))
    .filter(({ from, to }) => from !== to);
}

interface Match {
  readonly line: number;
  readonly before: Shot | null;
  readonly after: Shot;
}

function matchShots(job: Job, listed: readonly ListedShot[]): Match[] {
  const byId = new Map(job.shots.map((shot) => [shot.id, shot]));
  // An id that a later line names is that line's, whatever an earlier one is called.
  const named = new Set(listed.flatMap(({ id }) => id ?? []));
  const taken = new Set([...byId.keys(), ...named]);
  const met = new Set(named);
  return listed.map(({ line, id, name, says }) => {
    const before = id === null ? byName(job, name, met) : (byId.get(id) ?? null);
    const own = before?.id ?? id ?? newShotId(name, taken);
    taken.add(own);
    met.add(own);
    const base = before ?? plainShot(own, name);
    return { line, before, after: { ...changedShot(base, says), name, hidden: false } };
  });
}

function byName(job: Job, name: string, met: ReadonlySet<string>): Shot | null {
  return job.shots.find((shot) => shot.name === name && !met.has(shot.id)) ?? null;
}

function orderChoice(job: Job, matches: readonly Match[]): JobChoice[] {
  const named = matches.map(({ after }) => after.id);
  const listed = listedShots(job).map(({ id }) => id);
  const others = listed.filter((id) => !named.includes(id));
  const wanted = [...named, ...others];
  const added = matches.filter(({ before }) => before === null).map(({ after }) => after.id);
  const without = [...job.shots.map(({ id }) => id), ...added];
  const as = new Set(wanted);
  const same = without.filter((id) => as.has(id)).every((id, index) => id === wanted[index]);
  return same ? [] : [{ type: 'shots-ordered', job: job.code, shots: wanted }];
}

/** Shots are plain values, and both come from the same shape: the order of their fields is the same. */
function sameShot(a: Shot, b: Shot): boolean {
  return JSON.stringify(canonical(a)) === JSON.stringify(canonical(b));
}

function canonical(shot: Shot): unknown[] {
  // A list says an order of frames that nobody gave as an empty one, a shot leaves it out.
  const { tolerances, order = [], ...rest } = { ...plainShot('', ''), ...shot };
  return [rest, order, Object.entries(tolerances).sort(([a], [b]) => (a < b ? -1 : 1))];
}
