import { SetsideError } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import { camerasProblems } from './problem-kinds/cameras.ts';
import { deliveriesProblems } from './problem-kinds/deliveries.ts';
import { jobsProblems } from './problem-kinds/jobs.ts';
import { looksProblems } from './problem-kinds/looks.ts';
import { requestProblems } from './problem-kinds/request.ts';
import { stationProblems } from './problem-kinds/station.ts';
import type { WebProblem } from './problem-kinds/web-problem.ts';

/**
 * Every code that leaves by the web door, with its HTTP status, the title of its kind, and what a person can do.
 * Codes that other rooms raise are listed where they can reach a caller; any other becomes `internal`.
 * Statuses after RFC 9110 section 15 and, for 507, RFC 4918 section 11.5.
 */
export const webProblems = {
  ...requestProblems,
  ...looksProblems,
  ...deliveriesProblems,
  ...jobsProblems,
  ...camerasProblems,
  ...stationProblems,
} as const satisfies Record<string, WebProblem>;

export type { WebProblem };

export type WebProblemCode = keyof typeof webProblems;

export function isWebProblemCode(code: string): code is WebProblemCode {
  return Object.hasOwn(webProblems, code);
}

/**
 * A refusal by the web door itself. Its message is written for the caller and may be shown to anybody, where the
 * message of any other error may name paths of this computer and stays in the log.
 */
export class Refusal extends SetsideError {
  declare readonly code: WebProblemCode;
  /** The station's own reason, where it gave one. */
  readonly finding: Finding | undefined;

  constructor(code: WebProblemCode, message: string, finding?: Finding) {
    super(code, message);
    this.finding = finding;
  }
}

/** Codes that {@link startWebDoor} rejects with. */
export const doorErrors = {
  'port-in-use': 'another program listens on the port',
  'port-forbidden': 'the system does not let an ordinary user open the port',
  'address-unknown': 'this computer has no such address',
} as const;

export type DoorErrorCode = keyof typeof doorErrors;
