/** Runs what it is given one after another; a failure is the caller's and stops nobody else. */
export type InTurn = <T>(work: () => Promise<T>) => Promise<T>;

/**
 * One turn for everything that looks at jobs and frames and then chooses: people's calls and what was read in a picture must
 * not both decide on what the other is about to change.
 */
export function oneAtATime(): InTurn {
  let turn: Promise<unknown> = Promise.resolve();
  return (work) => {
    const done = turn.then(work);
    turn = done.catch(() => {});
    return done;
  };
}
