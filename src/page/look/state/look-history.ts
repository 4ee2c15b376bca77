import { type Look, readLook } from '../../../look/index.ts';

/** What was turned, one after the other, without limit. */
export interface LookHistory {
  readonly past: readonly Look[];
  readonly present: Look;
  readonly future: readonly Look[];
  /** The knob that is being turned: all of a turn is one step back. */
  readonly turning: string | null;
}

export function beginHistory(present: Look): LookHistory {
  return { past: [], present, future: [], turning: null };
}

/** `turn` names what is being turned, as long as it is; null for a change that is one by itself. */
export function turned(history: LookHistory, look: Look, turn: string | null): LookHistory {
  if (look === history.present) return history;
  if (turn !== null && turn === history.turning) return { ...history, present: look, future: [] };
  return { past: [...history.past, history.present], present: look, future: [], turning: turn };
}

/** The knob was let go. */
export function letGo(history: LookHistory): LookHistory {
  return history.turning === null ? history : { ...history, turning: null };
}

export function stepBack({ past, present, future }: LookHistory): LookHistory {
  const before = past.at(-1);
  if (before === undefined) return { past, present, future, turning: null };
  return { past: past.slice(0, -1), present: before, future: [present, ...future], turning: null };
}

export function stepForth({ past, present, future }: LookHistory): LookHistory {
  const [next, ...others] = future;
  if (next === undefined) return { past, present, future, turning: null };
  return { past: [...past, present], present: next, future: others, turning: null };
}

/** As a text for the browser's store of one session. */
export function historyText({ past, present, future }: LookHistory): string {
  return JSON.stringify({ past, present, future });
}

/** Null for a text that is none, or of looks that are none any more. */
export function historyOf(text: string | null): LookHistory | null {
  if (text === null) return null;
  try {
    const { past, present, future } = JSON.parse(text);
    const [now] = looksOf([present]);
    return now === undefined
      ? null
      : { past: looksOf(past), present: now, future: looksOf(future), turning: null };
  } catch {
    return null;
  }
}

function looksOf(documents: unknown): Look[] {
  if (!Array.isArray(documents)) return [];
  return documents.flatMap((document: unknown) => {
    const { look } = readLook(document);
    return look === null ? [] : [look];
  });
}
