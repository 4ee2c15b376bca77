import type { Frame } from '../../contract/index.ts';
import type { FrameMeasures } from './rail-measures.ts';

type Room = Pick<FrameMeasures, 'counterDigits' | 'nameLetters'>;

/**
 * What a frame is called where there is little room: its counter, or of a name without one as much as fits, from both ends,
 * since the end tells frames apart. What was left out is marked where there is room for the mark.
 */
export function shortName({ counter, name }: Pick<Frame, 'counter' | 'name'>, room: Room): string {
  const { counterDigits: digits, nameLetters: letters } = room;
  const stem = withoutExtension(name);
  if (digits !== null && counter !== null) return String(counter).padStart(4, '0').slice(-digits);
  if (stem.length <= letters) return stem;
  if (letters >= bothEndsFrom)
    return `${stem.slice(0, headLetters)}…${stem.slice(headLetters + 1 - letters)}`;
  const [number] = /\d+(?=\D*$)/.exec(stem) ?? [];
  if (number !== undefined && digits !== null) return number.slice(-digits);
  return letters > 1 ? `…${stem.slice(1 - letters)}` : stem.slice(-1);
}

/** Fewer letters than that are not divided between both ends. */
const bothEndsFrom = 6;
const headLetters = 2;

/** The name without its extension, which is the same all day long. */
function withoutExtension(name: string): string {
  const dot = name.lastIndexOf('.');
  return dot > 0 ? name.slice(0, dot) : name;
}
