import { errorCode } from '../../base/index.ts';
import { SendFailure } from '../core/failure.ts';

/** Status codes of SFTP: draft-ietf-secsh-filexfer-02, section 7. */
export const sftpStatus = {
  noSuchFile: 2,
  permissionDenied: 3,
  failure: 4,
  unsupported: 8,
} as const;

/** The status an answer brought; null where the failure is none of SFTP's. */
export function statusOf(thrown: unknown): number | null {
  const code = typeof thrown === 'object' && thrown !== null && 'code' in thrown ? thrown.code : null;
  return typeof code === 'number' ? code : null;
}

/** Why nobody could log in, or why the connection went. */
export function connectFailure(thrown: unknown, host: string): SendFailure {
  if (thrown instanceof SendFailure) return thrown;
  const level = typeof thrown === 'object' && thrown !== null && 'level' in thrown ? thrown.level : '';
  if (level === 'client-authentication') {
    return new SendFailure('stop', 'send.log-in-refused', { host }, thrown);
  }
  // ssh2 reads the key before it connects, and says so in words only.
  if (thrown instanceof Error && /privateKey/.test(thrown.message)) {
    return new SendFailure('stop', 'send.bad-key', {}, thrown);
  }
  if (level === 'handshake' && thrown instanceof Error && /no matching/i.test(thrown.message)) {
    return new SendFailure('stop', 'send.no-common-way', { host }, thrown);
  }
  return new SendFailure('again', 'send.no-answer', { host, why: errorCode(thrown) }, thrown);
}

/** A folder of a server. */
export interface FolderThere {
  readonly host: string;
  readonly folder: string;
}

/** Why the server did not do what it was asked. Whether its disk is full is asked by whoever holds the connection. */
export function answerFailure(thrown: unknown, name: string, { host, folder }: FolderThere): unknown {
  if (thrown instanceof SendFailure) return thrown;
  switch (statusOf(thrown)) {
    case null:
      return thrown;
    case sftpStatus.noSuchFile:
      return new SendFailure('stop', 'send.no-folder-there', { host, folder }, thrown);
    case sftpStatus.permissionDenied:
      return new SendFailure('stop', 'send.not-allowed', { why: 'SSH_FX_PERMISSION_DENIED' }, thrown);
    default:
      return new SendFailure('again', 'send.refused', { name, why: `SFTP ${statusOf(thrown)}` }, thrown);
  }
}
