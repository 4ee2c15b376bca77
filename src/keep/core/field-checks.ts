/** Whether a value is what a field may hold. */
export type Check = (value: unknown) => boolean;
export type Fields = Readonly<Record<string, Check>>;

/** Whether an object has exactly these fields, each with what it may hold. */
export const exactly =
  (fields: Fields): Check =>
  (value) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return false;
    return hasExactly(fields, new Map<string, unknown>(Object.entries(value)));
  };

/** Every field with what it may hold, and no other. Only {@link orLeftOut} takes a field that is not there. */
export function hasExactly(fields: Fields, given: ReadonlyMap<string, unknown>): boolean {
  return (
    [...given.keys()].every((name) => Object.hasOwn(fields, name)) &&
    Object.entries(fields).every(([name, check]) => check(given.get(name)))
  );
}

export const listOf =
  (check: Check, most: number): Check =>
  (value) =>
    Array.isArray(value) && value.length <= most && value.every((entry: unknown) => check(entry));

export const yesOrNo: Check = (value) => typeof value === 'boolean';
export const whole: Check = (value) => Number.isSafeInteger(value) && Number(value) >= 0;
export const moment: Check = (value) => typeof value === 'number' && Number.isFinite(value);
export const text =
  (charactersMax: number): Check =>
  (value) =>
    typeof value === 'string' && value.length <= charactersMax;
export const orNull =
  (check: Check): Check =>
  (value) =>
    value === null || check(value);
/** A field that may be missing; what is written has no `undefined`. */
export const orLeftOut =
  (check: Check): Check =>
  (value) =>
    value === undefined || check(value);
export const oneOf =
  (...values: readonly unknown[]): Check =>
  (value) =>
    values.includes(value);

/** Ids become part of file names. */
export const id: Check = (value) => typeof value === 'string' && /^[A-Za-z0-9_-]{1,64}$/.test(value);
export const sha256: Check = (value) => typeof value === 'string' && /^[0-9a-f]{64}$/.test(value);
export const label: Check = (value) => text(200)(value) && value !== '';
export const words: Check = text(1000);
/** 16 parts of 255 bytes and their slashes; every byte is at most one UTF-16 unit. */
export const viewPath: Check = (value) => text(4096)(value) && String(value).startsWith('/');
export const via: Check = oneOf('ftp', 'ftps', 'sftp', 'folder');
/** Below the home, and never out of it. */
export const homePath: Check = (value) =>
  text(4096)(value) &&
  String(value)
    .split('/')
    .every((part) => part !== '' && part !== '.' && part !== '..');
