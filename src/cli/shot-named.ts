import { SetsideError } from '../base/index.ts';
import { shotName } from '../words/index.ts';

interface Named {
  readonly id: string;
  readonly name: string;
}

/**
 * The id of the one shot of a job that these words mean: its name in any case, its id, or `id=` and its id, which nothing
 * else can be. Words that mean several mean none of them: whoever lets a client look in must not show the wrong one.
 * Rejects `no-shot`, `several-shots`.
 */
export function shotNamed(code: string, shots: readonly Named[], words: string): string {
  const byId = /^id=(.*)$/.exec(words)?.[1];
  const meant = shots.filter(({ id, name }) =>
    byId === undefined ? id === words || name.toLowerCase() === words.toLowerCase() : id === byId,
  );
  const [shot] = meant;
  if (shot === undefined) {
    const known = shots.map((each) => shotName(each, shots)).join(', ');
    throw new SetsideError('no-shot', `job ${code} has no shot ${words}`, {
      cure: known === '' ? 'It has none yet: take a list in with setside job import.' : `It has ${known}.`,
    });
  }
  if (meant.length === 1) return shot.id;
  const ids = meant.map(({ id }) => `id=${id} (number ${shots.findIndex((each) => each.id === id) + 1})`);
  throw new SetsideError('several-shots', `${meant.length} shots of job ${code} are meant by ${words}`, {
    cure: `Say which: ${ids.join(', ')}.`,
  });
}
