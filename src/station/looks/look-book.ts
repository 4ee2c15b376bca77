import type { KeptLook, LookChoice, Looks } from '../../job/index.ts';
import type { Keep } from '../../keep/index.ts';
import { readLook } from '../../look/index.ts';
import type { LookRow, Register } from '../../register/index.ts';

/** What happened to a saved version. */
export interface LookNews {
  readonly change: 'saved' | 'laid-aside' | 'put-back';
  readonly look: KeptLook;
}

/** The looks that are kept, in step with the journal. A document that no longer can be read is not offered. */
export class LookBook {
  #looks: Map<string, KeptLook>;
  #hear: (news: LookNews) => void = () => {};

  private constructor(looks: readonly KeptLook[]) {
    this.#looks = new Map(looks.map((look) => [look.id, look]));
  }

  /** Once the register has caught up with the journal. */
  static async load(keep: Pick<Keep, 'onRecord'>, register: Pick<Register, 'looks'>): Promise<LookBook> {
    const book = new LookBook((await register.looks()).flatMap(keptLook));
    keep.onRecord((record) => {
      if (record.type === 'look-saved' || record.type === 'look-aside-set') book.#follow(record, record.atMs);
    });
    return book;
  }

  /** As the rules take them. */
  looks(): Looks {
    return this.#looks;
  }

  /** A version that does what this hash names, the newest of them; null where none is kept. */
  byHash(hash: string): KeptLook | null {
    return [...this.#looks.values()].findLast((look) => look.hash === hash) ?? null;
  }

  /** Hears of each look that is saved, laid aside or put back, once that is durable. */
  onNews(listener: (news: LookNews) => void): void {
    this.#hear = listener;
  }

  #follow(choice: LookChoice, atMs: number): void {
    const before = this.#looks.get(choice.look);
    const after = before === undefined ? savedNow(choice, atMs) : { ...before, laidAside: isAside(choice) };
    if (after === null) return;
    this.#looks = new Map(this.#looks).set(after.id, after);
    const change = before === undefined ? 'saved' : after.laidAside ? 'laid-aside' : 'put-back';
    this.#hear({ change, look: after });
  }
}

function isAside(choice: LookChoice): boolean {
  return choice.type === 'look-aside-set' && choice.aside;
}

function savedNow(choice: LookChoice, savedMs: number): KeptLook | null {
  if (choice.type !== 'look-saved') return null;
  const { look: id, name, version, hash, document, by: savedBy } = choice;
  return keptLook({ id, name, version, hash, document, savedBy, savedMs, laidAside: false })[0] ?? null;
}

function keptLook(row: LookRow): KeptLook[] {
  const read = readLook(row.document);
  return read.look === null ? [] : [{ ...row, document: read.look }];
}
