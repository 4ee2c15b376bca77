/**
 * One thing the station has to say, as a code with its figures. The room `words` turns it into a sentence, so that
 * page, command line and voice say the same and in any language.
 */
export interface Finding {
  /** Stable, `room.kebab-case`, listed in `words`. */
  readonly code: string;
  readonly args: Readonly<Record<string, string | number>>;
}
