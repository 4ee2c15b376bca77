import { readFile, stat, writeFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { SetsideError } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import {
  type AnyDocument,
  type DocumentForm,
  defaultExchangeLimits,
  type Look,
  lookOfDocument,
  readDocument,
} from '../look/index.ts';
import { sentence } from '../words/index.ts';

/** A document that was read, or what is wrong with it. */
export type ReadFile =
  | { readonly document: AnyDocument }
  | { readonly document: null; readonly findings: readonly Finding[] };

/** Reads a look, a CLF document or an ASC CDL; a file beyond the bound is not even opened. Rejects as the file system does. */
export async function readDocumentFile(path: string): Promise<ReadFile> {
  const { textCharactersMax } = defaultExchangeLimits;
  if ((await stat(path)).size > textCharactersMax) {
    return { document: null, findings: [{ code: 'look.xml-too-long', args: { textCharactersMax } }] };
  }
  const read = readDocument(decoded(await readFile(path)));
  return read.kind === null ? { document: null, findings: read.findings } : { document: read };
}

/** XML may come in UTF-16 as well as in UTF-8; then it begins with a byte order mark (XML 1.0, 4.3.3). */
function decoded(bytes: Uint8Array): string {
  const [first, second] = bytes;
  const encoding =
    first === 0xff && second === 0xfe ? 'utf-16le' : first === 0xfe && second === 0xff ? 'utf-16be' : 'utf-8';
  return new TextDecoder(encoding).decode(bytes);
}

/** Whether there is such a file, or anything else of that name. */
export async function isThere(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  );
}

/** The look in a file: a look, or a correction of the ASC CDL. Errors: `bad-look`. */
export async function readLookFile(path: string): Promise<Look> {
  const { document, ...refused } = await readDocumentFile(path);
  const found =
    document === null
      ? { look: null, findings: 'findings' in refused ? refused.findings : [] }
      : lookOfDocument(document, { id: null, title: stem(path) });
  if (found.look !== null) return found.look;
  throw new SetsideError('bad-look', `${path}: ${sentences(found.findings)}`);
}

export function sentences(findings: readonly Finding[]): string {
  return findings.map((finding) => sentence(finding)).join(' ');
}

/** The file's name without what says its form; `.look.json` is ours. */
export function stem(path: string): string {
  return basename(path).replace(/(\.look)?\.(json|clf|cc|ccc|cdl)$/i, '') || basename(path);
}

/** Where the document of `path` goes in a form. */
export function pathInForm(path: string, form: DocumentForm, out: string): string {
  return join(out, stem(path) + (form === 'look' ? '.look.json' : `.${form}`));
}

/** Writes a text under a name that is free, or in place of what is there. Errors: `output-exists`. */
export async function writeText(path: string, text: string, replace: boolean): Promise<void> {
  try {
    await writeFile(path, text, { flag: replace ? 'w' : 'wx' });
  } catch (thrown) {
    const exists =
      typeof thrown === 'object' && thrown !== null && 'code' in thrown && thrown.code === 'EEXIST';
    if (!exists) throw thrown;
    throw new SetsideError('output-exists', `${path} is there already`, {
      cause: thrown,
      cure: 'Give another folder with --out, or say --replace.',
    });
  }
}
