import { onceEach } from '../../bag/index.ts';
import type { BagProgress } from '../../bagging/index.ts';
import { epochMsToRfc3339 } from '../../base/index.ts';
import { type BagOutcome, type BagWork, bagFindingsNamedMax } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import { plain } from '../hand-over/card-state.ts';
import { msToGo } from '../hand-over/to-go.ts';
import type { BagEnd, BagTask } from './bag-messages.ts';

/** A bag as it begins. */
export function beginningWork(id: string, task: BagTask, nowMs: number): BagWork {
  return {
    id,
    kind: task.kind,
    job: task.kind === 'make' ? task.job : null,
    folder: task.folder,
    state: 'running',
    startedAt: epochMsToRfc3339(nowMs),
    endedAt: null,
    phase: 'beginning',
    doneBytes: 0,
    bytes: 0,
    toGoMs: null,
    waiting: false,
    outcome: null,
    failure: null,
  };
}

/** What is asked of the process that goes on with it. */
export function taskOf({ kind, job, folder }: BagWork): BagTask {
  return kind === 'make' && job !== null ? { kind, job, folder } : { kind: 'check', folder };
}

/** `phaseMs`: how long this phase was worked at, without rests. */
export function workUnderWay(work: BagWork, far: BagProgress, phaseMs: number): BagWork {
  const { phase, doneBytes, bytes } = far;
  // What is written is read again at about the speed of writing: nothing better is known before.
  const all = phase === 'writing' ? bytes * 2 : bytes;
  return { ...work, phase, doneBytes, bytes, toGoMs: msToGo(doneBytes, all, phaseMs) };
}

export function workDone(work: BagWork, end: BagEnd, nowMs: number): BagWork {
  const { valid, version, files, bytes, originals, unfinished, leftOut } = end;
  const findings = [...onceEach(end.findings)].sort((a, b) => weightOf(a.weight) - weightOf(b.weight));
  const named = findings.slice(0, bagFindingsNamedMax);
  const outcome: BagOutcome = {
    ...{ valid, version, files, bytes, originals, unfinished },
    leftOut: leftOut.map(plain),
    payloadOxum: `${bytes}.${files}`,
    findings: named.map(({ weight, finding }) => ({ weight, finding: plain(finding) })),
    more: findings.length - named.length,
  };
  return { ...ended(work, 'done', nowMs), phase: 'reading', outcome };
}

export function ended(work: BagWork, state: 'done' | 'stopped', nowMs: number): BagWork {
  return { ...work, state, endedAt: epochMsToRfc3339(nowMs), toGoMs: null, waiting: false };
}

export function workFailed(work: BagWork, failure: Finding, nowMs: number): BagWork {
  return { ...ended(work, 'stopped', nowMs), state: 'failed', failure: plain(failure) };
}

function weightOf(weight: 'bad' | 'warning'): number {
  return weight === 'bad' ? 0 : 1;
}
