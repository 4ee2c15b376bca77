import { z } from 'zod';

const soundChoices = z.object({
  /** `off` until the operator has chosen. */
  how: z.enum(['off', 'tones', 'voice']),
  what: z.enum(['all', 'trouble']),
  /** 0 … 1, as the slider stands. */
  volume: z.number().min(0).max(1),
  /** A tone that rises while something is moved to its place. */
  nearing: z.boolean(),
});

export type SoundChoices = Readonly<z.infer<typeof soundChoices>>;

export const firstSound: SoundChoices = { how: 'off', what: 'all', volume: 0.6, nearing: true };

/** Where a browser keeps them; all its tabs share them. */
export const soundPlace = 'setside.sound';

/** The choices as this browser was left; the first ones where it keeps nothing, or something else. */
export function keptSound(): SoundChoices {
  try {
    const kept = soundChoices.safeParse(JSON.parse(localStorage.getItem(soundPlace) ?? 'null'));
    return kept.success ? kept.data : firstSound;
  } catch {
    return firstSound;
  }
}

/** Keeps them; a browser that keeps nothing loses only the comfort. */
export function keepSound(choices: SoundChoices): void {
  try {
    localStorage.setItem(soundPlace, JSON.stringify(choices));
  } catch {
    // Storage is full or forbidden: it holds for this visit all the same.
  }
}
