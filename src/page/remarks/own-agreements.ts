const place = 'setside.own-agreements';
/** A device agrees to a few shots of a few jobs; what is older is nobody's any more. */
const keptMax = 500;

/**
 * The agreements that were given on this device. A name that somebody typed proves nothing: two guests of one link may have the
 * same, and neither takes back, or writes over, the other's word.
 */
export function ownAgreements(): ReadonlySet<string> {
  try {
    return new Set((localStorage.getItem(place) ?? '').split(' ').filter((id) => id !== ''));
  } catch {
    return new Set();
  }
}

export function keepOwnAgreement(id: string): void {
  try {
    localStorage.setItem(place, [...ownAgreements(), id].slice(-keptMax).join(' '));
  } catch {
    // A browser that keeps nothing takes nothing back after a reload; the operator can.
  }
}

/** Whether a name on an agreement to the same shot is somebody else's as far as this device knows. */
export function isNameTaken(
  name: string,
  given: readonly { readonly id: string; readonly by: { readonly name: string } }[],
  own: ReadonlySet<string>,
): boolean {
  return given.some(({ id, by }) => by.name === name.trim() && !own.has(id));
}
