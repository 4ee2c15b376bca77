/** What can fail in this room; each is a `SetsideError` with one of these codes. */
export const standInErrorCodes = {
  /** The station could not be reached or did not answer in time. Retryable. */
  unreachable: 'stand-in-unreachable',
  /** The station did not take the user or the password. */
  refused: 'stand-in-refused',
  /** An upload broke off and every retry did, too. Retryable. */
  uploadFailed: 'stand-in-upload-failed',
  /** An option is outside its range. */
  wrongOption: 'stand-in-wrong-option',
  /** A render worker died. Retryable. */
  workerFailed: 'stand-in-worker-failed',
} as const;

export type StandInErrorCode = (typeof standInErrorCodes)[keyof typeof standInErrorCodes];
