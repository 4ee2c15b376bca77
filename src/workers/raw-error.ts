import { SetsideError } from '../base/index.ts';
import { type DevelopErrorCode, developErrors } from '../develop/index.ts';

/** A failure of a decoder, in the words of the room that declares it. */
export function rawError(code: DevelopErrorCode, details: Record<string, string | number>): SetsideError {
  return new SetsideError(code, developErrors[code], { details });
}
