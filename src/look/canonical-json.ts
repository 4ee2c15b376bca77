/** What JSON can hold. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [name: string]: Json };

/**
 * The one text of a JSON value after RFC 8785: no blanks, names sorted by UTF-16 code units, numbers as ECMAScript writes
 * them. Errors: RangeError for numbers that JSON does not know.
 */
export function canonicalJson(value: Json): string {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new RangeError(`JSON has no ${value}`);
  if (value === null || typeof value !== 'object') return JSON.stringify(value);
  if (isList(value)) return `[${value.map(canonicalJson).join(',')}]`;
  const members = Object.entries(value)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([name, member]) => `${JSON.stringify(name)}:${canonicalJson(member)}`);
  return `{${members.join(',')}}`;
}

/** `Array.isArray` does not narrow a readonly list. */
function isList(value: Json): value is readonly Json[] {
  return Array.isArray(value);
}
