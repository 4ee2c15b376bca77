import { SetsideError } from '../base/index.ts';
import { agreementStanding, type GivenAgreement, type SeenPicture, type Speaker } from '../facts/index.ts';
import type { JobChoice } from './choice.ts';
import type { Job } from './job.ts';
import { agreementsOfShotMax } from './limits.ts';

/** The agreements with one more; what the same speaker said of the shot before is replaced. */
export function withAgreement(
  agreements: readonly GivenAgreement[],
  agreement: GivenAgreement,
): readonly GivenAgreement[] {
  const before = saidBefore(agreements, agreement);
  return [...agreements.filter((each) => each.id !== agreement.id && !before.includes(each)), agreement];
}

/** What the speaker of an agreement had said of its shot before it. */
export function saidBefore(
  agreements: readonly GivenAgreement[],
  { id, shot, by }: Pick<GivenAgreement, 'id' | 'shot' | 'by'>,
): GivenAgreement[] {
  return agreements.filter((each) => each.id !== id && each.shot === shot && isSameSpeaker(each.by, by));
}

/** By the name they gave: a journal knows no devices. That two devices give one name, {@link planAgreement} asks about. */
function isSameSpeaker(a: Speaker, b: Speaker): boolean {
  return a.name === b.name && a.from === b.from && a.link === b.link;
}

/** From where somebody agrees. */
export interface AgreeingDevice {
  /** Whether an earlier agreement was given there. */
  readonly gaveIt: (agreement: string) => boolean;
  /** They say that they are who agreed by the same name on another device. */
  readonly again: boolean;
}

/**
 * Somebody gives their word on the heroes of a shot. No choice where the same word is there already: it was sent twice. In a
 * closed job too: a client's word often comes after the day. Throws `no-shot`, `nothing-to-agree` where the shot has no hero
 * to be seen, `picture-changed` where others are the heroes now than were seen, `id-taken`, `name-taken` where somebody agreed by the same
 * name on another device, whose word this would replace, `too-many-agreements`.
 */
export function planAgreement(
  job: Job,
  agreement: GivenAgreement,
  heroes: readonly SeenPicture[],
  { gaveIt, again }: AgreeingDevice,
): Extract<JobChoice, { type: 'agreed' }>[] {
  const { id, shot, by, pictures } = agreement;
  const known = job.agreements.find((each) => each.id === id);
  if (known !== undefined) {
    const isSame = known.shot === shot && isSameSpeaker(known.by, by);
    if (isSame && agreementStanding(known.pictures, pictures) === 'stands') return [];
    throw new SetsideError('id-taken', `another agreement has the id ${id}`);
  }
  if (!job.shots.some((each) => each.id === shot && !each.hidden)) {
    throw new SetsideError('no-shot', `job ${job.code} lists no shot ${shot}`);
  }
  if (heroes.length === 0) throw new SetsideError('nothing-to-agree', `shot ${shot} has no hero yet`);
  if (agreementStanding(pictures, heroes) !== 'stands') {
    throw new SetsideError('picture-changed', `the heroes of shot ${shot} are others than were seen`);
  }
  const before = saidBefore(job.agreements, agreement);
  if (!again && before.some((each) => !gaveIt(each.id))) {
    throw new SetsideError('name-taken', `${by.name} agreed to shot ${shot} on another device`);
  }
  const others = job.agreements.filter((each) => each.shot === shot && !before.includes(each));
  if (others.length >= agreementsOfShotMax) {
    throw new SetsideError(
      'too-many-agreements',
      `shot ${shot} has ${others.length} agreements, ${agreementsOfShotMax} are allowed`,
    );
  }
  return [{ type: 'agreed', job: job.code, agreement }];
}

/**
 * A word is taken back; no choice where it is not there, so that it can be said twice. `isTheirs`: whoever takes it back gave it, or
 * is the operator. Throws `not-yours`.
 */
export function planWithdrawal(job: Job, agreement: string, isTheirs: boolean): JobChoice[] {
  const known = job.agreements.find(({ id }) => id === agreement);
  if (known === undefined) return [];
  if (!isTheirs) throw new SetsideError('not-yours', `agreement ${agreement} was given on another device`);
  return [{ type: 'agreement-withdrawn', job: job.code, agreement }];
}
