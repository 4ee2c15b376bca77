import type { Frame, FrameVerdict } from '../../contract/index.ts';
import type { Share, Who } from './who.ts';

/** Whether a guest is shown a frame: a picture of what is shared that nobody has put aside. */
export function isShared(share: Share | null | undefined, frame: Frame): boolean {
  if (share === null || share === undefined) return false;
  return (
    frame.job === share.job &&
    (share.shots.length === 0 || (frame.shot !== null && share.shots.includes(frame.shot))) &&
    frame.purpose === 'picture' &&
    frame.mark !== 'out'
  );
}

/** The frame as who asks may see it; null where it is none of theirs. */
export function frameFor({ scope, share }: Who, frame: Frame): Frame | null {
  if (scope !== 'guest') return frame;
  return isShared(share, frame) ? frameForGuest(frame) : null;
}

/** A client sees pictures, not how they are judged, measured, kept or disputed. */
function frameForGuest(frame: Frame): Frame {
  return {
    ...frame,
    files: frame.files.map((file) => ({
      ...file,
      sha256: null,
      copies: 0,
      places: [],
      bytesPerSecond: null,
    })),
    readings: {},
    verdicts: {
      arrived: notTold,
      sharp: notTold,
      exposed: notTold,
      inPlace: notTold,
      colour: notTold,
    },
    acceptances: [],
  };
}

const notTold: FrameVerdict = {
  judgement: 'unknown',
  findings: [{ code: 'page.not-told', args: {} }],
  figure: null,
};
