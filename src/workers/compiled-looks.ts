import { type CompiledLook, compileLook, type Look, type LookProfile, lookHash } from '../look/index.ts';

/**
 * Compiled looks that a thread holds: those of the shots of an hour and two versions that are compared. One with a lattice of
 * 65 nodes has 3 MB.
 */
export const compiledLooksMax = 6;

/** By look and light, the one used last at the end. */
const compiled = new Map<string, CompiledLook>();

/**
 * The tables of a look for a picture's light. Frames of a shot come one after the other with one look, and a table takes up
 * to half a second, so the last {@link compiledLooksMax} are held on to.
 */
export function compiledFor(look: Look, profile: LookProfile): CompiledLook {
  const { asShotWhite, targetNeutral } = profile;
  const key = `${lookHash(look)} ${asShotWhite?.join(' ') ?? ''} ${targetNeutral?.join(' ') ?? ''}`;
  const made = compiled.get(key) ?? compileLook(look, profile, 'as-needed');
  compiled.delete(key);
  compiled.set(key, made);
  for (const oldest of compiled.keys()) {
    if (compiled.size <= compiledLooksMax) break;
    compiled.delete(oldest);
  }
  return made;
}
