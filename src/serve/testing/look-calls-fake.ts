import type { Look, LookUse, LookWithVersions } from '../../contract/index.ts';
import { type Look as LookDocument, lookHash } from '../../look/index.ts';
import type { Who } from '../core/who.ts';
import type { LookCalls, TryAnswer, TryWish } from '../look-calls.ts';

/** Looks in a plain list, with what was tried and used kept for the test to look at. */
export class LookCallsFake implements LookCalls {
  readonly list: Look[] = [];
  readonly used: { readonly id: string; readonly use: LookUse }[] = [];
  readonly tried: { readonly frame: string; readonly wish: TryWish }[] = [];
  answer: TryAnswer | null = null;
  /** A try waits for this, or for its signal. */
  gate: Promise<void> = Promise.resolve();

  async looks(all: boolean): Promise<readonly Look[]> {
    return all ? this.list : this.list.filter(({ laidAside }) => !laidAside);
  }

  async look(id: string): Promise<LookWithVersions | null> {
    const look = this.list.find((each) => each.id === id);
    return look === undefined ? null : { ...look, versions: [look] };
  }

  async saveLook(document: LookDocument, who: Who): Promise<{ look: Look; isNew: boolean }> {
    const hash = lookHash(document);
    const known = this.list.find((each) => each.hash === hash);
    if (known !== undefined) return { look: known, isNew: false };
    const look: Look = {
      ...{ id: `look${this.list.length + 1}`, name: document.title, version: 1, hash, document },
      ...{ savedAt: '2026-10-01T08:00:00.000Z', savedBy: who.name, laidAside: false },
    };
    this.list.push(look);
    return { look, isNew: true };
  }

  async layLookAside(id: string, aside: boolean): Promise<Look | null> {
    const look = this.list.find((each) => each.id === id);
    return look === undefined ? null : { ...look, laidAside: aside };
  }

  async useLook(id: string, use: LookUse): Promise<number | null> {
    this.used.push({ id, use });
    return this.list.some((each) => each.id === id) ? 1 : null;
  }

  async tryLook(frame: string, wish: TryWish, signal: AbortSignal): Promise<TryAnswer | null> {
    this.tried.push({ frame, wish });
    await Promise.race([
      this.gate,
      new Promise((_, reject) => signal.addEventListener('abort', () => reject(signal.reason))),
    ]);
    return this.answer;
  }
}
