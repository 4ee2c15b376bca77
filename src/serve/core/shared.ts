import type { Frame, FrameVerdict } from '../../contract/index.ts';
import type { Share, Who } from './who.ts';

/**
 * Whether a guest is shown a frame: a picture of what is shared that can be seen now and that nobody has put aside. What
 * is still coming, cut off or no picture at all would stand there for ever as something on its way.
 */
export function isShared(share: Share | null | undefined, frame: Frame): boolean {
  if (share === null || share === undefined) return false;
  return (
    frame.job === share.job &&
    (share.shots.length === 0 || (frame.shot !== null && share.shots.includes(frame.shot))) &&
    frame.purpose === 'picture' &&
    frame.picture.state === 'rendered' &&
    frame.mark !== 'out'
  );
}

/** The frame as who asks may see it; null where it is none of theirs. */
export function frameFor({ scope, share }: Who, frame: Frame): Frame | null {
  if (scope !== 'guest') return frame;
  return isShared(share, frame) ? frameForGuest(frame) : null;
}

/**
 * A client sees pictures, not how they are taken, judged, measured, kept or disputed. Each field is said here, so that a
 * new one is kept back until somebody has decided.
 */
function frameForGuest(frame: Frame): Frame {
  const { id, job, shot, name, kind, times, picture, mark, purpose, version } = frame;
  return {
    ...{ id, job, shot, name, kind, picture, mark, purpose, version },
    // Their order of the day; all else of the times is how the station works.
    times: { ...noTimes, shutter: times.shutter, began: times.began, firstByte: times.firstByte },
    ...{ camera: '', counter: null, capture: noCapture, readings: {} },
    files: [
      {
        ...{ name, size: 0, expectedSize: null, sha256: null, state: 'whole' },
        ...{ copies: 0, places: [], bytesPerSecond: null },
      },
    ],
    verdicts: {
      arrived: notTold,
      sharp: notTold,
      exposed: notTold,
      inPlace: notTold,
      colour: notTold,
    },
    heldAgainst: { reference: null, layout: false, target: null },
    look: { own: null, id: null, name: '', version: null, hash: '', from: 'station', wish: null },
    ...{ slate: null, suggestedMark: null, spot: null, acceptances: [], mutes: [], remarks: [] },
  };
}

const noTimes: Frame['times'] = {
  shutter: null,
  began: null,
  firstByte: null,
  firstView: null,
  lastByte: null,
  kept: null,
  rendered: null,
  judged: null,
};

const noCapture: Frame['capture'] = {
  cameraMake: null,
  cameraModel: null,
  lensModel: null,
  exposureTimeS: null,
  fNumber: null,
  sensitivity: null,
  focalLengthMm: null,
};

const notTold: FrameVerdict = {
  judgement: 'unknown',
  findings: [{ code: 'page.not-told', args: {} }],
  figure: null,
};
