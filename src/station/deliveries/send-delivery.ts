import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { DestinationPlace } from '../../contract/index.ts';
import type { Specification } from '../../deliver/index.ts';
import type { Finding } from '../../facts/index.ts';
import { defaultSendLimits, type FileToSend, Sender, SendFailure } from '../../send/index.ts';
import type { DeliveryRun } from './delivery-run.ts';

/** What the sending needs of the destinations: the book has it. */
export interface Places {
  /** As it is now. Rejects `SendFailure` where it was forgotten. */
  placeOf(name: string): Promise<DestinationPlace>;
  secretOf(name: string): Promise<string | null>;
}

/** Progress is told this often, ms: a bar that moves, not a flood. */
const tellEveryMs = 500;
/** How long what was begun is given up, ms; then it stays, under a name that says what it is. */
const letGoMsMax = 20_000;

export interface Sending {
  readonly places: Places;
  readonly folder: string;
  readonly now: () => number;
  readonly tell: () => void;
}

/** Sends every file of which nothing is known there. Rejects with `SendFailure` where it has to wait, and with the signal's reason. */
export async function sendFiles(run: DeliveryRun, sending: Sending, signal: AbortSignal): Promise<void> {
  if (run.nextToSend() === null) return;
  const sender = await openSender(run, sending);
  try {
    for (let next = run.nextToSend(); next !== null; next = run.nextToSend()) {
      const { file: name, bytes, sha256 } = next;
      await sendOne(run, sender, { path: join(sending.folder, name), name, bytes, sha256 }, sending, signal);
      sending.tell();
    }
  } finally {
    sender.close();
  }
}

/** The manifests, which say where all the others are. */
export async function sendManifests(
  run: DeliveryRun,
  names: readonly string[],
  sending: Sending,
  signal: AbortSignal,
): Promise<void> {
  const left = names
    .map((here) => ({ here, name: run.sending.manifestNameThere(here) }))
    .filter(({ name }) => !run.sending.isSettled(name));
  if (left.length === 0) return;
  const sender = await openSender(run, sending);
  try {
    for (const { here, name } of left) {
      const path = join(sending.folder, here);
      const content = await readFile(path);
      const sha256 = createHash('sha256').update(content).digest('hex');
      await sendOne(run, sender, { path, name, bytes: content.length, sha256 }, sending, signal);
    }
  } finally {
    sender.close();
  }
}

/** Gives up what lies there of the file that was under way when a person ended the delivery. */
export async function letGo(run: DeliveryRun, sending: Sending): Promise<void> {
  const begun = run.firstNotSent();
  if (begun === null) return;
  const sender = await openSender(run, sending);
  try {
    const { file: name, bytes, sha256 } = begun;
    const file = { path: join(sending.folder, name), name, bytes, sha256 };
    await sender.letGo(file, run.sending.token(name), AbortSignal.timeout(letGoMsMax));
  } finally {
    sender.close();
  }
}

async function sendOne(
  run: DeliveryRun,
  sender: Sender,
  file: FileToSend,
  { now, tell }: Sending,
  signal: AbortSignal,
): Promise<void> {
  const { name } = file;
  let toldMs = now();
  const progress = (bytes: number): void => {
    run.sending.progress(name, bytes);
    if (now() - toldMs < tellEveryMs) return;
    toldMs = now();
    tell();
  };
  try {
    const sent = await sender.send(file, {
      signal,
      progress,
      token: () => run.sending.token(name),
      keepToken: (token) => run.note({ upload: { file: name, token } }),
    });
    await run.note({ sent: { file: name, ...sent } });
  } catch (thrown) {
    if (!(thrown instanceof SendFailure) || thrown.next !== 'file') throw thrown;
    await run.note({ notSent: { file: name, finding: thrown.finding } });
  }
}

/** Files go to a folder of their job and delivery there, so that two deliveries do not meet. */
async function openSender(run: DeliveryRun, { places, tell }: Sending): Promise<Sender> {
  const { job, folder, specification } = run.order;
  const destination = await destinationOf(specification.destination, places);
  run.sending.trouble = null;
  const onTrouble = (finding: Finding | null): void => {
    run.sending.trouble = finding;
    tell();
  };
  return new Sender({ ...destination, below: [job, folder], limits: defaultSendLimits, onTrouble });
}

async function destinationOf(
  destination: Specification['destination'],
  places: Places,
): Promise<{ readonly place: DestinationPlace; readonly secret: () => Promise<string | null> }> {
  if (destination.kind === 'named') {
    const { name } = destination;
    return { place: await places.placeOf(name), secret: () => places.secretOf(name) };
  }
  if (destination.kind === 'folder')
    return { place: { kind: 'folder', path: destination.path }, secret: async () => null };
  throw new Error('a delivery to the folder of its job is not sent');
}
