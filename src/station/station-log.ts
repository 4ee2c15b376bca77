import { errorCode, errorMessage } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';

/** Where the station says what it does: findings, so that a person reads sentences and a program reads codes. */
export type StationLog = (level: 'info' | 'warn' | 'error', finding: Finding) => void;

/** Anything thrown as a finding for the log. */
export function describeTrouble(thrown: unknown): Finding {
  return { code: 'station.trouble', args: { code: errorCode(thrown), message: errorMessage(thrown) } };
}
