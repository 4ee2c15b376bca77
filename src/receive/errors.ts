import { SetsideError } from '../base/index.ts';

/** Every code that this room raises itself; a folder's own codes are {@link FolderErrorCode}. */
export const receiveErrorCodes = ['port-in-use', 'port-forbidden', 'bad-option'] as const;
export type ReceiveErrorCode = (typeof receiveErrorCodes)[number];

/** Another program listens on the port. Retrying helps once that program has ended. */
export function portInUse(port: number, cause: unknown): SetsideError {
  return new SetsideError('port-in-use', `expected port ${port} to be free, another program listens on it`, {
    cause,
    retryable: true,
    cure: 'Close the other program or choose another port.',
    details: { port },
  });
}

/** The system keeps the port for itself, as most do below 1024. */
export function portForbidden(port: number, cause: unknown): SetsideError {
  return new SetsideError('port-forbidden', `the system does not let this user open port ${port}`, {
    cause,
    cure: 'Choose a port above 1023.',
    details: { port },
  });
}

/** An option that no door can be opened with. */
export function badOption(name: string, wanted: string, got: unknown): SetsideError {
  return new SetsideError('bad-option', `expected ${wanted} for ${name}, got ${String(got)}`, {
    details: { option: name },
  });
}
