import type { Frame } from '../../contract/index.ts';

/** What a phone may say of a frame by touch. */
export type PocketChoice = Partial<Pick<Frame, 'mark' | 'shot'>>;

/** What a phone did last: to which frame, what held before and what it chose. */
export interface PocketAct {
  readonly frame: string;
  readonly before: PocketChoice;
  readonly chosen: PocketChoice;
}

/**
 * The choice that takes the phone's last act back; null where another frame is shown or somebody has chosen otherwise since,
 * whose choice is not the phone's to take back.
 */
export function wayBack(act: PocketAct | null, shown: Frame | null): PocketChoice | null {
  if (act === null || shown === null || act.frame !== shown.id) return null;
  const { mark = shown.mark, shot = shown.shot } = act.chosen;
  return mark === shown.mark && shot === shown.shot ? act.before : null;
}

/** The act of choosing this for a frame as it is. */
export function actOf({ id, mark, shot }: Frame, chosen: PocketChoice): PocketAct {
  return {
    frame: id,
    before: {
      ...(chosen.mark === undefined ? {} : { mark }),
      ...(chosen.shot === undefined ? {} : { shot }),
    },
    chosen,
  };
}
