/**
 * One base class for every failure that Setside raises on purpose.
 *
 * Match on `code`, never on class or text: codes are stable and survive a worker border, where classes do not.
 * A message says what was expected, of which thing, and what was found; it never holds a password.
 */
export class SetsideError extends Error {
  /** Stable, kebab-case, unique in the project; listed in the raising room's `errors.ts`. */
  readonly code: string;
  /** Whether doing the same again may succeed without a person changing anything. */
  readonly retryable: boolean;
  /** What a person can do about it, one sentence, or undefined where nothing helps. */
  readonly cure: string | undefined;
  /** Figures and names for logs and tests; serialisable. */
  readonly details: Readonly<Record<string, string | number | boolean>>;

  constructor(code: string, message: string, options: SetsideErrorOptions = {}) {
    super(message, options.cause === undefined ? undefined : { cause: options.cause });
    this.name = 'SetsideError';
    this.code = code;
    this.retryable = options.retryable ?? false;
    this.cure = options.cure;
    this.details = options.details ?? {};
  }
}

export interface SetsideErrorOptions {
  readonly cause?: unknown;
  readonly retryable?: boolean;
  readonly cure?: string;
  readonly details?: Readonly<Record<string, string | number | boolean>>;
}

/** The code of anything thrown: ours, a system error's (`ENOSPC`), or `unknown`. */
export function errorCode(thrown: unknown): string {
  if (thrown instanceof SetsideError) return thrown.code;
  if (typeof thrown === 'object' && thrown !== null && 'code' in thrown && typeof thrown.code === 'string') {
    return thrown.code;
  }
  return 'unknown';
}

/** The message of anything thrown, for a log line. */
export function errorMessage(thrown: unknown): string {
  return thrown instanceof Error ? thrown.message : String(thrown);
}
