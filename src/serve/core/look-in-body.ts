import type { Finding } from '../../facts/index.ts';
import {
  defaultExchangeLimits,
  type Look,
  lookOfDocument,
  readDocument,
  readLook,
} from '../../look/index.ts';

export type LookInBody =
  | { readonly look: Look; readonly findings: readonly Finding[] }
  | { readonly look: null; readonly findings: readonly Finding[] };

/** Bytes of a document in a body: the longest look as text is 64 kB; corrections are far shorter. */
export const lookBytesMax: number = 256 * 1024;

/** No table fits in, and nothing is nested deeper than the formats have it. */
const limits = { ...defaultExchangeLimits, textCharactersMax: lookBytesMax, elementsMax: 2000 };

/**
 * The look that a body is: a document of ours as JSON, or, as text, a correction of the ASC CDL or a CLF document that
 * holds nothing else. `name` stands in place of its title.
 */
export function lookInBody(body: unknown, name: string | undefined): LookInBody {
  const read = body instanceof Uint8Array ? lookInText(textOf(body), name) : readLook(body);
  if (read.look === null) return read;
  const findings = 'findings' in read ? read.findings : [];
  return { look: name === undefined ? read.look : { ...read.look, title: name }, findings };
}

function lookInText(text: string, name: string | undefined): LookInBody {
  const document = readDocument(text, limits);
  if (document.kind === null) return { look: null, findings: document.findings };
  return lookOfDocument(document, { id: null, title: name ?? 'Correction' });
}

function textOf(bytes: Uint8Array): string {
  return new TextDecoder().decode(bytes);
}
