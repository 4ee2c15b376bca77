import { randomUUID } from 'node:crypto';
import type { PutBackAnswer } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import { trayCode } from '../../job/index.ts';
import {
  type Keep,
  openKeep,
  type PutBackOutcome,
  putOriginalsBack,
  readVerificationNote,
  readVerified,
  writeVerificationNote,
  writeVerified,
} from '../../keep/index.ts';
import { inspectFile } from '../arrival-watch.ts';
import type { BadOriginals } from '../bad-originals.ts';
import { defaults } from '../core/options.ts';
import { noteWithout } from './found-in-round.ts';
import type { Verifying } from './verifying.ts';

export interface PutBackOptions {
  readonly homePath: string;
  readonly keep: Pick<Keep, 'append'> & KeptFiles;
  readonly badOriginals: Pick<BadOriginals, 'arrivals' | 'found' | 'of'>;
  readonly places: { originalsRead(isBad: (arrival: string) => boolean): void };
  readonly verifying: Pick<Verifying, 'putBack'>;
  readonly now: () => number;
  /** Default: in a process of its own. */
  readonly put?: typeof putOriginalsBack;
}

/**
 * Puts originals back from a second place, one wish at a time; null for all that are known to be bad. Rejects `no-original`,
 * and what kept it from reading.
 */
export function puttingBack(
  options: PutBackOptions,
): (names: readonly string[] | null) => Promise<PutBackAnswer> {
  let turn: Promise<unknown> = Promise.resolve();
  return (names) => {
    const done = turn.then(() => putBackNow(options, names));
    turn = done.catch(() => {});
    return done;
  };
}

async function putBackNow(
  { homePath, keep, badOriginals, places, verifying, now, put = putOriginalsBack }: PutBackOptions,
  names: readonly string[] | null,
): Promise<PutBackAnswer> {
  // What a reading has just found is in its file before the station has heeded that.
  const known = [...badOriginals.arrivals(), ...(await foundBad(homePath, keep))];
  const wanted = names ?? [...new Set(known)];
  const outcomes = wanted.length === 0 ? [] : await put(homePath, wanted).done;
  await journalled(keep, outcomes);
  const good = outcomes.filter(isGood);
  for (const { arrival, frame } of good) badOriginals.found({ arrival, frame }, null, now());
  if (good.length > 0) {
    const arrivals = new Set(good.map(({ arrival }) => arrival));
    await verifying.putBack(arrivals, await forgetVerified(homePath, arrivals));
    places.originalsRead((arrival) => badOriginals.of(arrival) !== null);
  }
  return answerOf(outcomes);
}

/** The same where no station runs: it takes the home meanwhile. Rejects `home-in-use` too. */
export async function putBackInHome(home: string, names: readonly string[] | null): Promise<PutBackAnswer> {
  const keep = await openKeep({
    home,
    inspect: async ({ path, sizeBytes }) => (await inspectFile(path, sizeBytes)).wholeness,
    newId: () => randomUUID(),
    now: Date.now,
    jobOf: () => trayCode,
    diskFloorBytes: defaults.diskFloorBytes,
    hashWorkers: 0,
  });
  try {
    const wanted = names ?? (await foundBad(home, keep));
    const outcomes = wanted.length === 0 ? [] : await putOriginalsBack(home, wanted).done;
    await journalled(keep, outcomes);
    const arrivals = new Set(outcomes.filter(isGood).map(({ arrival }) => arrival));
    const ofLast = await forgetVerified(home, arrivals);
    const note = await readVerificationNote(home);
    if (note !== null && arrivals.size > 0)
      await writeVerificationNote(home, noteWithout(note, arrivals, ofLast));
    return answerOf(outcomes);
  } finally {
    await keep.close();
  }
}

interface KeptFiles {
  /** Null for one that is kept no more. */
  readonly keptFile: (arrival: string) => object | null;
}

/** Arrivals whose originals the last readings found bad. */
async function foundBad(home: string, keep: KeptFiles): Promise<string[]> {
  const arrivals = (await readVerified(home))?.originals.map(({ arrival }) => arrival) ?? [];
  return arrivals.filter((arrival) => keep.keptFile(arrival) !== null);
}

async function journalled(keep: Pick<Keep, 'append'>, outcomes: readonly PutBackOutcome[]): Promise<void> {
  for (const outcome of outcomes) {
    if (outcome.kind !== 'put-back') continue;
    const { arrival, place, aside } = outcome;
    await keep.append({ type: 'put-back', arrival, place, aside });
  }
}

/** What the last reading left is right no more. Gives how many of these it had found bad. */
async function forgetVerified(home: string, arrivals: ReadonlySet<string>): Promise<number> {
  const known = await readVerified(home);
  if (known === null) return 0;
  const originals = known.originals.filter(({ arrival }) => !arrivals.has(arrival));
  if (originals.length < known.originals.length) await writeVerified(home, { ...known, originals });
  return known.originals.length - originals.length;
}

function isGood({ kind }: PutBackOutcome): boolean {
  return kind === 'put-back' || kind === 'as-received';
}

function answerOf(outcomes: readonly PutBackOutcome[]): PutBackAnswer {
  return {
    originals: outcomes.map((outcome) => {
      const { frame, original, kind } = outcome;
      const put = kind === 'put-back' ? outcome : null;
      const told = { folder: put?.folder ?? null, aside: put?.aside ?? null };
      return { frame, original, outcome: kind, ...told, findings: findingsOf(outcome) };
    }),
  };
}

function findingsOf(outcome: PutBackOutcome): Finding[] {
  const { original } = outcome;
  switch (outcome.kind) {
    case 'put-back': {
      const { folder, aside } = outcome;
      return [{ code: 'keep.put-back', args: { original, folder, ...(aside === null ? {} : { aside }) } }];
    }
    case 'as-received':
      return [{ code: 'keep.put-back-not-needed', args: { original } }];
    case 'failed':
      return [{ code: 'keep.put-back-failed', args: { original, why: outcome.why } }];
    case 'no-copy':
      return [
        { code: 'copy.none-holds-original', args: { original } },
        ...outcome.away.map((folder) => ({ code: 'copy.away-for-original', args: { original, folder } })),
      ];
  }
}
