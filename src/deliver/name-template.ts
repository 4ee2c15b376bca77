/** What a template of names may hold. */
export const placeholders = ['job', 'shot', 'counter', 'camera', 'date', 'name', 'number'] as const;
export type Placeholder = (typeof placeholders)[number];

/** Of a frame; null where nobody knows it. */
export type NameValues = Readonly<Record<Placeholder, string | null>>;

/** Used where neither specification nor job says one. */
export const defaultTemplate = '{job}_{shot}_{counter}';

/** What a template asks for: what there is, and what there is not. A brace alone is unknown too. */
export function placeholdersOf(template: string): {
  readonly known: readonly Placeholder[];
  readonly unknown: readonly string[];
} {
  const named = [...template.matchAll(/\{([^{}]*)\}/g)].map(([, name = '']) => name);
  const known = placeholders.filter((each) => named.includes(each));
  const unknown = named.filter((name) => !known.some((each) => each === name));
  const rest = template.replace(/\{[^{}]*\}/g, '');
  return { known, unknown: [...unknown, ...(rest.match(/[{}]/g) ?? [])] };
}

/**
 * The template filled in, and what of it nobody knew. What is unknown goes with the separators before it, so that
 * `{job}_{shot}_{counter}` without a shot is `J1_0042`. A file whose name holds no counter has its name in that place, unless the
 * template tells it anyway: numbers behind equal names would say nothing of which file is which, and have gaps of their own.
 */
export function fillTemplate(
  template: string,
  values: NameValues,
): { readonly text: string; readonly missing: readonly Placeholder[] } {
  const missing: Placeholder[] = [];
  const holds = placeholdersOf(template).known;
  const isTold = holds.includes('name') || holds.includes('number');
  const insteadOfCounter = isTold ? null : values.name;
  const filled = template.replace(/([-_. ]*)\{([^{}]*)\}/g, (whole: string, before: string, name: string) => {
    const known = placeholders.find((each) => each === name);
    if (known === undefined) return whole;
    const value = known === 'counter' ? (values.counter ?? insteadOfCounter) : values[known];
    if (value !== null && value.trim() !== '') return before + value.trim();
    missing.push(known);
    return '';
  });
  const text = missing.length === 0 ? filled : filled.replace(/^[-_. ]+/, '');
  return { text, missing };
}
