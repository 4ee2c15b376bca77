/** What a command's exit code says; part of the contract. */
export const exitCodes = {
  done: 0,
  /** The answer is no: an original does not match, a line is shut. */
  no: 1,
  wrongUse: 2,
  failed: 3,
} as const;
