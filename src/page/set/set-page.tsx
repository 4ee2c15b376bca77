import { type Dispatch, type ReactNode, useCallback, useEffect, useMemo, useState } from 'react';
import type { Finding, Mark } from '../../facts/index.ts';
import { CameraSheet } from '../cameras/camera-sheet.tsx';
import { Carriage } from '../choices/carriage.tsx';
import { FrameCard } from '../choices/frame-card.tsx';
import { MoveCard } from '../choices/move-card.tsx';
import { ShotCard } from '../choices/shot-card.tsx';
import { TrayCard } from '../choices/tray-card.tsx';
import { UndoSlip } from '../choices/undo-slip.tsx';
import { useCarry } from '../choices/use-carry.ts';
import { useShotChoices } from '../choices/use-shot-choices.ts';
import { useTakeBack } from '../choices/use-take-back.ts';
import { DeliveryMask } from '../client/delivery-mask.tsx';
import { MaskSlip } from '../client/mask-slip.tsx';
import { useMask } from '../client/use-mask.ts';
import { patchMark, Refused } from '../link/index.ts';
import { LinkCard } from '../links/link-card.tsx';
import { LaidCanvas } from '../readings/laid-canvas.tsx';
import { PointsPicker } from '../readings/points-picker.tsx';
import { QuestionPlots } from '../readings/question-plots.tsx';
import { ReadingColumn } from '../readings/reading-column.tsx';
import { SpotPicker } from '../readings/spot-picker.tsx';
import { useOpenReadings } from '../readings/use-open-readings.ts';
import { openRemarks } from '../remarks/open-remarks.tsx';
import { RemarkCard } from '../remarks/remark-card.tsx';
import { RemarkLayer } from '../remarks/remark-layer.tsx';
import { RemarkPicker } from '../remarks/remark-picker.tsx';
import { useRemarking } from '../remarks/use-remarking.ts';
import { framesOf, type PageAction, type PageState, shownFrame } from '../state/index.ts';
import type { SizeCssPx } from '../viewport/index.ts';
import type { Sound } from '../voice/index.ts';
import { ArrivalRail } from './arrival-rail.tsx';
import { Caption } from './caption.tsx';
import { FarLine } from './far-line.tsx';
import { FirstSteps } from './first-steps.tsx';
import { KeyCard } from './key-card.tsx';
import { PictureArea } from './picture-area.tsx';
import { SentenceCard } from './sentence-card.tsx';
import { ShotLine } from './shot-line.tsx';
import { SoundCard } from './sound-card.tsx';
import { Switches } from './switches.tsx';
import { useKeys } from './use-keys.ts';
import { shapeOf, usePlacing } from './use-placing.ts';
import { usePresentation } from './use-presentation.ts';
import { useWakeLock } from './use-wake-lock.ts';
import { useZoom } from './use-zoom.ts';
import { VerdictBand } from './verdict-band.tsx';

interface SetPageProps {
  readonly state: PageState;
  readonly sound: Sound;
  readonly dispatch: Dispatch<PageAction>;
}

/** Somebody else was first, or the station did not take it. */
function whyMarkIsLost(name: string, thrown: unknown): Finding {
  const isMeanwhile = thrown instanceof Refused && thrown.code === 'changed-meanwhile';
  return { code: isMeanwhile ? 'page.marked-meanwhile' : 'page.mark-not-kept', args: { name } };
}

