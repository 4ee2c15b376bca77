import { canonicalJson } from './canonical-json.ts';
import type { Look } from './schema.ts';
import { sha256Hex } from './sha256.ts';

/**
 * The name of what a look does: SHA-256 over its canonical JSON (RFC 8785), title and description left out, since they
 * change no pixel. 64 hexadecimal digits; part of a rendering's name.
 */
export function lookHash({ title: _title, description: _description, ...recipe }: Look): string {
  return sha256Hex(canonicalJson(recipe));
}
