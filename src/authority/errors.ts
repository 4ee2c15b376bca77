import { SetsideError } from '../base/index.ts';

/** Every code that this room raises. */
export const authorityErrorCodes = ['authority-unreadable', 'authority-unwritable'] as const;
export type AuthorityErrorCode = (typeof authorityErrorCodes)[number];

/** The root's file is there and does not hold a certificate with its key. Never replaced quietly: cameras trust it. */
export function authorityUnreadable(file: string, cause?: unknown): SetsideError {
  return new SetsideError(
    'authority-unreadable',
    `expected a root certificate with its private key in ${file}, found something else`,
    {
      cause,
      cure: 'Put the file back from a backup, or take it away: a new root is made, and each camera must import that.',
      details: { file },
    },
  );
}

export function authorityUnwritable(folder: string, cause: unknown): SetsideError {
  return new SetsideError('authority-unwritable', `the keys in ${folder} cannot be read or written`, {
    cause,
    cure: 'Give this user the right to write there.',
    details: { folder },
  });
}
