import type { Finding } from '../../facts/index.ts';

/** What a trouble is about, the gravest first: whether the place is there, then what was tried in it. */
const abouts = ['silence', 'place', 'look', 'copy', 'journal'] as const;
export type TroubleAbout = (typeof abouts)[number];

/**
 * What is wrong with a second place. Each trouble stands until the same thing succeeds: that the place is there again does
 * not mean that it takes copies. Each is said once while it stands, whatever words the system has for it, and once when it
 * is over.
 */
export class PlaceTroubles {
  readonly #found = new Map<TroubleAbout, Finding>();
  readonly #folder: string;
  readonly #say: (finding: Finding) => void;

  constructor(folder: string, say: (finding: Finding) => void) {
    this.#folder = folder;
    this.#say = say;
  }

  /** The gravest; null where there is none. */
  worst(): Finding | null {
    for (const about of abouts) {
      const finding = this.#found.get(about);
      if (finding !== undefined) return finding;
    }
    return null;
  }

  has(about: TroubleAbout): boolean {
    return this.#found.has(about);
  }

  found(about: TroubleAbout, finding: Finding): void {
    const isKnown = this.#isSaid(finding.code);
    this.#found.set(about, finding);
    if (!isKnown) this.#say(finding);
  }

  /** `idle`: there is nothing left to try, which proves nothing about the place. */
  over(about: TroubleAbout, how: 'tried' | 'idle' = 'tried'): void {
    const finding = this.#found.get(about);
    this.#found.delete(about);
    if (finding === undefined || this.#isSaid(finding.code)) return;
    const what = how === 'idle' ? how : finding.code === 'copy.full' ? 'full' : about;
    this.#say({ code: 'copy.over', args: { folder: this.#folder, what } });
  }

  #isSaid(code: string): boolean {
    return [...this.#found.values()].some((finding) => finding.code === code);
  }
}
