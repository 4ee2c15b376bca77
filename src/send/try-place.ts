import { createHash, randomBytes } from 'node:crypto';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { DestinationPlace } from '../contract/index.ts';
import type { Finding } from '../facts/index.ts';
import { SendFailure } from './core/failure.ts';
import type { SendLimits } from './core/limits.ts';
import { openPlace } from './open.ts';
import type { FileToSend, Proof } from './open-place.ts';

export interface Tried {
  /** What an SFTP server showed, whether it is known or not. */
  readonly hostKey: string | null;
  /** How the small file was proved to be there; null where it was not. */
  readonly proof: Proof | null;
  readonly findings: readonly Finding[];
}

/** Sends a small file, looks whether it is there, and takes it away again. Tries once; rejects with the signal's reason only. */
export async function tryPlace(
  place: DestinationPlace,
  secret: () => Promise<string | null>,
  limits: SendLimits,
  signal: AbortSignal,
): Promise<Tried> {
  let hostKey: string | null = null;
  const findings: Finding[] = isInClear(place) ? [{ code: 'send.in-clear', args: {} }] : [];
  const folder = await mkdtemp(join(tmpdir(), 'setside-try-'));
  const shown = (fingerprint: string): void => {
    hostKey = fingerprint;
  };
  try {
    const file = await smallFile(folder);
    const open = await openPlace({ place, secret: await secret(), below: [], limits, signal, shown });
    try {
      const { proof } = await open.send(file, {
        signal,
        progress: () => {},
        token: () => null,
        keepToken: async () => {},
      });
      if (proof === 'size') findings.push({ code: 'send.size-only', args: {} });
      await open.remove(file.name).catch((thrown: unknown) => {
        if (!(thrown instanceof SendFailure)) throw thrown;
        findings.push({ code: 'send.try-stays', args: { name: file.name } });
      });
      return { hostKey, proof, findings };
    } finally {
      open.close();
    }
  } catch (thrown) {
    signal.throwIfAborted();
    if (!(thrown instanceof SendFailure)) throw thrown;
    return { hostKey, proof: null, findings: [...findings, thrown.finding] };
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** With a name of its own, so that it is nobody else's that is taken away. */
async function smallFile(folder: string): Promise<FileToSend> {
  const name = `setside-test-${randomBytes(8).toString('hex')}.txt`;
  const bytes = Buffer.from('Setside tried whether a file can be sent here. It may be deleted.\n');
  const path = join(folder, name);
  await writeFile(path, bytes);
  return { path, name, bytes: bytes.length, sha256: createHash('sha256').update(bytes).digest('hex') };
}

function isInClear(place: DestinationPlace): boolean {
  return place.kind === 's3' && place.endpoint?.startsWith('http:') === true;
}
