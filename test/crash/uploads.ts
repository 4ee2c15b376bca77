import { createHash, randomBytes } from 'node:crypto';
import type { Sender } from './senders.ts';

/** What was told to be kept, and everything that was ever sent whole or in part, by SHA-256. */
export interface Ledger {
  /** Hash by camera's path; the newest word on each. */
  readonly acknowledged: Map<string, string>;
  readonly acknowledgedHashes: Set<string>;
  /** Hashes of whole files that were sent, acknowledged or not. */
  readonly sent: Set<string>;
}

export function newLedger(): Ledger {
  return { acknowledged: new Map(), acknowledgedHashes: new Set(), sent: new Set() };
}

/** Chance as a value: a round that failed can be run again from its seed. */
export type Chance = () => number;

/** mulberry32, a small generator in the public domain (Tommy Ettinger). */
export function chanceFrom(seed: number): Chance {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/**
 * Uploads as cameras do, file after file, until the station is gone: raws and plain files, now and then the same name
 * with other bytes, the same bytes again, a temporary name and a rename, a file given up in the middle.
 */
export async function uploadUntilGone(
  open: () => Promise<Sender>,
  who: string,
  raw: Uint8Array,
  ledger: Ledger,
  chance: Chance,
): Promise<void> {
  let sender: Sender | null = null;
  try {
    sender = await open();
    await sender.makeFolder(`/DCIM/${who}`);
    for (;;) await uploadOne(sender, `/DCIM/${who}`, raw, ledger, chance);
  } catch {
    // The station was killed, or the file was given up: either way this connection is over.
  } finally {
    sender?.close();
  }
}

async function uploadOne(
  sender: Sender,
  folder: string,
  raw: Uint8Array,
  ledger: Ledger,
  chance: Chance,
): Promise<void> {
  const isRaw = chance() < 0.5;
  const bytes = isRaw ? changedRaw(raw) : randomBytes(1 + Math.floor(chance() ** 3 * 2_000_000));
  const path = `${folder}/QMST${String(1 + Math.floor(chance() * 400)).padStart(4, '0')}${isRaw ? '.DNG' : '.BIN'}`;
  const hash = createHash('sha256').update(bytes).digest('hex');
  ledger.sent.add(hash);
  const kind = chance();
  // Only of a raw can be told that it is cut; half a plain file is a whole one (docs/decisions).
  if (isRaw && kind < 0.2) {
    // Another length each time: the same cut bytes twice are what the camera has, and are kept as damaged.
    const share = 0.3 + 0.4 * chance();
    await sender.giveUp(bytes.subarray(0, Math.floor(bytes.length * share)), path);
    return;
  }
  const temporary = kind < 0.3 ? `${path}.TMP` : path;
  await sender.upload(bytes, temporary);
  acknowledge(ledger, path, hash);
  if (temporary !== path) await sender.rename(temporary, path);
  if (kind > 0.9) await sender.upload(bytes, path);
}

function acknowledge(ledger: Ledger, path: string, hash: string): void {
  ledger.acknowledged.set(path, hash);
  ledger.acknowledgedHashes.add(hash);
}

/**
 * The same raw with another lens's name and other pixels: as whole as before, and no file twice. Nor does any begin as
 * another does: TLS gives what comes before a break in whole records, and two cut files of the same bytes and name are
 * what the camera has, and kept as damaged.
 */
function changedRaw(raw: Uint8Array): Buffer {
  const bytes = Buffer.from(raw);
  const lens = bytes.indexOf('Stand-in 90mm');
  if (lens < 0) throw new Error('the raw names no lens');
  bytes.write(randomBytes(6).toString('hex'), lens, 'latin1');
  randomBytes(16).copy(bytes, bytes.length - 400);
  return bytes;
}
