import type { Job, Station, Strike } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { HandOverNews } from '../state/index.ts';

/** Where on the page a step is done. */
export type HandOverPart = 'deliveries' | 'begin' | 'copies' | 'strike' | 'card' | 'bag';

export interface NextStep {
  readonly finding: Finding;
  readonly at: HandOverPart;
  /** The delivery that it is about. */
  readonly delivery?: string;
  /** Its gaps may be left as they are. */
  readonly mayLeave?: boolean;
}

export interface StepsInput extends Omit<HandOverNews, 'papers'> {
  readonly station: Pick<Station, 'secondPlaces' | 'demo'> | null;
  /** The job that the page is about, or every one. */
  readonly jobs: readonly Pick<Job, 'code' | 'deliveries'>[];
  readonly strike: Pick<Strike, 'open'> | null;
  /** Whether there is anything that could be handed over. */
  readonly hasFrames: boolean;
}

/** What is to be done, the worst first: what may be lost, what waits, what was asked for. */
export function nextSteps(input: StepsInput): readonly NextStep[] {
  return [
    ...firstSteps(input),
    ...badSteps(input),
    ...placeSteps(input),
    ...cardSteps(input),
    ...strikeSteps(input),
    ...bagSteps(input),
    ...deliverySteps(input),
  ];
}

/** Nothing yet: what to do first. */
function firstSteps({ jobs, hasFrames, deliveries }: StepsInput): NextStep[] {
  if (deliveries === null || (jobs.length > 0 && hasFrames)) return [];
  return [
    ...(jobs.length === 0 ? [step('begin', 'hand.no-job', {})] : []),
    ...(hasFrames ? [] : [step('card', 'hand.no-frames', {})]),
    step('begin', 'hand.then-mark', {}),
  ];
}

function badSteps({ verification }: StepsInput): NextStep[] {
  const last = verification?.last ?? null;
  if (last === null) return [];
  const originals = last.badOriginals;
  return [
    ...(originals > 0 ? [step('copies', 'hand.bad-originals', { count: originals })] : []),
    ...last.places.flatMap(({ folder, bad }) =>
      bad > 0 ? [step('copies', 'hand.bad-copies', { count: bad, folder })] : [],
    ),
  ];
}

function placeSteps({ station, hasFrames }: StepsInput): NextStep[] {
  if (station === null || !hasFrames) return [];
  if (station.secondPlaces.length === 0) return [step('copies', 'hand.no-place', {})];
  return station.secondPlaces.flatMap(({ folder, otherDevice, waiting }) => {
    if (otherDevice === null) return [step('copies', 'hand.place-away', { folder })];
    return waiting > 0 ? [step('copies', 'hand.copies-wait', { folder, count: waiting })] : [];
  });
}

function cardSteps({ card }: StepsInput): NextStep[] {
  if (card?.state !== 'done' || card.mayBeWiped) return [];
  const { missing, once } = card.counts;
  const { takingIn } = card;
  if (takingIn?.state === 'running') return [];
  if (takingIn !== null) return [step('card', 'hand.card-again', {})];
  if (missing > 0) return [step('card', 'hand.card-missing', { count: missing })];
  return once > 0 ? [step('card', 'hand.card-once', {})] : [];
}

function bagSteps({ bag }: StepsInput): NextStep[] {
  if (bag?.state === 'failed') return [step('bag', 'hand.bag-failed', { folder: bag.folder })];
  return bag?.outcome?.valid === false ? [step('bag', 'hand.bag-bad', { folder: bag.folder })] : [];
}

function strikeSteps({ strike }: StepsInput): NextStep[] {
  const open = strike?.open.length ?? 0;
  return open === 0 ? [] : [step('strike', 'hand.strike-open', { count: open })];
}

function deliverySteps({ deliveries, jobs }: StepsInput): NextStep[] {
  const known = deliveries ?? [];
  const waits = known.filter(({ state }) => state === 'paused');
  // The newest of its kind is what counts: who delivered again has mended it.
  const newest = known.filter(
    (each, index) => known.findIndex(({ job, title }) => job === each.job && title === each.title) === index,
  );
  const gaps = newest.filter(
    ({ state, filesMissing, gapsLeft }) => state === 'done' && filesMissing > 0 && !gapsLeft,
  );
  const asked = jobs.flatMap(({ code, deliveries: wanted }) =>
    wanted
      .filter((title) => !known.some((each) => each.job === code && sameName(each.title, title)))
      .map((title) => step('begin', 'hand.not-delivered', { job: code, title })),
  );
  return [
    ...waits.map(({ id, title }) => ({
      ...step('deliveries', 'hand.delivery-waits', { title }),
      delivery: id,
    })),
    ...gaps.map(({ id, title, filesMissing }) => ({
      ...step('deliveries', 'hand.delivery-gaps', { title, count: filesMissing }),
      delivery: id,
      mayLeave: true,
    })),
    ...(deliveries === null ? [] : asked),
  ];
}

function sameName(one: string, other: string): boolean {
  return one.trim().toLowerCase() === other.trim().toLowerCase();
}

function step(at: HandOverPart, code: string, args: Finding['args']): NextStep {
  return { at, finding: { code, args } };
}
