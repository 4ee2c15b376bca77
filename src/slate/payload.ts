import { type EpochMs, SetsideError } from '../base/index.ts';
import { crc16 } from './crc16.ts';

/** From this frame on, this shot. */
export interface ShotSlate {
  readonly kind: 'shot';
  readonly job: string;
  readonly shot: string;
}

/** The time, as it was shown. */
export interface ClockSlate {
  readonly kind: 'clock';
  /** The station's time when the code was drawn. */
  readonly atMs: EpochMs;
  /** How long a code stands before the next takes its place, ms; at least 1. */
  readonly refreshMs: number;
  /** How far the showing clock may be from the station's, either way, ms. */
  readonly unsureMs: number;
}

export type Slate = ShotSlate | ClockSlate;

/** Longest text of a code: job and shot of 200 characters each, each of them written as nine. Longer is not looked at. */
export const slateTextMax = 4000;

/** Times of a clock slate lie between 2000 and 2200: anything else is no clock of today. */
const clockMsMin = 946_684_800_000;
const clockMsMax = 7_258_118_400_000;
/** A slower or less certain clock measures nothing. */
const clockSpanMsMax = 60_000;

const version = '1';

/** The text of a code. Throws `slate-too-long` where job and shot would not fit into a code that a camera can read. */
export function writeSlate(slate: Slate): string {
  const fields =
    slate.kind === 'shot'
      ? ['setside', 'slate', version, encodeURIComponent(slate.job), encodeURIComponent(slate.shot)]
      : ['setside', 'clock', version, ...[slate.atMs, slate.refreshMs, slate.unsureMs].map(inBase36)];
  const text = fields.join(':');
  if (text.length > writtenMax) {
    throw new SetsideError('slate-too-long', `a slate of ${text.length} characters is too fine to be read`);
  }
  return `${text}:${checkOf(text)}`;
}

/** A code of so many characters has 69 modules a side (ISO/IEC 18004, version 13, level M: 331 bytes). */
const writtenMax = 320;

/** What a text means, or null where it is not ours, not whole, or of another version. */
export function readSlate(text: string): Slate | null {
  if (text.length > slateTextMax) return null;
  const fields = text.split(':');
  const check = fields.pop();
  if (check !== checkOf(fields.join(':'))) return null;
  const [maker, kind, ours, ...rest] = fields;
  if (maker !== 'setside' || ours !== version) return null;
  if (kind === 'slate') return shotSlate(rest);
  return kind === 'clock' ? clockSlate(rest) : null;
}

function shotSlate(fields: readonly string[]): ShotSlate | null {
  const [job, shot] = fields.map(decoded);
  if (fields.length !== 2 || !job || !shot) return null;
  return { kind: 'shot', job, shot };
}

function clockSlate(fields: readonly string[]): ClockSlate | null {
  const [atMs = -1, refreshMs = -1, unsureMs = -1] = fields.map(fromBase36);
  if (fields.length !== 3 || atMs < clockMsMin || atMs > clockMsMax) return null;
  if (refreshMs < 1 || refreshMs > clockSpanMsMax || unsureMs < 0 || unsureMs > clockSpanMsMax) return null;
  return { kind: 'clock', atMs, refreshMs, unsureMs };
}

/** Four hexadecimal digits over everything in front. */
function checkOf(text: string): string {
  return crc16(new TextEncoder().encode(text)).toString(16).padStart(4, '0');
}

function decoded(field: string): string | null {
  try {
    return decodeURIComponent(field);
  } catch {
    return null;
  }
}

/** Fewer characters make larger modules. */
function inBase36(value: number): string {
  return Math.max(0, Math.round(value)).toString(36);
}

function fromBase36(field: string): number {
  return /^[0-9a-z]{1,11}$/.test(field) ? Number.parseInt(field, 36) : -1;
}
