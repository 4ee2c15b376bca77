import { bytesToText } from '../../core/name-bytes.ts';
import { hasControlCharacter } from '../../core/path.ts';
import type { ControlInput } from './line-reader.ts';

/** What a client has said and nobody has begun yet, in its order. */
export class WaitingLines {
  readonly #inputs: ControlInput[] = [];

  get count(): number {
    return this.#inputs.length;
  }

  add(input: ControlInput): void {
    this.#inputs.push(input);
  }

  next(): ControlInput | undefined {
    return this.#inputs.shift();
  }

  /** Whether a line with this verb, in capitals, waits. */
  has(verb: string): boolean {
    return this.#inputs.some((input) => input.kind === 'line' && splitLine(input.bytes).verb === verb);
  }

  forget(): void {
    this.#inputs.length = 0;
  }
}

/** RFC 959 section 5.3: letters, one blank, the argument as it is. The verb comes back in capitals. */
export function splitLine(line: Uint8Array): { verb: string; argument: string | null } {
  const text = bytesToText(line);
  const blank = text.indexOf(' ');
  const verb = blank < 0 ? text : text.slice(0, blank);
  if (hasControlCharacter(verb)) return { verb: '', argument: null };
  return { verb: verb.toUpperCase(), argument: blank < 0 ? null : text.slice(blank + 1) };
}
