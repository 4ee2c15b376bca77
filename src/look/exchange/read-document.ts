import type { Finding } from '../../facts/index.ts';
import { readLookText } from '../read-look.ts';
import type { Look } from '../schema.ts';
import type { ClfDocument } from './clf.ts';
import { defaultExchangeLimits, type ExchangeLimits } from './limits.ts';
import { attempt, DocumentProblem } from './problem.ts';
import { type ColorCorrection, cdlRoots, correctionsOf } from './read-cdl.ts';
import { clfOf } from './read-clf.ts';
import { parseXml } from './xml.ts';

/** What a text is, by its content: a look of ours, a CLF document, or corrections of the ASC CDL. */
export type AnyDocument =
  | { readonly kind: 'look'; readonly look: Look; readonly versionRead: number }
  | { readonly kind: 'clf'; readonly clf: ClfDocument }
  | { readonly kind: 'cdl'; readonly corrections: readonly ColorCorrection[] };

export type ReadAnyDocument = AnyDocument | { readonly kind: null; readonly findings: readonly Finding[] };

/** Reads any of the documents that the room knows. Findings: `look.*`. */
export function readDocument(text: string, limits: ExchangeLimits = defaultExchangeLimits): ReadAnyDocument {
  if (!/^\ufeff?\s*</.test(text)) {
    const read = readLookText(text);
    return read.look === null ? { kind: null, findings: read.findings } : { kind: 'look', ...read };
  }
  const read = attempt<AnyDocument>(() => {
    const root = parseXml(text, limits);
    if (root.name === 'ProcessList') return { kind: 'clf', clf: clfOf(root, limits) };
    if (cdlRoots.includes(root.name)) return { kind: 'cdl', corrections: correctionsOf(root) };
    throw new DocumentProblem('look.unknown-document', { found: root.name.slice(0, 40) });
  });
  return read.document === null ? { kind: null, findings: read.findings } : read.document;
}
