const namedMax = 8;

/** Said on papers of every kind. */
export const paperLabels = {
  /** `sign` is what stands on the paper, `letters` what was to stand there, as they were met. */
  lacking: (sign: string, letters: readonly string[]): string => {
    const named = letters.slice(0, namedMax).map(codesOf).join(', ');
    const more = letters.length > namedMax ? ` and ${letters.length - namedMax} more` : '';
    return `${sign} stands for what the type of this paper does not have: ${named}${more}. The pages of the station show it.`;
  },
} as const;

/** As the Unicode Standard writes code points: U+4E2D. */
function codesOf(letter: string): string {
  return [...letter]
    .map((each) => `U+${(each.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`)
    .join(' ');
}