/** The page to shoot with: the newest frame, what is to be said about it, and the day around it. */
export function SetPage({ state, sound, dispatch }: SetPageProps): ReactNode {
  const [free, setFree] = useState<SizeCssPx | null>(null);
  const [markLost, setMarkLost] = useState<Finding | null>(null);

  const frames = useMemo(() => framesOf(state.frames), [state.frames]);
  const shown = useMemo(() => shownFrame(state), [state]);
  const presentation = usePresentation(shown, state.frames, free);
  const frame = presentation?.frame ?? null;
  const zoom = useZoom();

  const mark = useCallback(
    (chosen: Mark) => {
      if (frame === null) return;
      const next = frame.mark === chosen ? 'none' : chosen;
      patchMark(frame, next).then(
        () => setMarkLost(null),
        (thrown: unknown) => setMarkLost(whyMarkIsLost(frame.name, thrown)),
      );
    },
    [frame],
  );
  // A station that is back tells how every frame is marked: what was not taken can be seen.
  const isLive = state.link.state === 'live';
  useEffect(() => {
    if (isLive) setMarkLost(null);
  }, [isLive]);
  const choices = useShotChoices(state);
  const takeBack = useTakeBack();
  const { undo, putBack } = takeBack;
  const carried = useCarry(choices.moveFrame);
  const open = useOpenReadings(state, frame);
  // The map would hide what is to be pointed at.
  const placing = usePlacing(presentation);
  const masked = useMask(open.job, frame, presentation?.picture?.full ?? null, placing);
  const isWhole = placing !== null;
  const isPicking = state.open === 'sharp' && open.picking.on && isWhole;
  const isMeasuring = state.open === 'inPlace' && open.measuring.on && isWhole;
  const remarking = useRemarking(frame?.id ?? null);
  const remarksOpen = useMemo(() => openRemarks(frames, frame?.job ?? null).length, [frames, frame]);
  const { lay } = open.laid;
  useKeys(state, dispatch, { mark, zoom, stepShot: choices.stepShot, undo, putBack, lay });
  useWakeLock(state.station?.cameras.some((camera) => camera.connected) ?? false);

  return (
    <div
      className="page"
      data-surround={state.dimSurround ? 'dim' : 'grey'}
      data-view={state.farView ? 'far' : 'near'}
      data-empty={frame === null}
      data-open={frame === null || state.open === null ? 'none' : state.open}
    >
      <header className="top">
        <ShotLine
          state={state}
          frames={frames}
          carried={carried}
          stepShot={choices.stepShot}
          dispatch={dispatch}
        />
        <Switches state={state} sound={sound} openRemarks={remarksOpen} dispatch={dispatch} undo={undo} />
        {state.farView ? <FarLine state={state} frame={frame} frames={frames} /> : null}
        <SentenceCard state={state} frame={frame} frames={frames} markLost={markLost} dispatch={dispatch} />
      </header>
      <ArrivalRail state={state} frames={frames} shownId={frame?.id ?? null} dispatch={dispatch} />
      <main className="middle" id="picture">
        <h1 className="unseen">Set</h1>
        <PictureArea presentation={presentation} free={free} onFree={setFree} zoom={zoom}>
          {frame === null && state.station !== null ? <FirstSteps station={state.station} /> : null}
          {presentation?.picture == null ||
          free === null ||
          isPicking ||
          isMeasuring ||
          !state.deliveryMask ? null : (
            <DeliveryMask mask={masked.mask} picture={presentation.picture.full} free={free} zoom={zoom} />
          )}
          {presentation?.picture == null ||
          free === null ||
          placing === null ||
          open.over === null ||
          isPicking ||
          isMeasuring ? null : (
            <LaidCanvas
              laid={open.over}
              placing={placing}
              difference={
                open.over.kind === 'ghost' &&
                open.over.bitmap !== null &&
                open.laid.choice.ghost === 'difference'
              }
              picture={presentation.picture.full}
              free={free}
              zoom={zoom}
            />
          )}
          {presentation?.picture == null || free === null || placing === null || !isPicking ? null : (
            <SpotPicker
              frameId={presentation.frame.id}
              picking={open.picking}
              onward={open.picking.onward && presentation.frame.shot !== null}
              placing={placing}
              picture={presentation.picture.full}
              free={free}
              zoom={zoom}
            />
          )}
          {presentation?.picture == null || free === null || placing === null || !isMeasuring ? null : (
            <PointsPicker
              measuring={open.measuring}
              placing={placing}
              picture={presentation.picture.full}
              free={free}
              zoom={zoom}
            />
          )}
          {presentation?.picture == null ||
          free === null ||
          placing === null ||
          isPicking ||
          isMeasuring ? null : remarking.isPicking ? (
            <RemarkPicker
              remarking={remarking}
              placing={placing}
              picture={presentation.picture.full}
              free={free}
              zoom={zoom}
            />
          ) : (
            <RemarkLayer
              frame={presentation.frame}
              placing={placing}
              picture={presentation.picture.full}
              free={free}
              zoom={zoom}
              chosen={remarking.chosen}
              onChoose={(id) => {
                remarking.choose(id);
                dispatch({ type: 'card', card: 'remarks' });
              }}
            />
          )}
        </PictureArea>
        {presentation?.picture == null || !state.deliveryMask ? null : (
          <MaskSlip chosen={masked} picture={presentation.picture.full} />
        )}
        <UndoSlip
          acts={state.acts}
          takeBack={takeBack}
          refusal={choices.refusal === '' ? takeBack.refusal : choices.refusal}
        />
        <Caption
          presentation={presentation}
          state={state}
          onMark={mark}
          onCard={() => dispatch({ type: 'card', card: 'frame' })}
        />
      </main>
      <VerdictBand frame={frame} open={state.open} dispatch={dispatch} />
      {frame === null || state.open === null ? null : (
        <ReadingColumn
          question={state.open}
          frame={frame}
          laid={open.laid}
          onClose={() => dispatch({ type: 'open', question: null })}
        >
          <QuestionPlots question={state.open} frame={frame} {...open} shape={shapeOf(placing)} />
        </ReadingColumn>
      )}
      <CameraSheet state={state} dispatch={dispatch} />
      <FrameCard state={state} frame={frame} dispatch={dispatch} />
      <MoveCard state={state} frame={frame} frames={frames} dispatch={dispatch} />
      <RemarkCard state={state} frame={frame} frames={frames} remarking={remarking} dispatch={dispatch} />
      <ShotCard state={state} frames={frames} dispatch={dispatch} />
      <TrayCard state={state} frames={frames} dispatch={dispatch} />
      <LinkCard state={state} dispatch={dispatch} />
      <SoundCard state={state} sound={sound} dispatch={dispatch} />
      <KeyCard state={state} dispatch={dispatch} />
      <Carriage carried={carried} state={state} />
    </div>
  );
}
