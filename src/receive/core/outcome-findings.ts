import type { Finding } from '../../facts/index.ts';
import type { ArrivalEnd, ArrivalOutcome } from './camera-folder.ts';
import { nameOf } from './path.ts';

/**
 * What a camera's log is told of a file that has ended, whichever way it came. `path` is the file's place on the camera:
 * two files of one name in two folders are two.
 */
export function outcomeFinding(path: string, why: ArrivalEnd, outcome: ArrivalOutcome): Finding {
  return { code: codeOf(outcome), args: { name: nameOf(path), path, bytes: outcome.sizeBytes, why } };
}

function codeOf(outcome: ArrivalOutcome): string {
  if (outcome.kind === 'failed') return outcome.code === 'disk-full' ? 'line.disk-full' : 'line.disk-failed';
  return `line.upload-${outcome.kind}`;
}

/** What is said where a client asked to go on and sent its file from the beginning; null elsewhere. */
export function beganAgainFinding(name: string, outcome: ArrivalOutcome): Finding | null {
  if (outcome.kind !== 'kept' || outcome.beganAgainAtBytes === undefined) return null;
  return { code: 'line.upload-began-again', args: { name, offsetBytes: outcome.beganAgainAtBytes } };
}
