const key = 'setside.screen';
const letters = 'abcdefghijklmnopqrstuvwxyz0123456789';

/**
 * A name that this tab of the browser gave itself and keeps when it is loaded anew: so that what was done here is known from
 * what was done on another page of the same person. It opens nothing.
 */
export const screenId: string = kept() ?? made();

function kept(): string | null {
  try {
    return sessionStorage.getItem(key);
  } catch {
    return null;
  }
}

/** A name that nobody else makes up. */
export function newName(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => letters[byte % letters.length]).join('');
}

function made(): string {
  const id = newName();
  try {
    sessionStorage.setItem(key, id);
  } catch {
    // A browser that keeps nothing: the name lasts until the page is loaded anew.
  }
  return id;
}
