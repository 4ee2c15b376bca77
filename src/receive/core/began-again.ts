import type { Finding } from '../../facts/index.ts';
import type { ArrivalOutcome } from './camera-folder.ts';

/** What is said where a client asked to go on and sent its file from the beginning; null elsewhere. */
export function beganAgainFinding(name: string, outcome: ArrivalOutcome): Finding | null {
  if (outcome.kind !== 'kept' || outcome.beganAgainAtBytes === undefined) return null;
  return { code: 'line.upload-began-again', args: { name, offsetBytes: outcome.beganAgainAtBytes } };
}
