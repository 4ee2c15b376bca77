import type { Wholeness } from '../facts/index.ts';
import type { ArrivalEnd, ArrivalOutcome } from './arrival-shapes.ts';
import { beganAgain } from './began-again.ts';
import type { KeepContext } from './context.ts';
import type { KeptFile } from './core/arrival-records.ts';
import { decideEnding } from './core/ending.ts';
import { fewestBytes } from './core/fewest-bytes.ts';
import type { KnownArrival } from './core/known-arrival.ts';
import { diskErrorCode } from './errors.ts';
import { hashOnDisk } from './hash-on-disk.ts';
import type { IncomingWriter, WrittenBytes } from './incoming-writer.ts';
import { weighAttempts } from './made-good.ts';
import { describeKept, type Settled, settle } from './settle.ts';

/**
 * What becomes of a file whose bytes have ended: kept, kept as damaged, known already, broken off, or failed.
 * Settles when that is durable.
 */
export async function endArrival(
  context: KeepContext,
  known: KnownArrival,
  writer: IncomingWriter,
  offsetBytes: number,
  end: ArrivalEnd,
): Promise<ArrivalOutcome> {
  const written = await writer.end();
  const outcome = await settleBytes({ context, known, writer, offsetBytes, end }, written);
  if (outcome.kind === 'broken-off' && written.sha256 !== null) {
    context.parkedHashes.park(known.id, written.sizeBytes, writer.hash);
  } else {
    writer.hash.end();
  }
  return outcome;
}

interface EndingArrival {
  readonly context: KeepContext;
  readonly known: KnownArrival;
  readonly writer: IncomingWriter;
  readonly offsetBytes: number;
  readonly end: ArrivalEnd;
}

async function settleBytes(ending: EndingArrival, written: WrittenBytes): Promise<ArrivalOutcome> {
  const { sizeBytes, failure } = written;
  try {
    if (failure !== null) throw failure;
    const sha256 = written.sha256 ?? (await hashOnDisk(ending.context, incomingPath(ending), sizeBytes));
    return await weigh(ending, sizeBytes, sha256);
  } catch (cause) {
    return await fail(ending, sizeBytes, cause);
  } finally {
    await ending.writer.file.close().catch(() => {});
  }
}

async function weigh(ending: EndingArrival, sizeBytes: number, sha256: string): Promise<ArrivalOutcome> {
  const { context, known, end } = ending;
  const same = await intactOriginal(context, known, sizeBytes, sha256);
  if (same !== null) {
    const again = { type: 'again', arrival: known.id, sameAs: same.arrival, sizeBytes, sha256 } as const;
    await context.journal.append(again, ...(await weighAttempts(context, known, same)).madeGood);
    return outcomeOf(same);
  }
  const wholeness = await inspectSafely(context, incomingPath(ending), sizeBytes);
  const fewest = fewestBytes(known.path);
  const decided = decideEnding(end, wholeness, sizeBytes, known.announcedBytes, fewest);
  if (decided.kind === 'keep') return keepWhole(ending, { sizeBytes, sha256, wholeness: decided.wholeness });
  const { expectedBytes } = decided;
  if (await cameTwice(ending, sizeBytes, sha256)) {
    const meant = decideEnding('closed', wholeness, sizeBytes, known.announcedBytes, fewest);
    return meant.kind === 'keep'
      ? keep(ending, { sizeBytes, sha256, wholeness: meant.wholeness })
      : keep(ending, { sizeBytes, sha256, wholeness: 'damaged', expectedBytes });
  }
  return breakOff(ending, sizeBytes, sha256, expectedBytes);
}

/** Where the client began anew behind what was held, the structure that it wrote over nothing proves nothing. */
async function keepWhole(
  ending: EndingArrival,
  settled: { readonly sizeBytes: number; readonly sha256: string; readonly wholeness: 'whole' | 'unknown' },
): Promise<ArrivalOutcome> {
  const { context, offsetBytes } = ending;
  const isTwice =
    settled.wholeness === 'whole' &&
    (await beganAgain(context, incomingPath(ending), offsetBytes, settled.sizeBytes));
  if (!isTwice) return keep(ending, settled);
  const outcome = await keep(ending, { ...settled, wholeness: 'unknown' });
  return outcome.kind === 'kept' ? { ...outcome, beganAgainAtBytes: offsetBytes } : outcome;
}

async function keep(
  ending: EndingArrival,
  settled: Omit<Settled, 'firstByteMs' | 'lastByteMs'>,
): Promise<ArrivalOutcome> {
  const { context, known, writer } = ending;
  const file = await describeKept(context, known, { ...settled, ...timesOf(ending) });
  await settle(context, known, file, () => writer.durable());
  return outcomeOf(file);
}

