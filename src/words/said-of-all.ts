import type { Finding } from '../facts/index.ts';
import { sentence } from './sentences.ts';

export interface SaidOfFiles {
  /** What has to be said of every one, in the same words. */
  readonly ofAll: readonly string[];
  /** What has to be said of several, in the same words, with which: places in the list of files. */
  readonly ofSome: readonly { readonly text: string; readonly files: readonly number[] }[];
  /** What has to be said of each beside that, in the order of the files. */
  readonly ofEach: readonly (readonly string[])[];
}

/** What is the same for all, or for several, is said once: seven files with one remark are one remark. One file has its own. */
export function saidOfFiles(files: readonly (readonly Finding[])[]): SaidOfFiles {
  const said = files.map((findings) => [...new Set(findings.map((each) => sentence(each)))]);
  const of = new Map<string, number[]>();
  for (const [index, texts] of said.entries())
    for (const text of texts) of.set(text, [...(of.get(text) ?? []), index]);
  const several = [...of].filter(([, ofFiles]) => ofFiles.length > 1);
  const ofAll = several.filter(([, ofFiles]) => ofFiles.length === said.length).map(([text]) => text);
  const ofSome = several
    .filter(([, ofFiles]) => ofFiles.length < said.length)
    .map(([text, ofFiles]) => ({ text, files: ofFiles }));
  return {
    ofAll,
    ofSome,
    ofEach: said.map((texts) => texts.filter((text) => of.get(text)?.length === 1)),
  };
}

/** Files that are named with what is said of several; the rest is counted. */
const namedMax = 4;

/** Of which of the files something is said: their names, or how many there are beside the first ones. */
export function namesOfSome(names: readonly string[]): string {
  const named = names.length <= namedMax ? names : names.slice(0, namedMax - 1);
  const more = names.length - named.length;
  return more === 0 ? named.join(', ') : `${named.join(', ')} and ${more} more`;
}
