const place = 'setside.name';

/** The name that was given on this screen last: one person works at it, as a rule. */
export function keptName(): string {
  try {
    return localStorage.getItem(place) ?? '';
  } catch {
    return '';
  }
}

/** A browser that keeps nothing loses only the comfort. */
export function keepName(name: string): void {
  try {
    localStorage.setItem(place, name);
  } catch {
    // Storage is full or forbidden: the name is typed again.
  }
}
