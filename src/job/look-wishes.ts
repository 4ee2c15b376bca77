import type { JobChoice } from './choice.ts';
import type { Jobs } from './job.ts';
import { type KeptLook, type Looks, lookNameKey, type NamedLook, newestOfName } from './looks.ts';

/**
 * The choices with each look that is only named turned into the newest version of that name, as of now; a name of which
 * none is kept stays a wish.
 */
export function withLooksFound(looks: Looks, choices: readonly JobChoice[]): JobChoice[] {
  return choices.map((choice) => {
    if (choice.type === 'job-hand-over-set') return found(looks, choice);
    return choice.type === 'shot-stated' ? { ...choice, shot: found(looks, choice.shot) } : choice;
  });
}

function found<Holder extends NamedLook>(looks: Looks, holder: Holder): Holder {
  if (holder.look === null || holder.lookId !== undefined) return holder;
  const newest = newestOfName(looks, holder.look);
  return newest === null ? holder : { ...holder, lookId: newest.id };
}

/** The choices by which jobs and shots that waited for a look of this name have it. Closed jobs stay as they are. */
export function planWishesMet(jobs: Jobs, { id, name }: Pick<KeptLook, 'id' | 'name'>): JobChoice[] {
  const key = lookNameKey(name);
  const waits = ({ look, lookId }: NamedLook): boolean =>
    look !== null && lookId === undefined && lookNameKey(look) === key;
  return [...jobs.values()]
    .filter(({ state }) => state !== 'closed')
    .flatMap((job): JobChoice[] => [
      ...(waits(job.handOver)
        ? [{ type: 'job-hand-over-set', job: job.code, ...job.handOver, lookId: id } as const]
        : []),
      ...job.shots
        .filter(waits)
        .map((shot): JobChoice => ({ type: 'shot-stated', job: job.code, shot: { ...shot, lookId: id } })),
    ]);
}
