import { type Dispatch, memo, type ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import {
  durationPhrase,
  kindName,
  markNames,
  pageLabels,
  sentence,
  sizePhrase,
  standingNames,
} from '../../words/index.ts';
import { arrivalProgress, filesName, isArriving, momentOf, type PageAction } from '../state/index.ts';
import { clockTime } from './clock.ts';
import { goesToFlag } from './rail-flag.tsx';
import { isInTrouble, type RailSpot } from './rail-items.ts';
import type { FrameMeasures } from './rail-measures.ts';
import { shortName } from './short-name.ts';
import { SmallPicture } from './small-picture.tsx';
import { VerdictShape } from './verdict-shape.tsx';
import { worstJudgement } from './worst-judgement.ts';

interface RailFrameProps {
  readonly frame: Frame;
  readonly spot: RailSpot;
  readonly measures: FrameMeasures;
  readonly shown: boolean;
  /** Whether its camera is named on it, where its lane does not say it. */
  readonly cameraSaid: boolean;
  readonly dispatch: Dispatch<PageAction>;
  /** Called with the frame's element while it is pointed at or has the focus, then with null. */
  readonly point: (id: string, element: HTMLElement | null) => void;
}

/** One frame on the rail. Only the shown one is in the tab order; the arrow keys go from frame to frame. */
export const RailFrame = memo(
  function RailFrame({
    frame,
    spot,
    measures,
    shown,
    cameraSaid,
    dispatch,
    point,
  }: RailFrameProps): ReactNode {
    const arriving = isArriving(frame);
    const trouble = isInTrouble(frame);
    return (
      <button
        type="button"
        className="rail-frame"
        style={{ ...spot }}
        data-mark={frame.mark}
        data-frame-id={frame.id}
        data-small={measures.counterDigits !== null}
        data-burst={!measures.speed && measures.troubleCssPx === 0}
        tabIndex={shown ? 0 : -1}
        aria-current={shown}
        aria-label={spokenName(frame)}
        onClick={() => dispatch({ type: 'choose', id: frame.id })}
        onPointerEnter={(event) => {
          // A finger that taps covers what it points at, and chooses it anyway.
          if (event.pointerType !== 'touch') point(frame.id, event.currentTarget);
        }}
        onPointerLeave={(event) => {
          if (!goesToFlag(event.relatedTarget)) point(frame.id, null);
        }}
        onFocus={(event) => {
          if (event.currentTarget.matches(':focus-visible')) point(frame.id, event.currentTarget);
        }}
        onBlur={() => point(frame.id, null)}
      >
        <span className="rail-picture" style={{ height: measures.pictureCssPx }}>
          {hasPicture(frame) ? <SmallPicture frame={frame} /> : <Hollow frame={frame} />}
          {cameraSaid ? <span className="rail-camera">{frame.camera}</span> : null}
          {frame.mark === 'none' ? null : <span className="rail-mark">{markNames[frame.mark]}</span>}
        </span>
        {arriving ? (
          <Progress frame={frame} speed={measures.speed} />
        ) : (
          <Name frame={frame} measures={measures} />
        )}
        {trouble && measures.troubleCssPx > 0 ? <TroubleSentence frame={frame} /> : null}
      </button>
    );
  },
  // The spot is made anew with every layout; what counts is what it says.
  (before, after) =>
    before.frame === after.frame &&
    before.shown === after.shown &&
    before.cameraSaid === after.cameraSaid &&
    before.measures === after.measures &&
    before.spot.top === after.spot.top &&
    before.spot.left === after.spot.left &&
    before.spot.width === after.spot.width &&
    before.spot.height === after.spot.height,
);

function Name({ frame, measures }: { readonly frame: Frame; readonly measures: FrameMeasures }): ReactNode {
  const judgement = worstJudgement(frame);
  return (
    <span className="rail-name">
      <VerdictShape judgement={judgement} />
      <span>{shortName(frame, measures)}</span>
    </span>
  );
}

/** Bytes filling up, the speed, and the seconds to go. */
function Progress({ frame, speed }: { readonly frame: Frame; readonly speed: boolean }): ReactNode {
  const { bytes, share, bytesPerSecond, secondsToGo } = arrivalProgress(frame);
  return (
    <span className="rail-name rail-progress">
      <span className="rail-fill" style={{ width: `${(share ?? 0) * 100}%` }} />
      <span>{share === null ? sizePhrase(bytes) : `${Math.floor(share * 100)} %`}</span>
      {!speed || bytesPerSecond === null ? null : <span>{(bytesPerSecond / 1e6).toFixed(1)} MB/s</span>}
      {secondsToGo === null ? null : <span>{Math.ceil(secondsToGo)} s</span>}
    </span>
  );
}

/** How far it came. What to do is said once, over the picture, and not again beside every such frame. */
function TroubleSentence({ frame }: { readonly frame: Frame }): ReactNode {
  const finding = frame.verdicts.arrived.findings[0];
  if (finding === undefined) return null;
  const { code, args } = finding;
  return <span className="rail-trouble">{sentence({ code: shortCodes.get(code) ?? code, args })}</span>;
}

const shortCodes: ReadonlyMap<string, string> = new Map([
  ['arrived.broken-off', 'page.rail-broken-off'],
  ['arrived.damaged', 'page.rail-damaged'],
]);

function hasPicture({ picture }: Frame): boolean {
  return picture.state === 'cannot' ? picture.preview : picture.state !== 'none';
}

/** The place of a picture that is not there: it fills with the bytes, or says what the file is instead. */
function Hollow({ frame }: { readonly frame: Frame }): ReactNode {
  const { share } = arrivalProgress(frame);
  return (
    <span className="rail-hollow">
      {frame.picture.state === 'cannot' ? (
        <span className="rail-kind">{kindName(frame.kind)}</span>
      ) : (
        <span className="rail-bytes" style={{ height: `${(share ?? 0) * 100}%` }} />
      )}
    </span>
  );
}

function spokenName(frame: Frame): string {
  const state = frame.files.some((file) => file.state === 'broken-off')
    ? pageLabels.brokenOff
    : isArriving(frame)
      ? progressWords(frame)
      : `${pageLabels.verdicts} ${standingNames[worstJudgement(frame)]}`;
  const size = sizePhrase(frame.files.reduce((sum, file) => sum + file.size, 0));
  return [filesName(frame), frame.camera, clockTime(momentOf(frame)), size, state].join(', ');
}

function progressWords(frame: Frame): string {
  const { share, secondsToGo } = arrivalProgress(frame);
  const percent = share === null ? '' : `${Math.floor(share * 100)} %`;
  return secondsToGo === null ? percent : `${percent}, ${durationPhrase(secondsToGo * 1000)}`;
}
