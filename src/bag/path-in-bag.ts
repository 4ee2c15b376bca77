/** Why a path in a manifest is refused: it could name something that is not in the bag (RFC 8493, section 5). */
export type PathFault = 'absolute' | 'home' | 'climbs' | 'drive' | 'variable' | 'empty' | 'control';

export interface PathInBag {
  /** Below the bag, with `/`, without `.` and empty parts. */
  readonly path: string;
  /** Whether something like `./` had to be taken out. */
  readonly tidied: boolean;
}

/**
 * The path below the bag that a decoded text names, or why it names none. Words of Windows are refused on every system:
 * a bag that is harmless here may be opened there.
 */
export function pathInBag(text: string): PathInBag | PathFault {
  if (text === '') return 'empty';
  if (text.includes('\0')) return 'control';
  if (/^[/\\]/.test(text)) return 'absolute';
  if (text.startsWith('~')) return 'home';
  if (/^[A-Za-z]:/.test(text)) return 'drive';
  if (/^%[^%/\\]+%[/\\]/.test(text) || /^\$/.test(text)) return 'variable';
  if (text.split(/[/\\]/).includes('..')) return 'climbs';
  const parts = text.split('/').filter((part) => part !== '' && part !== '.');
  const path = parts.join('/');
  return path === '' ? 'empty' : { path, tidied: path !== text };
}

/** A path as a manifest writes it: CR, LF and % percent-encoded, nothing else (RFC 8493, section 2.1.3). */
export function encodedPath(path: string): string {
  return path.replace(/%/g, '%25').replace(/\r/g, '%0D').replace(/\n/g, '%0A');
}

/** What a manifest's path means: only CR, LF and % are ever encoded. */
export function decodedPath(text: string): string {
  return text.replace(/%(0[dD]|0[aA]|25)/g, (_, digits: string) =>
    String.fromCharCode(Number.parseInt(digits, 16)),
  );
}
