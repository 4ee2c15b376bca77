import { SetsideError } from '../base/index.ts';
import { targetBalance } from '../develop/index.ts';
import type { TargetEdition } from '../facts/index.ts';
import { noWishes } from '../judge/index.ts';
import { sentence, targetWorthPhrase } from '../words/index.ts';
import { type DevelopFileOptions, type DevelopPool, judgeFile } from '../workers/index.ts';

/** What a target makes of raws, and what it is worth. */
export interface FileTarget {
  readonly balance: NonNullable<DevelopFileOptions['balance']>;
  readonly line: string;
  /** The same for a program; ΔE00 over the patches. */
  readonly worth: {
    readonly target: string;
    readonly before: number | null;
    readonly after: number;
    /** Each patch by a matrix made without it: what to believe. */
    readonly leaveOneOut: number;
  };
}

/**
 * The balance and the matrix of the 24-patch target in a raw. Rejects `target-not-read` where there is none in it or none can
 * be made of it, as `judgeFile`, and with the signal's reason.
 */
export async function targetOfFile(
  path: string,
  edition: TargetEdition | null,
  pool: Pick<DevelopPool, 'judge'>,
  signal: AbortSignal,
): Promise<FileTarget> {
  const { readings } = await judgeFile(path, pool, () => ({ ...noWishes, target: { edition } }), signal);
  const { colour } = readings;
  if (colour?.found !== true) throw notRead(path, `there is no target to be read: ${colour?.why ?? 'none'}`);
  const balance = colour.profile === null ? null : targetBalance(colour.profile);
  if (colour.profile === null || balance === null) {
    throw notRead(
      path,
      'no matrix can be made of its target: the file is no raw, or patches have lost light',
    );
  }
  const { fit, leaveOneOut } = colour.profile;
  const figures = {
    ...(colour.colour === null ? {} : { meanDeltaE00: colour.colour.mean }),
    ...(colour.greys === null ? {} : { neutralDuv: colour.greys.duv, neutralDeltaK: colour.greys.deltaK }),
    profileFitDeltaE00: fit.mean,
    profileLeaveOneOutDeltaE00: leaveOneOut.mean,
  };
  const assumed =
    colour.editionBy === 'assumed' ? ` ${sentence({ code: 'colour.edition-assumed', args: {} })}` : '';
  return {
    balance,
    line: `${path}: ${targetWorthPhrase(figures)}${assumed}`,
    worth: {
      target: path,
      before: colour.colour?.mean ?? null,
      after: fit.mean,
      leaveOneOut: leaveOneOut.mean,
    },
  };
}

function notRead(path: string, why: string): SetsideError {
  return new SetsideError('target-not-read', `${path}: ${why}`, {
    cure: 'Give a raw with the whole 24-patch target once in it, evenly lit, turned to the camera, large enough.',
  });
}
