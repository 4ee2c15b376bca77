import type { Agreement, Frame, FrameVerdict } from '../../contract/index.ts';
import { isForGuests } from '../../facts/index.ts';
import type { Share, Who } from './who.ts';

/** Whether a guest is shown a frame: of the shots that are shared with them, one that is for guests. */
export function isShared(share: Share | null | undefined, frame: Frame): boolean {
  if (share === null || share === undefined) return false;
  return frame.job === share.job && isSharedShot(share, frame.shot) && isForGuests(frame);
}

/** Whether a guest is shown what belongs to a shot, or to none (null). */
export function isSharedShot(share: Share, shot: string | null): boolean {
  return share.shots.length === 0 || (shot !== null && share.shots.includes(shot));
}

/** Of a job's agreements those to shots that who asks is shown; null where the job is none of theirs. */
export function agreementsFor(
  { scope, share }: Who,
  job: string,
  agreements: readonly Agreement[],
): Agreement[] | null {
  if (scope !== 'guest') return [...agreements];
  if (share === null || share === undefined || share.job !== job) return null;
  return agreements.filter(({ shot }) => isSharedShot(share, shot));
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
    ...{
      slate: null,
      suggestedMark: null,
      shotless: null,
      sidecar: null,
      spot: null,
      acceptances: [],
      mutes: [],
      share: null,
    },
    // Each with its answers; what the studio says among itself is not for guests.
    remarks: frame.remarks.filter(({ inside }) => !inside),
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