async function breakOff(
  ending: EndingArrival,
  sizeBytes: number,
  sha256: string,
  expectedBytes: number | null,
): Promise<ArrivalOutcome> {
  const { context, known, writer, end } = ending;
  await writer.durable();
  await context.disk.syncFolder(context.folders.incomingFolder);
  await context.journal.append({
    type: 'broken-off',
    arrival: known.id,
    sizeBytes,
    expectedBytes,
    sha256,
    end,
    ...timesOf(ending),
  });
  return { kind: 'broken-off', sizeBytes, expectedBytes };
}

/**
 * The disk or the journal refused. What had come stays where it is; after a failed sync nobody knows how much of it is
 * on the disk (the system may have dropped what it could not write), so nothing is offered for resuming.
 * A file that was moved already is left `settling`: the next start finds it and finishes.
 */
async function fail(ending: EndingArrival, sizeBytes: number, cause: unknown): Promise<ArrivalOutcome> {
  const { context, known, writer } = ending;
  const code = diskErrorCode(cause);
  const outcome: ArrivalOutcome = { kind: 'failed', code, sizeBytes };
  const moved = (await context.disk.stat(incomingPath(ending)).catch(() => null)) === null;
  if (moved) return outcome;
  const durable = await writer.durable().then(
    () => true,
    () => false,
  );
  const record = {
    type: 'broken-off',
    arrival: known.id,
    sizeBytes: durable ? sizeBytes : 0,
    expectedBytes: null,
    sha256: null,
    end: 'failed',
    ...timesOf(ending),
  } as const;
  // A journal that cannot be written either: the next start finds the arrival under way and says the same.
  await context.journal.append(record).catch(() => {});
  return outcome;
}

/**
 * Whether the camera has sent these cut bytes before: then that is what it has. Only an orderly close says so; a line
 * that always dies at the same place would else pass for a damaged card. A client that never sends close_notify says
 * it by ending twice at the same byte, neither time broken; else its texts would be refused for ever.
 */
async function cameTwice(ending: EndingArrival, sizeBytes: number, sha256: string): Promise<boolean> {
  const { context, known, offsetBytes, end } = ending;
  if (end !== 'closed' && end !== 'unclosed') return false;
  // Resumed at the end of what is held, and nothing came: to the camera this is the end of the file.
  if (end === 'closed' && offsetBytes > 0 && offsetBytes === sizeBytes) return true;
  for (const earlier of context.state.brokenOffAt(known.camera, known.path)) {
    if (earlier.phase.kind !== 'broken-off' || earlier.phase.sizeBytes !== sizeBytes) continue;
    if (end === 'unclosed' && earlier.phase.end !== 'unclosed') continue;
    const path = context.folders.incoming(earlier.incoming);
    const before =
      earlier.phase.sha256 ??
      foldedSha256(earlier, sizeBytes) ??
      (await hashOnDisk(context, path, sizeBytes).catch(() => null));
    if (before === sha256) return true;
  }
  return false;
}

/** Of an attempt whose bytes were folded into another. */
function foldedSha256({ folded }: KnownArrival, sizeBytes: number): string | null {
  return folded?.sizeBytes === sizeBytes ? folded.sha256 : null;
}

/**
 * The original that holds the very bytes that were sent again, or null. It is read for that: one that was altered since
 * must not answer for the camera's bytes, which may be the last good ones.
 */
async function intactOriginal(
  context: KeepContext,
  { camera, path }: KnownArrival,
  sizeBytes: number,
  sha256: string,
): Promise<KeptFile | null> {
  for (const { phase } of context.state.findSame(camera, path, sizeBytes, sha256)) {
    if (phase.kind === 'kept' && (await isAsReceived(context, phase.file))) return phase.file;
  }
  return null;
}

/** What cannot be read does not count as there. */
async function isAsReceived(context: KeepContext, file: KeptFile): Promise<boolean> {
  const path = context.folders.original(file.original);
  try {
    const found = await context.disk.stat(path);
    if (found?.kind !== 'file' || found.sizeBytes !== file.sizeBytes) return false;
    return (await hashOnDisk(context, path, file.sizeBytes)) === file.sha256;
  } catch {
    return false;
  }
}

export async function inspectSafely(
  context: KeepContext,
  path: string,
  sizeBytes: number,
): Promise<Wholeness> {
  try {
    return await context.inspect({ path, sizeBytes });
  } catch {
    return { kind: 'unknown' };
  }
}

function outcomeOf(file: KeptFile): ArrivalOutcome {
  const { sizeBytes, expectedBytes, wholeness } = file;
  return wholeness === 'damaged'
    ? { kind: 'kept-damaged', sizeBytes, expectedBytes }
    : { kind: 'kept', wholeness, sizeBytes };
}

function timesOf({ known, writer }: EndingArrival): Pick<KeptFile, 'firstByteMs' | 'lastByteMs'> {
  return { firstByteMs: known.firstByteMs ?? writer.firstByteMs, lastByteMs: writer.lastByteMs };
}

function incomingPath({ context, known }: EndingArrival): string {
  return context.folders.incoming(known.incoming);
}
