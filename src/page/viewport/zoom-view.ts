import { fitBox, type SizeImagePx } from './fit-box.ts';

/** A size in device pixels. */
export interface SizeDevicePx {
  readonly widthDevicePx: number;
  readonly heightDevicePx: number;
}

/** A place in the free space, device pixels from its left top. */
export interface PointDevicePx {
  readonly xDevicePx: number;
  readonly yDevicePx: number;
}

/** Where the whole picture lies, device pixels from the free space's left top; it may reach far beyond. */
export interface RectDevicePx extends SizeDevicePx {
  readonly leftDevicePx: number;
  readonly topDevicePx: number;
}

/** How closely one looks, and at what. Shares, so that it means the same spot of the next frame. */
export interface ZoomView {
  /** Device pixels per pixel of the upright picture at full size: 1 is pixel for pixel. */
  readonly scale: number;
  /** What of the picture lies in the middle of the free space: 0 its left or top edge, 1 its right or bottom one. */
  readonly centreX: number;
  readonly centreY: number;
}

/** A place of the picture: shares of its width and height from its left top, which may leave 0 … 1. */
export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** The picture and the space it is looked at in. */
export interface ZoomStage {
  readonly picture: SizeImagePx;
  readonly free: SizeDevicePx;
}

/** Four device pixels for one: enough to count them on any screen. */
const scaleMax = 4;
/** A view this much larger than the whole picture's is the whole picture's: the hand that turns a wheel is coarse. */
const wholeSlack = 1.02;

/** All of the picture, as large as the free space allows. */
export function wholeView({ picture, free }: ZoomStage): ZoomView {
  const { widthDevicePx } = wholeBox(picture, free);
  return { scale: widthDevicePx / picture.widthPx, centreX: 0.5, centreY: 0.5 };
}

export function isWhole(view: ZoomView, stage: ZoomStage): boolean {
  const { scale } = wholeView(stage);
  return view.scale <= scale * wholeSlack && view.scale >= scale / wholeSlack;
}

/** Pixel for pixel, with a spot of the picture (shares) in the middle as far as its edges allow. */
export function pixelView(spot: Spot, stage: ZoomStage): ZoomView {
  return heldInside({ scale: 1, centreX: spot.x, centreY: spot.y }, stage);
}

/** The nearest view that shows no more surround than it must, between the whole picture and four to one. */
export function heldInside(view: ZoomView, stage: ZoomStage): ZoomView {
  const { picture, free } = stage;
  const whole = wholeView(stage).scale;
  const scale = clamp(view.scale, Math.min(1, whole), Math.max(scaleMax, whole));
  return {
    scale,
    centreX: centreInside(view.centreX, free.widthDevicePx / (picture.widthPx * scale)),
    centreY: centreInside(view.centreY, free.heightDevicePx / (picture.heightPx * scale)),
  };
}

/**
 * At another scale, with a spot of the picture under `point`: as a rule the one that lies there now. While an edge is in
 * sight it may not be possible; whoever keeps the spot has it under the point again as soon as it is.
 */
export function zoomedAbout(
  view: ZoomView,
  point: PointDevicePx,
  scale: number,
  stage: ZoomStage,
  spot: Spot = spotAt(view, point, stage),
): ZoomView {
  const { scale: held } = heldInside({ ...view, scale }, stage);
  return heldInside({ scale: held, ...centreFor(spot, point, held, stage) }, stage);
}

/** Moved so that the picture goes along with a hand that moves by so much. */
export function movedBy(view: ZoomView, by: PointDevicePx, stage: ZoomStage): ZoomView {
  const { picture } = stage;
  return heldInside(
    {
      scale: view.scale,
      centreX: view.centreX - by.xDevicePx / (picture.widthPx * view.scale),
      centreY: view.centreY - by.yDevicePx / (picture.heightPx * view.scale),
    },
    stage,
  );
}

/** What of the picture lies at a point. */
export function spotAt(view: ZoomView, point: PointDevicePx, stage: ZoomStage): Spot {
  const { picture, free } = stage;
  return {
    x: view.centreX + (point.xDevicePx - free.widthDevicePx / 2) / (picture.widthPx * view.scale),
    y: view.centreY + (point.yDevicePx - free.heightDevicePx / 2) / (picture.heightPx * view.scale),
  };
}

/**
 * Where the whole picture lies. Its left top is on whole device pixels: at 1:1 each of its pixels is one of the screen's,
 * and while a hand moves it nothing is smeared over two.
 */
export function placeOf(view: ZoomView, { picture, free }: ZoomStage): RectDevicePx {
  const widthDevicePx = picture.widthPx * view.scale;
  const heightDevicePx = picture.heightPx * view.scale;
  return {
    leftDevicePx: toWholePixel(free.widthDevicePx / 2 - view.centreX * widthDevicePx),
    topDevicePx: toWholePixel(free.heightDevicePx / 2 - view.centreY * heightDevicePx),
    widthDevicePx,
    heightDevicePx,
  };
}

/** The part of the picture in sight, in its pixels; never outside it. */
export interface SeenPart {
  readonly leftPx: number;
  readonly topPx: number;
  readonly rightPx: number;
  readonly bottomPx: number;
}

export function seenPart(view: ZoomView, stage: ZoomStage): SeenPart {
  const { picture, free } = stage;
  const rect = placeOf(view, stage);
  const [acrossPx, downPx] = [picture.widthPx / rect.widthDevicePx, picture.heightPx / rect.heightDevicePx];
  return {
    leftPx: clamp(-rect.leftDevicePx * acrossPx, 0, picture.widthPx),
    topPx: clamp(-rect.topDevicePx * downPx, 0, picture.heightPx),
    rightPx: clamp((free.widthDevicePx - rect.leftDevicePx) * acrossPx, 0, picture.widthPx),
    bottomPx: clamp((free.heightDevicePx - rect.topDevicePx) * downPx, 0, picture.heightPx),
  };
}

/** The box that `fitBox` gives, in device pixels. */
function wholeBox(picture: SizeImagePx, free: SizeDevicePx): RectDevicePx {
  const box = fitBox(picture, { widthCssPx: free.widthDevicePx, heightCssPx: free.heightDevicePx }, 1);
  const { widthDevicePx, heightDevicePx } = box;
  return { leftDevicePx: box.leftCssPx, topDevicePx: box.topCssPx, widthDevicePx, heightDevicePx };
}

/** `seen` is the share of the picture that the free space holds; more than 1 where there is surround beside it. */
function centreInside(centre: number, seen: number): number {
  return seen >= 1 ? 0.5 : clamp(centre, seen / 2, 1 - seen / 2);
}

function centreFor(
  spot: Spot,
  point: PointDevicePx,
  scale: number,
  { picture, free }: ZoomStage,
): Pick<ZoomView, 'centreX' | 'centreY'> {
  return {
    centreX: spot.x + (free.widthDevicePx / 2 - point.xDevicePx) / (picture.widthPx * scale),
    centreY: spot.y + (free.heightDevicePx / 2 - point.yDevicePx) / (picture.heightPx * scale),
  };
}

/** The noise of a few additions must not decide to which side a place goes that lies just between two pixels. */
const pixelNoise = 1e-6;

function toWholePixel(place: number): number {
  return Math.floor(place + 0.5 + pixelNoise);
}

function clamp(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), most);
}
