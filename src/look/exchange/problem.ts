import type { Finding } from '../../facts/index.ts';

/** What is wrong with a document from elsewhere. Thrown inside the readers, which give it back as data at their door. */
export class DocumentProblem extends Error {
  readonly finding: Finding;

  constructor(code: string, args: Finding['args'] = {}) {
    super(code);
    this.finding = { code, args };
  }
}

/** What a reader gives: the document, or why it is none. */
export type ReadDocument<T> =
  | { readonly document: T }
  | { readonly document: null; readonly findings: readonly Finding[] };

/** Runs a reader; its problem becomes a finding. */
export function attempt<T>(read: () => T): ReadDocument<T> {
  try {
    return { document: read() };
  } catch (thrown) {
    if (thrown instanceof DocumentProblem) return { document: null, findings: [thrown.finding] };
    throw thrown;
  }
}
