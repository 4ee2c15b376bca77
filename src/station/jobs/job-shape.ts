import { epochMsToRfc3339 } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import type { CountedTarget, JobColour, ShotScale, Tolerances } from '../../facts/index.ts';
import {
  type Act,
  type Job,
  type JobChange,
  listedShots,
  type NamedLook,
  type Shot,
  type ShotChange,
  scaleInForce,
} from '../../job/index.ts';
import { agreementShape } from '../remarks/remark-shape.ts';

/** The contract's job; of hidden shots no more is told than what brings them back. */
export function jobShape(job: Job): contract.Job {
  const { code, title, client, place, notes, state, version } = job;
  const listed = listedShots(job);
  return {
    code,
    title,
    client,
    from: job.fromDate,
    to: job.toDate,
    place,
    notes,
    state,
    tolerances: tolerancesShape(job.tolerances),
    greyCard: job.greyCard,
    naming: job.handOver.naming,
    look: job.handOver.look,
    lookId: job.handOver.lookId ?? null,
    deliveries: [...job.handOver.deliveries],
    metadata: job.handOver.metadata ?? '',
    targetEdition: job.colour.edition,
    toleranceSet: job.colour.toleranceSet,
    targets: job.targets.map(targetShape),
    agreements: job.agreements.filter(({ shot }) => listed.some(({ id }) => id === shot)).map(agreementShape),
    currentShot: listed.some(({ id }) => id === job.currentShot) ? job.currentShot : null,
    shots: listed.map((shot) => ({ ...shotShape(shot), scale: scaleShape(scaleInForce(job, shot.id)) })),
    takenAway: job.shots.filter(({ hidden }) => hidden).map(({ id, name }) => ({ id, name })),
    version,
  };
}

/** What the page shows of the open job beside its frames. */
export function jobSummaryShape(job: Job): contract.JobSummary {
  const { code, title, client, currentShot, shots } = jobShape(job);
  return { code, title, client, shots: shots.map(({ id, name }) => ({ id, name })), currentShot };
}

function targetShape({ frame, camera, fromMs, profile }: CountedTarget): contract.Job['targets'][number] {
  return {
    frame,
    camera,
    from: epochMsToRfc3339(fromMs),
    profile:
      profile === null
        ? null
        : {
            patches: profile.patches,
            fitDeltaE00: profile.fit.mean,
            leaveOneOutDeltaE00: profile.leaveOneOut.mean,
            leaveOneOutMaxDeltaE00: profile.leaveOneOut.max,
          },
  };
}

function shotShape({
  hidden: _hidden,
  lookId,
  baselines,
  requires,
  mutes,
  tolerances,
  order,
  ...shot
}: Shot): Omit<contract.Shot, 'scale'> {
  return {
    ...shot,
    lookId: lookId ?? null,
    order: [...(order ?? [])],
    requires: [...requires],
    mutes: [...mutes],
    tolerances: tolerancesShape(tolerances),
    baselines: baselines.map(({ frame, fromMs }) => ({ frame, from: epochMsToRfc3339(fromMs) })),
  };
}

function scaleShape(scale: ShotScale | null): contract.Shot['scale'] {
  if (scale === null) return null;
  const { frame, camera, by, mm, px } = scale;
  return { frame, camera, toldBy: by, mm, px, mmPerPx: mm / px };
}

function tolerancesShape(tolerances: Tolerances): contract.Job['tolerances'] {
  return structuredClone(tolerances);
}

/** The rules' words for the contract's; what is left out stays out. */
export function jobWordsOf({
  from,
  to,
  ...words
}: { from?: string | null | undefined; to?: string | null | undefined } & TextWords) {
  return defined({ ...words, fromDate: from, toDate: to });
}

interface TextWords {
  readonly title?: string | undefined;
  readonly client?: string | undefined;
  readonly place?: string | undefined;
  readonly notes?: string | undefined;
}

/** Nothing where nothing of it is changed. */
export function handOverOf(
  patch: Pick<contract.JobPatch, 'naming' | 'deliveries' | 'metadata'>,
  look: Partial<NamedLook>,
): Pick<JobChange, 'handOver'> {
  const handOver = { ...defined(patch), ...look };
  return Object.keys(handOver).length === 0 ? {} : { handOver };
}

/** Nothing where nothing of it is changed. */
export function colourOf({
  targetEdition: edition,
  toleranceSet,
}: Pick<contract.JobPatch, 'targetEdition' | 'toleranceSet'>): Pick<JobChange, 'colour'> {
  const colour: Partial<JobColour> = defined({ edition, toleranceSet });
  return Object.keys(colour).length === 0 ? {} : { colour };
}

/** Which version of a look is meant, `namedLookOf` says. */
export function shotChangeOf(patch: Omit<contract.ShotPatch, 'lookId'>): ShotChange {
  const { tolerances, ...rest } = patch;
  return { ...defined(rest), ...(tolerances === undefined ? {} : { tolerances: tolerancesOf(tolerances) }) };
}

/** The compiler tells a field that is undefined from one that is not there. */
export function tolerancesOf(given: contract.Job['tolerances']): Tolerances {
  return defined(given);
}

type Defined<T> = { [Name in keyof T]?: Exclude<T[Name], undefined> };

function defined<T extends object>(given: T): Defined<T> {
  const fields = Object.entries(given).filter(([, value]) => value !== undefined);
  // The same fields but for those that are undefined.
  return Object.fromEntries(fields) as Defined<T>;
}

export function actShape({ id, atMs, by, screen, what }: Act): contract.ActEntry {
  return { id, at: epochMsToRfc3339(atMs), by, screen, what: { code: what.code, args: { ...what.args } } };
}
