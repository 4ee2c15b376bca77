import type { EpochMs } from '../base/index.ts';
import type { Mark } from './mark.ts';
import type { Purpose } from './purpose.ts';
import type { Speaker } from './remark.ts';

/** A picture as somebody saw it: the same frame under another look, or balanced otherwise, is another picture. */
export interface SeenPicture {
  readonly frame: string;
  /** Hash of the look; empty where none was applied. */
  readonly look: string;
  /** Hash of the balance and the matrix that a target gave; null: balanced as shot. */
  readonly profile: string | null;
}

/** Somebody's word that the heroes of a shot are what was wanted. */
export interface GivenAgreement {
  /** Made where it was said, so that it counts once. */
  readonly id: string;
  readonly shot: string;
  /** The heroes of the shot as they were seen then; one at least. */
  readonly pictures: readonly SeenPicture[];
  readonly by: Speaker;
  readonly atMs: EpochMs;
}

/** `older-hero`: another frame is the hero since; `older-look`: the same frames look otherwise since. */
export const agreementStandings = ['stands', 'older-hero', 'older-look'] as const;
export type AgreementStanding = (typeof agreementStandings)[number];

/** Whether an agreement was given to the heroes that the shot has now. */
export function agreementStanding(
  agreed: readonly SeenPicture[],
  heroes: readonly SeenPicture[],
): AgreementStanding {
  const frames = (pictures: readonly SeenPicture[]): string =>
    JSON.stringify(pictures.map(({ frame }) => frame).sort());
  if (frames(agreed) !== frames(heroes)) return 'older-hero';
  const isSame = heroes.every(({ frame, look, profile }) =>
    agreed.some((each) => each.frame === frame && each.look === look && each.profile === profile),
  );
  return isSame ? 'stands' : 'older-look';
}

/** What of a frame decides whether it is seen by guests, and as which picture. */
interface ShownFrame {
  readonly id: string;
  readonly mark: Mark;
  readonly purpose: Purpose;
  readonly share: FrameShare | null;
  readonly picture:
    | { readonly state: 'none' | 'first-view' | 'cannot' }
    | {
        readonly state: 'rendered';
        readonly look: string;
        readonly target: { readonly profile: string } | null;
      };
}

/** What a hand said about a frame and guests; null where nobody did, so that its mark decides. */
export const frameShares = ['shown', 'kept-back'] as const;
export type FrameShare = (typeof frameShares)[number];

/**
 * Whether guests see a frame of what is shared with them: a picture that is developed, chosen by its mark or by hand, and
 * not put aside. What is still coming or cannot be shown would stand there for ever as something on its way.
 */
export function isForGuests({ mark, purpose, share, picture }: Omit<ShownFrame, 'id'>): boolean {
  if (purpose !== 'picture' || picture.state !== 'rendered' || mark === 'out') return false;
  return share === null ? mark !== 'none' : share === 'shown';
}

/**
 * Whether the screen that faces the client may show a frame. The photographer stands beside it, so it needs no mark, and a first
 * view will do; a test, a target and what is put aside are nobody's business but the set's.
 */
export function isForTheClient({ mark, purpose, picture }: Omit<ShownFrame, 'id' | 'share'>): boolean {
  const shows = picture.state === 'rendered' || picture.state === 'first-view';
  return purpose === 'picture' && mark !== 'out' && shows;
}

/** The picture that a frame shows now; null while it is not developed. */
export function seenPicture({ id, picture }: Pick<ShownFrame, 'id' | 'picture'>): SeenPicture | null {
  if (picture.state !== 'rendered') return null;
  return { frame: id, look: picture.look, profile: picture.target?.profile ?? null };
}

/** The heroes of a shot as guests see them now, in the order given. */
export function heroesSeen(
  frames: readonly (ShownFrame & { readonly shot: string | null })[],
  shot: string,
): SeenPicture[] {
  return frames
    .filter((frame) => frame.shot === shot && frame.mark === 'hero' && isForGuests(frame))
    .flatMap((frame) => seenPicture(frame) ?? []);
}
