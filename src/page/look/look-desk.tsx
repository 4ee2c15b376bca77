import { type ReactNode, useCallback, useMemo, useState } from 'react';
import { activeParts, type Look } from '../../look/index.ts';
import { lookLabels } from '../../words/index.ts';
import type { PageState } from '../state/index.ts';
import { Bench } from './bench.tsx';
import { drawnHere, type Instrument } from './instruments/instruments.ts';
import { Compare } from './kept/compare.tsx';
import { useCompare } from './kept/use-compare.ts';
import { useKept } from './kept/use-kept.ts';
import { VersionsPanel } from './kept/versions-panel.tsx';
import { LookTop } from './look-top.tsx';
import type { Centre } from './stage/close-box.ts';
import { Stage } from './stage/stage.tsx';
import { inHand, type Tool } from './stage/tool.ts';
import { useBefore } from './stage/use-before.ts';
import { usePicture } from './stage/use-picture.ts';
import { useTry } from './stage/use-try.ts';
import { emptyWords, SceneNote } from './stage-notes.tsx';
import { useLookInForce } from './state/use-look-in-force.ts';
import { useWorking } from './state/use-working.ts';
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

export function LookDesk({ state, subject, isAsked, onFrame }: LookDeskProps): ReactNode {
  const { frame, job } = subject;
  const work = useWorking();
  const { look } = work.hand;
  const { base } = work.working.history.present;
  const [instrument, setInstrument] = useState<Instrument | null>('curve');
  const [edge, setEdge] = useState(0.5);
  const [chosen, setTool] = useState<Tool | null>(null);
  const [isAtRest, setAtRest] = useState(false);
  const [centre, setCentre] = useState<Centre | null>(null);
  const toggleClosely = useCallback(
    () => setCentre((seen) => (seen === null ? { x: 0.5, y: 0.5 } : null)),
    [],
  );
  const before = useBefore(base, look);
  const compared = useCompare();
  const isCompared = compared.looks.length === 2;
  const kept = useKept(base.id ?? frame?.look.id ?? null);
  const works = useLookWork();
  useLookInForce(frame, work);
  const picture = usePicture(frame, works.now);
  const { scene, full, profile } = picture;
  const isTurning = work.working.history.turning !== null;
  const tool = inHand(chosen, instrument);
  const beyond = activeParts(look).filter((part) => !drawnHere.has(part));
  const isRaw = scene.facts?.light !== 'raster';
  const isLocal = activeParts(look).length > 0;
  const canTry =
    isRaw &&
    scene.state === 'here' &&
    scene.of === frame?.id &&
    !isTurning &&
    tool === null &&
    centre === null;
  const tried = useTry(frame?.id ?? '', look, 'now', picture.boxWidth, canTry && isLocal);
  const beforeLook = before.look ?? look;
  const wantsBefore = canTry && before.isLocal && !before.isSame;
  const triedOther = useTry(frame?.id ?? '', beforeLook, 'before', picture.boxWidth, wantsBefore);
  const triedBefore = before.isSame ? tried : triedOther;
  const letters = isCompared ? {} : { b: before.toggle, p: toggleClosely };
  useLookKeys(work.undo, work.redo, letters, state.letterKeys);
  const [first, second] = compared.looks;
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
        before={before.base !== null}
        isCompared={isCompared}
        closely={centre !== null}
        onClosely={toggleClosely}
        onBefore={before.toggle}
        onFrame={onFrame}
        onSave={() => setInstrument('versions')}
        seen={{
          ...{
            frame: frame?.id ?? null,
            scene,
            beyond,
            isLocal,
            isAtRest,
            tried: tried.now.state,
            isCompared,
            isCropping: tool === 'crop' && look.geometry.crop !== null && centre === null,
          },
          before: { ...before, tried: triedBefore.now.state },
        }}
      />
      <main className="look-main" id="picture" tabIndex={-1}>
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
            beforeWork={before.base === null ? null : works.before()}
            look={look}
            before={before.base?.document ?? null}
            edge={edge}
            onEdge={setEdge}
            isTurning={isTurning}
            tried={tried}
            triedBefore={triedBefore}
            centre={centre}
            onCentre={setCentre}
            version={picture.version}
            tool={tool}
            onLeave={() => setTool(null)}
            onNeutral={(rgb) => {
              setTool(null);
              if (rgb !== null) work.hand.change({ balance: { from: 'neutral', rgb: [...rgb] } });
            }}
            onLines={([one, other]) => {
              setTool(null);
              const lines: Look['geometry']['lines'] = [[...one], [...other]];
              work.hand.change({ geometry: { ...look.geometry, lines } });
            }}
            onCrop={(crop) => work.hand.change({ geometry: { ...look.geometry, crop } }, 'crop frame')}
            onLetGo={work.hand.letGo}
            onFree={picture.onFree}
          >
            <SceneNote scene={scene} again={picture.again} />
          </Stage>
        )}
        {frame !== null && first !== undefined && second !== undefined ? (
          <Compare frame={frame} versions={[first, second]} onClose={compared.close} />
        ) : null}
      </main>
      {instrument === null ? null : (
        <Bench
          instrument={instrument}
          hand={work.hand}
          profile={profile}
          full={full}
          tool={tool}
          onTool={setTool}
          onClose={() => setInstrument(null)}
          target={target}
          versions={
            <VersionsPanel
              hand={work.hand}
              base={base}
              isTouched={work.isTouched}
              kept={kept}
              frame={frame}
              job={job}
              onSaved={work.saved}
              onOpen={work.open}
              onBefore={before.show}
              compared={compared}
            />
          }
        />
      )}
      <Strip look={look} open={instrument} onOpen={setInstrument} />
    </div>
  );
}
