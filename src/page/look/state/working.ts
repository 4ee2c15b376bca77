import type { Look as KeptLook } from '../../../contract/index.ts';
import { defaultLook, type Look, lookHash, readLook } from '../../../look/index.ts';
import { beginHistory, historyOf, historyText, type LookHistory } from './look-history.ts';

/** What the work began from, or was last saved as. */
export interface Base {
  /** Null: the station's plain look, which nobody saved. */
  readonly id: string | null;
  readonly name: string;
  readonly version: number | null;
  readonly document: Look;
}

/** The look that is worked on. */
export interface Working {
  readonly base: Base;
  /** Steps in the past when the base was opened or saved. */
  readonly basedAt: number;
  readonly history: LookHistory;
  /** Id of the look in force that was opened last by itself; null: the plain one. */
  readonly inForce: string | null;
}

export function baseOf({ id, name, version, document }: KeptLook): Base {
  return { id, name, version, document };
}

export const plainBase: Base = { id: null, name: defaultLook.title, version: null, document: defaultLook };

export function beginWork(base: Base): Working {
  return { base, basedAt: 0, history: beginHistory(base.document), inForce: base.id };
}

/** Another look is worked on: one step, and undo goes back to the one before. */
export function opened({ history, inForce }: Working, base: Base): Working {
  const past = [...history.past, history.present];
  return {
    base,
    basedAt: past.length,
    history: { past, present: base.document, future: [], turning: null },
    inForce,
  };
}

/** The look was saved: it is the base from now on, and undo goes back beyond it all the same. */
export function savedAs({ history, inForce }: Working, base: Base): Working {
  const { past, future } = history;
  return {
    base,
    basedAt: past.length,
    history: { past, present: base.document, future, turning: null },
    inForce,
  };
}

/** Changes since the base; 0 where the look is the base again, whatever lay between. */
export function changesSince({ base, basedAt, history }: Working): number {
  const { present, past } = history;
  const isBase = lookHash(present) === lookHash(base.document);
  return isBase ? 0 : Math.max(1, Math.abs(past.length - basedAt));
}

export function workingText({ base, basedAt, history, inForce }: Working): string {
  return JSON.stringify({ base, basedAt, history: historyText(history), inForce });
}

/** Null for a text that is none. */
export function workingOf(text: string | null): Working | null {
  if (text === null) return null;
  try {
    const { base, basedAt, history, inForce } = JSON.parse(text);
    const [kept, { look }] = [historyOf(history), readLook(base.document)];
    if (kept === null || look === null || typeof base.name !== 'string') return null;
    const id = typeof base.id === 'string' ? base.id : null;
    const version = typeof base.version === 'number' ? base.version : null;
    return {
      base: { id, name: base.name, version, document: look },
      basedAt: Number(basedAt) || 0,
      history: kept,
      inForce: typeof inForce === 'string' ? inForce : null,
    };
  } catch {
    return null;
  }
}
