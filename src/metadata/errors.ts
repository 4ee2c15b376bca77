import { SetsideError } from '../base/index.ts';

/** Codes that a {@link import('./metadata-reader.ts').MetadataReader} rejects with. */
export const metadataErrorCodes = ['metadata-unreadable', 'metadata-timed-out', 'metadata-closed'] as const;
export type MetadataErrorCode = (typeof metadataErrorCodes)[number];

const retryable: Readonly<Record<MetadataErrorCode, boolean>> = {
  'metadata-unreadable': false,
  'metadata-timed-out': true,
  'metadata-closed': false,
};

/** An error of this room; the message says of which file and what was found. */
export function metadataError(code: MetadataErrorCode, message: string, cause?: unknown): SetsideError {
  return new SetsideError(code, message, {
    retryable: retryable[code],
    ...(cause === undefined ? {} : { cause }),
  });
}
