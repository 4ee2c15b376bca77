import { join } from 'node:path';
import { SetsideError } from '../base/index.ts';
import type { KeptFile } from './core/arrival-records.ts';
import { KeepState } from './core/keep-state.ts';
import type { JournalRecord } from './core/records.ts';
import type { Disk } from './disk.ts';
import { replayJournal } from './journal-reader.ts';
import { nodeDisk } from './node-disk.ts';

/** All that the journal knows of one job. */
export interface JobContents {
  /** Originals of the frames that are in the job now, wherever in the home they lie. */
  readonly originals: readonly KeptFile[];
  /** Files of those frames that are on the way or broken off: the job lacks them. */
  readonly unfinished: number;
  /** Records about the job, its frames and their files, in the journal's order. */
  readonly records: readonly JournalRecord[];
  /** Saved versions of looks that these records speak of. */
  readonly looks: readonly SavedLook[];
}

type SavedLook = Extract<JournalRecord, { type: 'look-saved' }>;
type Lines = readonly JournalRecord[];

/**
 * What belongs to a job by the journal alone. Changes nothing, so that it may run beside a station. Rejects `no-job` where
 * the journal has never heard of it, `journal-damaged` where a part cannot be read: what that part said of the job would
 * be missing without a word.
 */
export async function readJobContents(
  home: string,
  code: string,
  disk: Disk = nodeDisk(),
): Promise<JobContents> {
  const state = new KeepState();
  const jobOf = new Map<string, string>();
  const all: JournalRecord[] = [];
  const end = await replayJournal(disk, join(home, 'journal'), (record) => {
    state.apply(record);
    if (record.type === 'job-set') jobOf.set(record.frame, record.job);
    all.push(record);
  });
  if (end.damage.length > 0)
    throw new SetsideError('journal-damaged', `a part of the journal of ${home} cannot be read`, {
      cure: 'Run: setside verify. It names the part, and a second place that holds it.',
    });
  const inJob = [...state.arrivals.values()].filter(
    (arrival) => (jobOf.get(arrival.frame) ?? arrival.job) === code,
  );
  const arrivals = new Set(inJob.map(({ id }) => id));
  const frames = new Set(inJob.map(({ frame }) => frame));
  const records = all.filter((record) => isAbout(record, code, frames, arrivals));
  if (records.length === 0)
    throw new SetsideError('no-job', `there is no job "${code}" in ${home}`, {
      cure: 'setside job list shows those there are.',
    });
  const originals = inJob.flatMap(({ phase, replacedBy }) =>
    phase.kind === 'kept' && replacedBy === null ? [phase.file] : [],
  );
  const unfinished = inJob.filter(
    ({ phase }) =>
      phase.kind === 'arriving' ||
      phase.kind === 'settling' ||
      (phase.kind === 'broken-off' && phase.settled === 'no'),
  ).length;
  return { originals, unfinished, records, looks: looksOf(all, records) };
}

/** By the file where a record speaks of one, else by the frame, else by the job: frames move, and take their files along. */
function isAbout(
  record: JournalRecord,
  code: string,
  frames: ReadonlySet<string>,
  arrivals: ReadonlySet<string>,
): boolean {
  if ('arrival' in record && record.arrival !== null) return arrivals.has(record.arrival);
  if ('frame' in record) return frames.has(record.frame);
  if ('job' in record) return record.job === code;
  return record.type === 'job-opened' && record.code === code;
}

function looksOf(all: Lines, records: Lines): SavedLook[] {
  const named = new Set<string>();
  for (const record of records) {
    const look = lookOf(record);
    if (look !== null) named.add(look);
  }
  return all.flatMap((record) => (record.type === 'look-saved' && named.has(record.look) ? [record] : []));
}

function lookOf(record: JournalRecord): string | null {
  switch (record.type) {
    case 'look-set':
      return record.look;
    case 'shot-stated':
      return record.shot.lookId ?? null;
    case 'job-hand-over-set':
      return record.lookId ?? null;
    default:
      return null;
  }
}
