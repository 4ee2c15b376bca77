/** Where the web door says what it cannot say to the caller. `station` writes it to its log. */
export type WebLog = (entry: WebLogEntry) => void;

export interface WebLogEntry {
  readonly level: 'info' | 'warn' | 'error';
  /** Stable, kebab-case. */
  readonly event: 'request-failed' | 'stream-dropped' | 'framework';
  readonly details: Readonly<Record<string, string | number>>;
  /** What was thrown, with its cause, where something was. */
  readonly error?: unknown;
}

/** For callers that want no log. */
export const noWebLog: WebLog = () => {};
