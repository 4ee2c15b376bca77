import type { DestinationPlace } from '../contract/index.ts';
import { SendFailure } from './core/failure.ts';
import type { SendLimits } from './core/limits.ts';
import { FolderPlace } from './folder-place.ts';
import type { OpenPlace } from './open-place.ts';
import { openS3 } from './s3/s3-place.ts';
import { openSftpLine } from './sftp/line.ts';
import { SftpPlace } from './sftp/sftp-place.ts';

export interface OpenOptions {
  readonly place: DestinationPlace;
  /** Password, private key or secret key; null where there is none. */
  readonly secret: string | null;
  /** Folders below the place that files go to; made where they are missing. */
  readonly below: readonly string[];
  readonly limits: SendLimits;
  readonly signal: AbortSignal;
  /** Hears the fingerprint of an SFTP server's key. */
  readonly shown?: (fingerprint: string) => void;
}

/** Opens a destination. Rejects with `SendFailure`, or with the signal's reason. */
export async function openPlace(options: OpenOptions): Promise<OpenPlace> {
  const { place, below, limits, signal, shown = () => {} } = options;
  if (place.kind === 'folder') return new FolderPlace(place.path, below);
  // A server's key is worth seeing before there is a log-in; without one the server refuses it, and nothing is given away.
  if (place.kind === 'sftp' && options.secret === null && place.hostKey !== null)
    throw new SendFailure('stop', 'send.no-secret');
  if (place.kind === 'sftp') {
    const line = await openSftpLine(
      { ...place, ...(options.secret === null ? { logInBy: 'password' as const } : {}) },
      options.secret ?? '',
      limits.silenceMsMax,
      signal,
      shown,
    );
    return new SftpPlace(line, place, below);
  }
  if (options.secret === null) throw new SendFailure('stop', 'send.no-secret');
  return openS3(place, options.secret, limits.silenceMsMax, below);
}
