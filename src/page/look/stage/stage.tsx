import { type ReactNode, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import type { Frame } from '../../../contract/index.ts';
import type { Look } from '../../../look/index.ts';
import { lookLabels, piecesPhrase } from '../../../words/index.ts';
import { placeCanvas } from '../../drawer/place-canvas.ts';
import { pictureAddress } from '../../link/index.ts';
import { useDevicePixelRatio } from '../../set/use-media.ts';
import { fitBox, type PictureBox } from '../../viewport/index.ts';
import type { LookWork } from '../off-thread/look-work.ts';
import type { Placed } from '../painter/painter.ts';
import { type Centre, closeBox, panned } from './close-box.ts';
import { CropFrame, type CropFrameProps } from './crop-frame.tsx';
import { uncropped } from './crop-place.ts';
import type { DrawnLine } from './drawing-lines.ts';
import { EdgeBar } from './edge-bar.tsx';
import { useFree, useRoom } from './free-space.ts';
import { LineDrawer } from './line-drawer.tsx';
import { NeutralPicker } from './neutral-picker.tsx';
import { PanField } from './pan-field.tsx';
import { placedSize, placeScene } from './place-scene.ts';
import { lightAbout, neutralOf, sceneShare } from './scene-point.ts';
import type { Tool } from './tool.ts';
import { TryPicture } from './try-picture.tsx';
import { useClosely } from './use-closely.ts';
import type { SceneState } from './use-scene.ts';
import { usePlaced, useShow } from './use-show.ts';
import { useTables } from './use-tables.ts';
import type { Tried } from './use-try.ts';
import { TrySlip, WorkingSlip } from './working-slip.tsx';

export interface StageProps {
  readonly frame: Frame;
  readonly full: { readonly widthPx: number; readonly heightPx: number };
  readonly scene: SceneState;
  readonly work: LookWork | null;
  /** Compiles what has come to rest. */
  readonly restWork: LookWork | null;
  readonly beforeWork: LookWork | null;
  /** Whether what is shown is the look at hand, compiled as the station does. */
  readonly onAtRest: (isAtRest: boolean) => void;
  readonly look: Look;
  /** What is shown left of the edge; null: nothing is. */
  readonly before: Look | null;
  readonly edge: number;
  readonly onEdge: (edge: number) => void;
  readonly isTurning: boolean;
  readonly tried: Tried;
  /** The station's rendering of what is left of the edge. */
  readonly triedBefore: Tried;
  /** The place that is seen pixel for pixel; null: all of it is seen. */
  readonly centre: Centre | null;
  /** Null: all of it is to be seen again. */
  readonly onCentre: (centre: Centre | null) => void;
  /** Of the frame's picture. */
  readonly version: number;
  /** What the picture is pointed at for. */
  readonly tool: Tool | null;
  readonly onLeave: () => void;
  readonly onNeutral: (rgb: readonly [number, number, number] | null) => void;
  /** Two parallels, their ends as shares of the original. */
  readonly onLines: (lines: readonly [DrawnLine, DrawnLine]) => void;
  readonly onCrop: CropFrameProps['onCrop'];
  readonly onLetGo: () => void;
  readonly onFree: (box: PictureBox) => void;
  readonly children: ReactNode;
}

/** Half the edge of the square that a neutral is read from, pixels of the scene. */
const neutralReachPx = 4;

/** The picture with its look, the edge over it, and what is pointed at. */
export function Stage(props: StageProps): ReactNode {
  const { frame, full, scene, look, before, edge, isTurning } = props;
  const tried = props.tried.now;
  const triedBefore = props.triedBefore.now;
  const area = useRef<HTMLDivElement>(null);
  const holder = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const free = useFree(area);
  const devicePixelRatio = useDevicePixelRatio();
  const cropping = props.tool === 'crop' && look.geometry.crop !== null;
  // Whoever sets a crop sees what it leaves out.
  const geometry = useMemo(
    () => (cropping ? uncropped(look.geometry) : look.geometry),
    [cropping, look.geometry],
  );
  const box = free === null ? null : fitBox(placedSize(geometry, full), free, devicePixelRatio);
  const show = useShow(canvas);
  const profile = scene.facts?.profile ?? null;
  // Until the light of another frame has come, the one before is seen: nothing is pointed at or drawn on it.
  const isOwn = scene.state === 'here' && scene.of === frame.id;
  const { work, restWork, beforeWork, onAtRest } = props;
  const { isShown, isAtRest } = useTables(
    show,
    { turning: work, rest: restWork },
    'now',
    look,
    profile,
    isTurning,
  );
  useEffect(() => onAtRest(isAtRest), [onAtRest, isAtRest]);
  useTables(show, { turning: null, rest: beforeWork }, 'before', before, profile, false);
  const room = useRoom(free, devicePixelRatio);
  const closely = useClosely(frame.id, props.version, geometry, full, room, props.centre, props.work);
  const isClose = closely !== null && closely.part !== null;
  const seen = isClose ? closely.part : scene.scene;
  const placed = isClose
    ? closely.view.placed
    : scene.scene === null
      ? null
      : placeScene(geometry, full, scene.scene);
  usePlaced(show, seen, placed);
  useEffect(() => show?.setEdge(before === null ? 0 : edge), [show, edge, before]);
  useEffect(() => show?.setTurning(isTurning), [show, isTurning]);
  useLayoutEffect(() => {
    if (holder.current === null || box === null || free === null) return;
    placeCanvas(holder.current, isClose ? closeBox(closely.view, free, devicePixelRatio) : box);
  });
  const { onFree } = props;
  const [width, height] = [box?.widthDevicePx ?? 0, box?.heightDevicePx ?? 0];
  // biome-ignore lint/correctness/useExhaustiveDependencies: a box of the same size is the same
  useEffect(() => {
    if (box !== null) onFree(box);
  }, [width, height]);
  const pick = (x: number, y: number): void => {
    if (seen === null || placed === null) return;
    const at = sceneShare(placed, x, y);
    props.onNeutral(neutralOf(lightAbout(seen, at.x, at.y, neutralReachPx)));
  };
  return (
    <div className="look-area" ref={area} tabIndex={-1}>
      <div className="look-holder" ref={holder} hidden={box === null}>
        <canvas
          ref={canvas}
          className="look-canvas"
          data-testid="look-picture"
          data-frame-id={scene.state === 'here' ? scene.of : frame.id}
          data-state={
            isOwn && isShown ? 'shown' : isOwn ? 'here' : scene.state === 'failed' ? 'failed' : 'loading'
          }
          data-seen={isClose ? 'closely' : 'whole'}
          data-painter={show?.kind ?? ''}
          role="img"
          aria-label={`${lookLabels.picture}: ${frame.name}`}
        />
        {scene.state === 'loading' && box !== null ? (
          // As the station has it, until there is light to put this look on.
          <img
            className="look-first"
            alt=""
            src={pictureAddress(frame.id, box.widthDevicePx, props.version)}
          />
        ) : null}
        {isClose ? (
          <PanField
            onPan={(right, down) => props.onCentre(panned(closely.view, full, geometry, right, down))}
          />
        ) : null}
        {tried.state === 'here' && !isClose ? (
          <TryPicture address={tried.address} side="now" edge={before === null ? 0 : edge} />
        ) : null}
        {triedBefore.state === 'here' && before !== null && !isClose ? (
          <TryPicture address={triedBefore.address} side="before" edge={edge} />
        ) : null}
        {before === null ? null : <EdgeBar edge={edge} onEdge={props.onEdge} box={holder} />}
        {cropping && !isClose ? (
          <CropFrame
            geometry={look.geometry}
            full={full}
            onCrop={props.onCrop}
            onLetGo={props.onLetGo}
            onLeave={props.onLeave}
          />
        ) : null}
        {props.tool === 'lines' && isOwn && placed !== null && !isClose ? (
          <LineDrawer
            onLines={([one, other]) => props.onLines([inScene(placed, one), inScene(placed, other)])}
            onLeave={props.onLeave}
          />
        ) : null}
        {props.tool === 'neutral' && isOwn ? (
          <NeutralPicker onPick={pick} onLeave={() => props.onNeutral(null)} />
        ) : null}
      </div>
      {closely === null ? (
        <TrySlip tried={props.tried} />
      ) : closely.here < closely.of ? (
        <WorkingSlip
          words={closely.failed ? lookLabels.tilesFailed : piecesPhrase(closely.here, closely.of)}
          share={closely.here / closely.of}
          press={lookLabels.callOff}
          onPress={() => props.onCentre(null)}
        />
      ) : null}
      {props.children}
    </div>
  );
}

function inScene(placed: Placed, [x0, y0, x1, y1]: DrawnLine): DrawnLine {
  const held = (value: number): number => Math.round(Math.min(1, Math.max(0, value)) * 1e4) / 1e4;
  const [from, to] = [sceneShare(placed, x0, y0), sceneShare(placed, x1, y1)];
  return [held(from.x), held(from.y), held(to.x), held(to.y)];
}
