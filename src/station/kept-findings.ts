import type { Finding } from '../facts/index.ts';
import type { Keep } from '../keep/index.ts';
import type { BadOriginals } from './bad-originals.ts';

/** What is wrong with what is kept, for the page: the gravest first, each code once, damages of the journal as one. */
export function keptFindings(
  badOriginals: Pick<BadOriginals, 'finding'>,
  keep: Pick<Keep, 'keptFile' | 'troubles'>,
): { code: string; args: Record<string, string | number> }[] {
  const originals = badOriginals.finding((arrival) => keep.keptFile(arrival)?.original ?? null);
  const byCode = new Map<string, Finding>();
  for (const { code, args } of [...(originals === null ? [] : [originals]), ...keep.troubles]) {
    const before = byCode.get(code)?.args ?? args;
    const count = (byCode.has(code) ? Number(before.count) : 0) + Number(args.count);
    byCode.set(code, { code, args: { ...before, count } });
  }
  return [...byCode.values()].map(({ code, args }) => ({ code, args: { ...args } }));
}
