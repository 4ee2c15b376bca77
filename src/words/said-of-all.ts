import type { Finding } from '../facts/index.ts';
import { sentence } from './sentences.ts';

export interface SaidOfFiles {
  /** What has to be said of every one, in the same words. */
  readonly ofAll: readonly string[];
  /** What has to be said of each beside that, in the order of the files. */
  readonly ofEach: readonly (readonly string[])[];
}

/** What is the same for all is said once: seven files with one remark are one remark. One file has its own. */
export function saidOfFiles(files: readonly (readonly Finding[])[]): SaidOfFiles {
  const said = files.map((findings) => [...new Set(findings.map((each) => sentence(each)))]);
  const [first = []] = said;
  const ofAll = said.length < 2 ? [] : first.filter((each) => said.every((texts) => texts.includes(each)));
  return { ofAll, ofEach: said.map((texts) => texts.filter((each) => !ofAll.includes(each))) };
}
