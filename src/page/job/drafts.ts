import { createContext } from 'react';
import { z } from 'zod';

/** Whose fields they are: a job's code, or job and shot. */
export const DraftPlace = createContext('');

const draft = z.object({ from: z.string(), typed: z.string() });
/** What was typed into a field and is not taken yet, with the text that stood there as it was begun. */
export type Draft = Readonly<z.infer<typeof draft>>;

const prefix = 'setside.draft ';

/** What was typed here in this tab and never taken, or null. */
export function keptDraft(key: string): Draft | null {
  try {
    const kept = draft.safeParse(JSON.parse(sessionStorage.getItem(prefix + key) ?? 'null'));
    return kept.success ? kept.data : null;
  } catch {
    return null;
  }
}

/** Keeps it for this tab, over a reload too; null forgets it. */
export function keepDraft(key: string, kept: Draft | null): void {
  try {
    if (kept === null) sessionStorage.removeItem(prefix + key);
    else sessionStorage.setItem(prefix + key, JSON.stringify(kept));
  } catch {
    // Storage is full or forbidden: the text stands in its field as long as the page does.
  }
}

const sentPrefix = 'setside.sent ';

/** Whether this tab itself sent that text for the field, the last time that it sent one. */
export function wasSent(key: string, text: string): boolean {
  try {
    return sessionStorage.getItem(sentPrefix + key) === text;
  } catch {
    return false;
  }
}

/** Notes what this tab sends: when the station says it back, nobody else has changed the field. */
export function noteSent(key: string, text: string): void {
  try {
    sessionStorage.setItem(sentPrefix + key, text);
  } catch {
    // Then a text begun before the answer came is asked about, and not lost.
  }
}

/**
 * Has the browser ask before the tab goes while a text is not taken yet: a draft outlives a reload, and not its tab.
 * Returns what ends that.
 */
export function askBeforeLeaving(): () => void {
  const ask = (event: BeforeUnloadEvent): void => {
    if (hasDraft()) event.preventDefault();
  };
  addEventListener('beforeunload', ask);
  return () => removeEventListener('beforeunload', ask);
}

function hasDraft(): boolean {
  try {
    return Object.keys(sessionStorage).some((key) => key.startsWith(prefix));
  } catch {
    return false;
  }
}
