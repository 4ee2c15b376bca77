/** A copy of `fields` without those that are undefined: an absent fact is an absent key. */
export function withoutUndefined<T extends object>(fields: { readonly [K in keyof T]: T[K] | undefined }): T {
  const present = Object.entries(fields).filter(([, value]) => value !== undefined);
  // What is left has T's keys with T's values; optional keys may be absent.
  return Object.fromEntries(present) as T;
}
