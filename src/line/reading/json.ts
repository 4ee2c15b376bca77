/** Pieces of JSON that a command of the system printed: nothing is trusted, and what is missing is null. */

/** A list, given as text or as a part of what was read; one document alone is a list of one. */
export function listOf(source: unknown): readonly unknown[] {
  const value = typeof source === 'string' ? parsed(source) : source;
  if (Array.isArray(value)) return value;
  return typeof value === 'object' && value !== null ? [value] : [];
}

export function fieldsOf(value: unknown): Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null ? { ...value } : {};
}

export function textOf(value: unknown, field: string): string | null {
  const held = fieldsOf(value)[field];
  return typeof held === 'string' ? held : null;
}

export function numberOf(value: unknown, field: string): number | null {
  const held = fieldsOf(value)[field];
  return typeof held === 'number' ? held : null;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
