import { movedBy, type PointDevicePx, type Spot, spotAt, zoomedAbout } from '../viewport/index.ts';
import type { ZoomMotion } from './zoom-motion.ts';

/** Two taps within this time and distance are one double tap; CSS pixels. */
const doubleTapMs = 400;
const doubleTapCssPx = 24;
/** A finger that rests moves by less than this. */
const restingCssPx = 6;
/** Wheels tell pixels, lines or pages; a notch of about 100 px closes in by a sixth. */
const perWheelPx = 0.0016;
/** Spreading two fingers on a pad comes as a wheel with the Control key and small figures. */
const perPadPx = 0.01;
const wheelLinePx = 33;
const wheelPagePx = 400;
const wheelFactorMax = 2;
/** Notches nearer in time and place than this turn about one spot. */
const sameTurnMs = 600;
const sameTurnCssPx = 8;

/** A wheel being turned. */
interface Turn {
  readonly atMs: number;
  readonly x: number;
  readonly y: number;
  readonly spot: Spot;
}

interface Finger {
  readonly downX: number;
  readonly downY: number;
  x: number;
  y: number;
}

/** Moves the view by hand: drag, wheel, two fingers, double tap. Gives a function that lets go of the element. */
export function followHand(element: HTMLElement, motion: ZoomMotion): () => void {
  const fingers = new Map<number, Finger>();
  let turn: Turn | null = null;
  let lastTap: { readonly atMs: number; readonly x: number; readonly y: number } | null = null;

  const pointOf = (x: number, y: number): PointDevicePx => {
    const { left, top } = element.getBoundingClientRect();
    return { xDevicePx: (x - left) * devicePixelRatio, yDevicePx: (y - top) * devicePixelRatio };
  };

  const down = (event: PointerEvent): void => {
    if (event.button !== 0 || isControl(event.target, element)) return;
    element.setPointerCapture(event.pointerId);
    const { clientX: x, clientY: y } = event;
    fingers.set(event.pointerId, { downX: x, downY: y, x, y });
    element.dataset.held = 'true';
  };

  const move = (event: PointerEvent): void => {
    const finger = fingers.get(event.pointerId);
    const { stage, figures } = motion;
    if (finger === undefined || stage === null || figures === null) return;
    const before = handOf(fingers);
    finger.x = event.clientX;
    finger.y = event.clientY;
    const after = handOf(fingers);
    const spread = before.spread > 0 && after.spread > 0 ? after.spread / before.spread : 1;
    // One finger on the whole picture moves nothing.
    if (motion.view === null && spread === 1) return;
    const closer = zoomedAbout(figures, pointOf(before.x, before.y), figures.scale * spread, stage);
    const by = {
      xDevicePx: (after.x - before.x) * devicePixelRatio,
      yDevicePx: (after.y - before.y) * devicePixelRatio,
    };
    motion.jumpTo(movedBy(closer, by, stage));
  };

  const up = (event: PointerEvent): void => {
    const finger = fingers.get(event.pointerId);
    fingers.delete(event.pointerId);
    if (fingers.size === 0) delete element.dataset.held;
    if (finger === undefined || event.type === 'pointercancel') return;
    const moved = Math.hypot(finger.x - finger.downX, finger.y - finger.downY);
    const tap = { atMs: event.timeStamp, x: event.clientX, y: event.clientY };
    const isDouble =
      lastTap !== null &&
      tap.atMs - lastTap.atMs < doubleTapMs &&
      Math.hypot(tap.x - lastTap.x, tap.y - lastTap.y) < doubleTapCssPx;
    lastTap = moved > restingCssPx || fingers.size > 0 || isDouble ? null : tap;
    if (isDouble) toPixelsOrBack(motion, pointOf(tap.x, tap.y));
  };

  const wheel = (event: WheelEvent): void => {
    const { stage, figures } = motion;
    if (stage === null || figures === null || isControl(event.target, element)) return;
    event.preventDefault();
    const factor = wheelFactor(event);
    const point = pointOf(event.clientX, event.clientY);
    const spot = turn !== null && isSameTurn(turn, event) ? turn.spot : spotAt(figures, point, stage);
    turn = { atMs: event.timeStamp, x: event.clientX, y: event.clientY, spot };
    // From where the way leads, so that each notch counts in full.
    const scale = (motion.target?.scale ?? figures.scale) * factor;
    motion.glideTo(zoomedAbout(figures, point, scale, stage, spot));
  };

  element.addEventListener('pointerdown', down);
  element.addEventListener('pointermove', move);
  element.addEventListener('pointerup', up);
  element.addEventListener('pointercancel', up);
  element.addEventListener('wheel', wheel, { passive: false });
  return () => {
    element.removeEventListener('pointerdown', down);
    element.removeEventListener('pointermove', move);
    element.removeEventListener('pointerup', up);
    element.removeEventListener('pointercancel', up);
    element.removeEventListener('wheel', wheel);
  };
}

/** Pixel for pixel at a spot, or back to the whole picture from there. */
function toPixelsOrBack(motion: ZoomMotion, point: PointDevicePx): void {
  const { stage, figures, target } = motion;
  if (stage === null || figures === null) return;
  // The spot stays under the hand.
  motion.glideTo(target?.scale === 1 ? null : zoomedAbout(figures, point, 1, stage));
}

/** The middle of all fingers and how far they are apart, CSS pixels; 0 for one. */
function handOf(fingers: ReadonlyMap<number, Finger>): { x: number; y: number; spread: number } {
  const all = [...fingers.values()];
  const x = all.reduce((sum, finger) => sum + finger.x, 0) / all.length;
  const y = all.reduce((sum, finger) => sum + finger.y, 0) / all.length;
  const spread = all.reduce((sum, finger) => sum + Math.hypot(finger.x - x, finger.y - y), 0) / all.length;
  return { x, y, spread };
}

function isSameTurn(turn: Turn, { timeStamp, clientX, clientY }: WheelEvent): boolean {
  const apart = Math.hypot(clientX - turn.x, clientY - turn.y);
  return timeStamp - turn.atMs < sameTurnMs && apart < sameTurnCssPx;
}

function wheelFactor({ deltaY, deltaMode, ctrlKey }: WheelEvent): number {
  const px = deltaY * (deltaMode === 1 ? wheelLinePx : deltaMode === 2 ? wheelPagePx : 1);
  const factor = Math.exp(-px * (ctrlKey && deltaMode === 0 ? perPadPx : perWheelPx));
  return Math.min(Math.max(factor, 1 / wheelFactorMax), wheelFactorMax);
}

/** Buttons and the overview lie over the picture and are not the picture. */
function isControl(target: EventTarget | null, element: HTMLElement): boolean {
  return target instanceof Element && target !== element && !target.matches('canvas.picture');
}
