import { readLook } from '../../../look/index.ts';
import type { Base } from './base.ts';
import type { Step } from './look-history.ts';
import type { Working } from './working.ts';

/** As a text for the browser's store of one session. Each base is written once, steps name it by its place. */
export function workingText({ history, inForce }: Working): string {
  const { past, present, future } = history;
  const bases = [...new Set([...past, present, ...future].map(({ base }) => base))];
  const places = new Map(bases.map((base, place) => [base, place]));
  const written = ({ look, base, since }: Step): unknown => [look, places.get(base), since];
  return JSON.stringify({
    bases,
    past: past.map(written),
    present: written(present),
    future: future.map(written),
    inForce,
  });
}

/** Null for a text that is none, or of looks that are none any more. */
export function workingOf(text: string | null): Working | null {
  if (text === null) return null;
  try {
    const { bases, past, present, future, inForce } = JSON.parse(text);
    const known = listOf(bases).map(baseRead);
    const steps = (list: unknown): Step[] => listOf(list).flatMap((each) => stepRead(each, known) ?? []);
    const [now] = steps([present]);
    if (now === undefined) return null;
    return {
      history: { past: steps(past), present: now, future: steps(future), turning: null },
      inForce: typeof inForce === 'string' ? inForce : null,
    };
  } catch {
    return null;
  }
}

function listOf(value: unknown): readonly unknown[] {
  return Array.isArray(value) ? value : [];
}

function stepRead(value: unknown, bases: readonly (Base | null)[]): Step | null {
  const [document, place, since] = listOf(value);
  const { look } = readLook(document);
  const base = typeof place === 'number' ? (bases[place] ?? null) : null;
  return look === null || base === null ? null : { look, base, since: typeof since === 'number' ? since : 0 };
}

function baseRead(value: unknown): Base | null {
  if (typeof value !== 'object' || value === null) return null;
  const [id, name, version] = ['id', 'name', 'version'].map((member) => Reflect.get(value, member));
  const { look } = readLook(Reflect.get(value, 'document'));
  if (look === null || typeof name !== 'string') return null;
  return {
    id: typeof id === 'string' ? id : null,
    name,
    version: typeof version === 'number' ? version : null,
    document: look,
  };
}
