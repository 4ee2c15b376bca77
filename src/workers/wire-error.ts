import { errorCode, errorMessage, SetsideError } from '../base/index.ts';
import type { WireError } from './pool-messages.ts';

/** Anything thrown, as plain data. */
export function errorToWire(thrown: unknown): WireError {
  const own = thrown instanceof SetsideError ? thrown : null;
  return {
    code: errorCode(thrown),
    message: errorMessage(thrown),
    stack: (thrown instanceof Error ? thrown.stack : undefined) ?? '',
    retryable: own?.retryable ?? false,
    cure: own?.cure ?? null,
    details: own?.details ?? {},
  };
}

/** The same failure on this side: code, message and details as they were, the worker's stack kept as the stack. */
export function wireToError(wire: WireError): SetsideError {
  const error = new SetsideError(wire.code, wire.message, {
    retryable: wire.retryable,
    details: wire.details,
    ...(wire.cure === null ? {} : { cure: wire.cure }),
  });
  if (wire.stack !== '') error.stack = wire.stack;
  return error;
}
