import { type ReactNode, type RefObject, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { Frame } from '../../../contract/index.ts';
import type { RgbHalf, Size } from '../../../image/index.ts';
import type { Look } from '../../../look/index.ts';
import { lookLabels } from '../../../words/index.ts';
import { placeCanvas } from '../../drawer/place-canvas.ts';
import { useDevicePixelRatio } from '../../set/use-media.ts';
import { fitBox, type PictureBox, type SizeCssPx } from '../../viewport/index.ts';
import type { LookWork } from '../off-thread/look-work.ts';
import { glPainter } from '../painter/gl-painter.ts';
import type { Placed } from '../painter/painter.ts';
import { plainPainter } from '../painter/plain-painter.ts';
import type { CloseView } from './closely.ts';
import { EdgeBar } from './edge-bar.tsx';
import { type DrawnLine, LineDrawer } from './line-drawer.tsx';
import { NeutralPicker } from './neutral-picker.tsx';
import { PanField } from './pan-field.tsx';
import { placedSize, placeScene } from './place-scene.ts';
import { lightAbout, neutralOf, sceneShare } from './scene-point.ts';
import { Show } from './show.ts';
import { TryPicture } from './try-picture.tsx';
import { useClosely } from './use-closely.ts';
import type { SceneState } from './use-scene.ts';
import { useTables } from './use-tables.ts';
import type { Try } from './use-try.ts';

export interface Centre {
  readonly x: number;
  readonly y: number;
}

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
  readonly tried: Try;
  /** The place that is seen pixel for pixel, shares of the picture; null: all of it is seen. */
  readonly centre: Centre | null;
  readonly onCentre: (centre: Centre) => void;
  /** Of the frame's picture. */
  readonly version: number;
  readonly picking: boolean;
  readonly onNeutral: (rgb: readonly [number, number, number] | null) => void;
  readonly drawing: boolean;
  /** Two parallels, their ends as shares of the original. */
  readonly onLines: (lines: readonly [DrawnLine, DrawnLine]) => void;
  readonly onFree: (box: PictureBox) => void;
  readonly children: ReactNode;
}

/** Half the edge of the square that a neutral is read from, pixels of the scene. */
const neutralReachPx = 4;

/** The picture with its look, the edge over it, and what is pointed at. */
export function Stage(props: StageProps): ReactNode {
  const { frame, full, scene, look, before, edge, isTurning } = props;
  const area = useRef<HTMLDivElement>(null);
  const holder = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const free = useFree(area);
  const devicePixelRatio = useDevicePixelRatio();
  const { geometry } = look;
  const box = free === null ? null : fitBox(placedSize(geometry, full), free, devicePixelRatio);
  const show = useShow(canvas, frame.id);
  const profile = scene.facts?.profile ?? null;
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
    <div className="look-area" ref={area}>
      <div className="look-holder" ref={holder} hidden={box === null}>
        <canvas
          ref={canvas}
          className="look-canvas"
          data-testid="look-picture"
          data-frame-id={frame.id}
          data-state={scene.state === 'here' && isShown ? 'shown' : scene.state}
          data-seen={isClose ? 'closely' : 'whole'}
          data-painter={show?.kind ?? ''}
          role="img"
          aria-label={`${lookLabels.picture}: ${frame.name}`}
        />
        {isClose ? (
          <PanField
            onPan={(right, down) => props.onCentre(panned(closely.view, full, geometry, right, down))}
          />
        ) : null}
        {props.tried.state === 'here' && !isClose ? (
          <TryPicture address={props.tried.address} edge={before === null ? 0 : edge} />
        ) : null}
        {before === null ? null : <EdgeBar edge={edge} onEdge={props.onEdge} box={holder} />}
        {props.drawing && placed !== null && !isClose ? (
          <LineDrawer
            onLines={([one, other]) => props.onLines([inScene(placed, one), inScene(placed, other)])}
          />
        ) : null}
        {props.picking ? <NeutralPicker onPick={pick} onLeave={() => props.onNeutral(null)} /> : null}
      </div>
      {props.children}
    </div>
  );
}

function inScene(placed: Placed, [x0, y0, x1, y1]: DrawnLine): DrawnLine {
  const held = (value: number): number => Math.round(Math.min(1, Math.max(0, value)) * 1e4) / 1e4;
  const [from, to] = [sceneShare(placed, x0, y0), sceneShare(placed, x1, y1)];
  return [held(from.x), held(from.y), held(to.x), held(to.y)];
}

/** The free space in the canvas's own pixels. */
function useRoom(free: SizeCssPx | null, devicePixelRatio: number): Size | null {
  return useMemo(
    () =>
      free === null
        ? null
        : {
            widthPx: Math.floor(free.widthCssPx * devicePixelRatio),
            heightPx: Math.floor(free.heightCssPx * devicePixelRatio),
          },
    [free, devicePixelRatio],
  );
}

/** In the middle of the free space, pixel for pixel. */
function closeBox(
  { widthPx, heightPx }: CloseView,
  free: SizeCssPx,
  devicePixelRatio: number,
): Parameters<typeof placeCanvas>[1] {
  const [widthCssPx, heightCssPx] = [widthPx / devicePixelRatio, heightPx / devicePixelRatio];
  const middle = (whole: number, own: number): number =>
    Math.floor(((whole - own) / 2) * devicePixelRatio) / devicePixelRatio;
  return {
    leftCssPx: middle(free.widthCssPx, widthCssPx),
    topCssPx: middle(free.heightCssPx, heightCssPx),
    widthCssPx,
    heightCssPx,
  };
}

function panned(
  view: CloseView,
  full: Size,
  geometry: Look['geometry'],
  right: number,
  down: number,
): Centre {
  const whole = placedSize(geometry, full);
  return {
    x: view.centre.x - (right * view.widthPx) / whole.widthPx,
    y: view.centre.y - (down * view.heightPx) / whole.heightPx,
  };
}

function useFree(area: RefObject<HTMLDivElement | null>): SizeCssPx | null {
  const [free, setFree] = useState<SizeCssPx | null>(null);
  useLayoutEffect(() => {
    const element = area.current;
    if (element === null) return;
    const observer = new ResizeObserver(() =>
      setFree({ widthCssPx: element.clientWidth, heightCssPx: element.clientHeight }),
    );
    observer.observe(element);
    return () => observer.disconnect();
  }, [area]);
  return free;
}

/** A canvas that was given to WebGL is never another's: each frame id has a painter as long as the page is open. */
function useShow(canvas: RefObject<HTMLCanvasElement | null>, _frame: string): Show | null {
  const [show, setShow] = useState<Show | null>(null);
  useEffect(() => {
    const element = canvas.current;
    if (element === null) return;
    const made = new Show(glPainter(element) ?? plainPainter(element));
    setShow(made);
    return () => made.close();
  }, [canvas]);
  return show;
}

function usePlaced(show: Show | null, scene: RgbHalf | null, placed: Placed | null): void {
  useEffect(() => {
    if (show !== null && scene !== null) show.setScene(scene);
  }, [show, scene]);
  const key = placed === null ? '' : JSON.stringify(placed);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key is the place
  useEffect(() => {
    if (show !== null && placed !== null) show.place(placed);
  }, [show, key]);
}
