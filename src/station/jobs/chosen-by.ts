import type { Chosen } from '../../keep/index.ts';
import type { Doer } from './act-book.ts';

/** Choices as they are journalled, with who made them; null where no person did. */
export function chosenBy<Kind extends Chosen>(
  who: Pick<Doer, 'name'> | null,
  choices: readonly Kind[],
): readonly (Kind & Pick<Chosen, 'who'>)[] {
  return who === null ? choices : choices.map((choice) => ({ ...choice, who: who.name }));
}
