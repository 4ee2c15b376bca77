/** Why a figure that was typed is not the one that stands there. */
export type Held =
  | { readonly code: 'no-number'; readonly typed: string }
  /** The end of the number's range. */
  | { readonly code: 'least' | 'most'; readonly limit: string }
  /** As low as the rest of the curve allows. */
  | { readonly code: 'curve'; readonly limit: string; readonly name: string };

/** The others of three numbers that together must reach white. */
const others: Readonly<Record<string, string>> = {
  'curve.gamma': 'white or the pivot',
  'curve.whiteEv': 'gamma or the pivot',
  'curve.pivot': 'gamma or white',
};

export function heldPhrase(held: Held): string {
  switch (held.code) {
    case 'no-number':
      return `“${held.typed}” is no number. Type one such as 1.5, −0.3 or +1/3.`;
    case 'least':
      return `${held.limit} is the least.`;
    case 'most':
      return `${held.limit} is the most.`;
    case 'curve':
      return `Held at ${held.limit}: lower, the curve would end short of white. Raise ${others[held.name] ?? 'the others'} first.`;
  }
}
