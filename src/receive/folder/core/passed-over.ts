/** Endings that programs give a file while they write it (common practice, no source). */
const temporaryEndings = ['.tmp', '.temp', '.part', '.partial', '.filepart', '.crdownload', '.download', '~'];
/** What systems leave on a card beside the pictures. */
const systemNames = new Set([
  'thumbs.db',
  'desktop.ini',
  'system volume information',
  '$recycle.bin',
  'lost.dir',
]);

/**
 * Whether a name is passed over: hidden, temporary, or the system's own. A temporary file is taken once it is renamed,
 * since it is another name then. Holds for folders too, with all that is in them.
 */
export function isPassedOver(name: string): boolean {
  const lower = name.toLowerCase();
  return (
    lower.startsWith('.') ||
    lower.startsWith('~') ||
    systemNames.has(lower) ||
    temporaryEndings.some((ending) => lower.endsWith(ending))
  );
}
