import { type ReactNode, useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { Frame, Look as KeptLook } from '../../contract/index.ts';
import { activeParts, type Look, type LookProfile, unknownProfile } from '../../look/index.ts';
import { lookLabels } from '../../words/index.ts';
import { fetchLookVersions } from '../link/index.ts';
import type { PageState } from '../state/index.ts';
import type { PictureBox } from '../viewport/index.ts';
import { Bench } from './bench.tsx';
import { drawnHere, type Instrument } from './instruments/instruments.ts';
import { Compare } from './kept/compare.tsx';
import { useKept } from './kept/use-kept.ts';
import { baseOf, VersionsPanel } from './kept/versions-panel.tsx';
import { LookTop } from './look-top.tsx';
import { type Centre, Stage } from './stage/stage.tsx';
import { useScene } from './stage/use-scene.ts';
import { useTry } from './stage/use-try.ts';
import { useWorking, type Work } from './state/use-working.ts';
import { plainBase } from './state/working.ts';
import { Strip } from './strip.tsx';
import type { Subject } from './subject.ts';
import { TargetPanel } from './target/target-panel.tsx';
import { useLookKeys } from './use-look-keys.ts';
import { useLookWork } from './use-look-work.ts';

interface LookDeskProps {
  readonly state: PageState;
  readonly subject: Subject;
  /** Whether the address names a frame. */
  readonly isAsked: boolean;
  readonly onFrame: (id: string) => void;
}

/** No more is sent at once; closer looks are the station's regions. */
const sceneWidthMax = 2048;

export function LookDesk({ state, subject, isAsked, onFrame }: LookDeskProps): ReactNode {
  const { frame, job } = subject;
  const work = useWorking();
  const { look } = work.hand;
  const [instrument, setInstrument] = useState<Instrument | null>('curve');
  const [edge, setEdge] = useState(0.5);
  const [before, setBefore] = useState<Look | 'base' | null>(null);
  const [picking, setPicking] = useState(false);
  const [isAtRest, setAtRest] = useState(false);
  const [centre, setCentre] = useState<Centre | null>(null);
  const toggleClosely = useCallback(
    () => setCentre((seen) => (seen === null ? { x: 0.5, y: 0.5 } : null)),
    [],
  );
  const [drawing, setDrawing] = useState(false);
  const [compared, setCompared] = useState<readonly KeptLook[]>([]);
  const [boxWidth, setBoxWidth] = useState<number | null>(null);
  const [profile, setProfile] = useState<LookProfile>(unknownProfile);
  const kept = useKept(work.working.base.id ?? frame?.look.id ?? null);
  const works = useLookWork();
  useLookInForce(frame, work);
  const shownSize = sizeOf(frame);
  const version = frame?.picture.state === 'rendered' ? frame.picture.version : 0;
  const scene = useScene(frame?.id ?? '', version, shownSize === null ? null : boxWidth, works.now);
  // The frame may be rendered with a crop; a look is put on all of it.
  const full = shownSize === null ? null : (scene.facts?.full ?? shownSize);
  useEffect(() => {
    if (scene.facts !== null) setProfile(scene.facts.profile);
  }, [scene.facts]);
  const isTurning = work.working.history.turning !== null;
  const beyond = activeParts(look).filter((part) => !drawnHere.has(part));
  const isRaw = scene.facts?.light !== 'raster';
  const isLocal = activeParts(look).length > 0;
  const wantsTry =
    isRaw && scene.state === 'here' && isLocal && !isTurning && !picking && !drawing && centre === null;
  const tried = useTry(frame?.id ?? '', look, boxWidth, wantsTry);
  const toggleBefore = useCallback(() => setBefore((shown) => (shown === null ? 'base' : null)), []);
  useLookKeys(work.undo, work.redo, { b: toggleBefore, p: toggleClosely }, state.letterKeys);
  const [first, second] = compared;
  const beforeLook = before === 'base' ? work.working.base.document : before;
  const onFree = useCallback(
    ({ widthDevicePx }: PictureBox) => setBoxWidth((held) => widthFor(widthDevicePx, held)),
    [],
  );
  const compare = (chosen: KeptLook): void =>
    setCompared((held) => [...held.filter(({ id }) => id !== chosen.id), chosen].slice(-2));
  const target = useMemo(
    () =>
      frame === null || instrument !== 'target' ? null : (
        <TargetPanel frame={frame} scene={scene.scene} look={look} profile={profile} />
      ),
    [frame, instrument, scene.scene, look, profile],
  );

  return (
    <div
      className="look-page"
      data-surround={state.dimSurround ? 'dim' : 'grey'}
      data-open={instrument ?? 'none'}
    >
      <LookTop
        state={state}
        subject={subject}
        work={work}
        before={before !== null}
        closely={centre !== null}
        onClosely={toggleClosely}
        onBefore={toggleBefore}
        onFrame={onFrame}
        onSave={() => setInstrument('versions')}
        beyond={beyond}
        isLocal={isLocal}
        isAtRest={isAtRest}
        tried={tried}
        scene={scene}
      />
      <main className="look-main" id="picture">
        <h1 className="unseen">{lookLabels.title}</h1>
        {frame === null || full === null ? (
          <p className="look-empty paper" role="status">
            {emptyWords(state, frame, isAsked)}
          </p>
        ) : (
          <Stage
            frame={frame}
            full={full}
            scene={scene}
            work={works.now}
            restWork={works.rest}
            onAtRest={setAtRest}
            beforeWork={before === null ? null : works.before()}
            look={look}
            before={beforeLook}
            edge={edge}
            onEdge={setEdge}
            isTurning={isTurning}
            tried={tried}
            centre={centre}
            onCentre={setCentre}
            version={version}
            picking={picking && instrument === 'balance'}
            onNeutral={(rgb) => {
              setPicking(false);
              if (rgb !== null) work.hand.change({ balance: { from: 'neutral', rgb: [...rgb] } });
            }}
            drawing={drawing && instrument === 'geometry'}
            onLines={([one, other]) => {
              setDrawing(false);
              const lines: Look['geometry']['lines'] = [[...one], [...other]];
              work.hand.change({ geometry: { ...look.geometry, lines } });
            }}
            onFree={onFree}
          >
            {scene.state === 'failed' ? (
              <p className="look-empty paper" role="alert">
                {lookLabels.failed}{' '}
                <button type="button" className="press" onClick={scene.again}>
                  {lookLabels.again}
                </button>
              </p>
            ) : null}
            {scene.state === 'loading' ? (
              <p className="look-empty paper" role="status">
                {lookLabels.loading}
              </p>
            ) : null}
          </Stage>
        )}
        {frame !== null && first !== undefined && second !== undefined ? (
          <Compare frame={frame} versions={[first, second]} onClose={() => setCompared([])} />
        ) : null}
      </main>
      {instrument === null ? null : (
        <Bench
          instrument={instrument}
          hand={work.hand}
          profile={profile}
          picking={picking}
          onPick={setPicking}
          drawing={drawing}
          onDraw={setDrawing}
          onClose={() => setInstrument(null)}
          target={target}
          versions={
            <VersionsPanel
              hand={work.hand}
              base={work.working.base}
              isTouched={work.isTouched}
              kept={kept}
              frame={frame}
              job={job}
              onSaved={work.saved}
              onOpen={work.open}
              onBefore={({ document }) => setBefore(document)}
              onCompare={compare}
            />
          }
        />
      )}
      <Strip look={look} open={instrument} onOpen={setInstrument} />
    </div>
  );
}

/**
 * The page begins with the look in force of the frame it was opened on, unless somebody has turned something that is not
 * saved, or has gone on from that look already. Stepping to other frames shows them with the look at hand.
 */
function useLookInForce(frame: Frame | null, { isTouched, openInForce, working }: Work): void {
  const isDone = useRef(false);
  const id = frame?.look.id ?? null;
  const isKnown = frame !== null;
  const isHonoured = isTouched || id === working.base.id || id === working.inForce;
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, as soon as the frame is known
  useEffect(() => {
    if (!isKnown || isDone.current) return;
    isDone.current = true;
    if (isHonoured) return;
    if (id === null) {
      openInForce(plainBase);
      return;
    }
    fetchLookVersions(id).then(
      (versions) => {
        const inForce = versions.find((look) => look.id === id);
        if (inForce !== undefined) openInForce(baseOf(inForce));
      },
      () => undefined,
    );
  }, [isKnown]);
}

function sizeOf(frame: Frame | null): { readonly widthPx: number; readonly heightPx: number } | null {
  if (frame?.picture.state !== 'rendered') return null;
  return { widthPx: frame.picture.width, heightPx: frame.picture.height };
}

/** In steps; a picture that becomes a little smaller, as when an instrument is taken out, keeps the light it has. */
function widthFor(widthDevicePx: number, held: number | null): number {
  const wanted = Math.min(sceneWidthMax, Math.max(64, Math.ceil(widthDevicePx / 64) * 64));
  return held !== null && wanted <= held && wanted > held * keptShare ? held : wanted;
}

const keptShare = 0.7;

function emptyWords(state: PageState, frame: Frame | null, isAsked: boolean): string {
  if (state.link.state === 'connecting') return lookLabels.loading;
  if (frame === null) return isAsked ? lookLabels.noFrame : lookLabels.noFrames;
  return frame.picture.state === 'cannot' ? lookLabels.cannot : lookLabels.notYet;
}
