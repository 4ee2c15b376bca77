import { directionPhrase } from './english-sharp.ts';
import { figurePhrase } from './phrases.ts';

/** Headings, switches and reasons of the readings that stand beside the picture. */
export const readingLabels = {
  close: 'Close',
  sheet: 'Readings: pull or press for more or less of them',
  placedOtherwise:
    'Its look cuts, turns or flips this picture, and where to is not known until it is rendered again. Until then nothing is laid over it.',
  spot: 'The spot that has to be sharp',
  pointOut: 'Point it out',
  pointingOut: 'Click on the picture',
  onward: 'and for the shot from here on',
  takeBack: 'Take it back',
  spotNotKnown: 'Nobody pointed one out.',
  spotEarlier: 'It was pointed out on an earlier frame of the shot.',
  spotOnFrame: 'It was pointed out on this frame.',
  spotOnward: 'It was pointed out on this frame, for the shot from here on.',
  spotByCamera: 'The camera said where it focused.',
  pickSpot:
    'Spot that has to be sharp: arrows move it (with Shift ten times as far), Enter takes it, Escape leaves it',
  overPicture: 'Over the picture',
  keyLay: 'its map over the picture, and off',
  keyGhost: 'the reference as a ghost, as a difference',
  reference: 'The reference',
  ghost: 'Ghost',
  difference: 'Difference',
  opacity: 'How much of it',
  noReference: 'This shot has no reference and no layout picture.',
  isReference: 'This frame is the reference itself.',
  referenceLoads: 'The reference is on its way.',
  referenceFailed: 'The picture of the reference cannot be shown.',
  ghostHelp: 'It lies over the picture as if drawn on glass.',
  differenceHelp: 'Black is where both are the same; what shines has changed or moved.',
  loading: 'The readings are on their way.',
  notLoaded: 'The readings did not come through; they are asked for again.',
  notRead: 'The pixels of this frame have not been read yet.',
  preliminary: 'Read on the camera’s preview: preliminary.',
  sharpMap: 'Where it is sharp',
  edge: 'The edge',
  blur: 'Kind of blur',
  depth: 'Depth of field',
  noEdge: 'No straight edge in this frame.',
  noEdgeAtSpot: 'No straight edge at the spot.',
  dark: 'dark',
  bright: 'bright',
  pixelMarks: 'The marks below it are pixels of the frame.',
  stops: 'Light by stops about 18 % grey',
  lost: 'Lost light',
  nothingLost: 'No channel has lost light.',
  drift: 'Light of the last frames',
  noDrift: 'Only one frame of this shot so far: nothing to hold it against.',
  noLight: 'The light of this frame cannot be held against others.',
  channels: { red: 'Red', green: 'Green', blue: 'Blue' },
  free: 'free',
  patches: 'The target, patch by patch',
  patchesByOwn:
    'These are by the camera’s own balance and matrix; the frame is rendered by the target that counts.',
  noTarget: 'No target was read in this frame.',
  targetFor: 'The target for this light',
  letTargetCount: 'Let it count from here on',
  targetNoLonger: 'Let it count no longer',
  targetHelp:
    'Raws of this camera from this frame on are then balanced on it and rendered by its matrix. After a change of light, photograph it again.',
  targetNeedsJob: 'A target counts within a job: move the frame to one first.',
  scale: 'Millimetres',
  markPoints: 'Mark two points',
  markingPoints: 'Click on both ends',
  pickFirstPoint:
    'First of two points: arrows move it (with Shift ten times as far), Enter takes it, Escape leaves it',
  pickSecondPoint:
    'Second of two points: arrows move it (with Shift ten times as far), Enter takes it, Escape leaves it',
  pointsApart: 'The way from one point to the other on the set:',
  patchesApart:
    'By the target in this frame: from the left edge of its first patch to that of its sixth, by a ruler:',
  takeLength: 'Take it',
  scaleNotHere: 'It says nothing of this frame: another camera took it, or another focal length.',
  place: 'How it lies',
  placeNotYet: 'It is measured against the reference in a moment.',
  changedThere: 'The double circle is about where something is gone, covered or new.',
  noPlace: 'Neither a reference nor a subject before a plain backdrop: there is nothing to draw.',
} as const;

const missingNames = {
  focal: 'its focal length',
  aperture: 'its aperture',
  distance: 'the distance it focused at',
  format: 'the size of its sensor',
} as const;

/** How large the ring around an arrow is meant. */
export function ringPhrase(px: number): string {
  return `The ring is ${px} px of the frame.`;
}

/** Why depth of field is not told. */
export function depthMissingPhrase(missing: readonly (keyof typeof missingNames)[]): string {
  const names = missing.map((each) => missingNames[each]);
  const last = names.at(-1) ?? '';
  const list = names.length < 2 ? last : `${names.slice(0, -1).join(', ')} and ${last}`;
  return `The camera did not say ${list}.`;
}

/** `1.70 m`, `42 cm`: as one would measure it on the set. */
export function distancePhrase(mm: number): string {
  if (mm < 995) return `${(mm / 10).toFixed(mm < 100 ? 1 : 0)} cm`;
  return `${(mm / 1000).toFixed(mm < 9995 ? 2 : 1)} m`;
}

export function depthPhrase(field: {
  readonly nearMm: number;
  readonly farMm: number | null;
  readonly distanceMm: number;
  readonly withDiffraction: { readonly nearMm: number; readonly farMm: number | null } | null;
}): string {
  const { nearMm, farMm, distanceMm, withDiffraction } = field;
  const plain = `Focused at ${distancePhrase(distanceMm)}, sharp ${rangePhrase(nearMm, farMm)}`;
  if (withDiffraction === null)
    return `${plain}; at this aperture diffraction blurs more than that all over.`;
  const range = rangePhrase(withDiffraction.nearMm, withDiffraction.farMm);
  return range === rangePhrase(nearMm, farMm)
    ? `${plain}; diffraction changes nothing of that.`
    : `${plain}, with diffraction ${range}.`;
}

function rangePhrase(nearMm: number, farMm: number | null): string {
  return farMm === null
    ? `from ${distancePhrase(nearMm)} on`
    : `from ${distancePhrase(nearMm)} to ${distancePhrase(farMm)}`;
}

/** `0.04 %`, `1.2 %`, `35 %`; nothing is `0 %`, and what is there is never said to be nothing. */
export function percentPhrase(percent: number): string {
  if (percent === 0) return '0 %';
  if (percent < 0.005) return 'under 0.01 %';
  return `${percent.toFixed(percent < 0.995 ? 2 : percent < 9.95 ? 1 : 0)} %`;
}

/** `+0.12 EV`, `−1.5 EV`, `±0 EV`. */
export function evPhrase(ev: number): string {
  const text = Math.abs(ev).toFixed(Math.abs(ev) < 0.995 ? 2 : 1);
  if (Number(text) === 0) return '±0 EV';
  return `${ev < 0 ? '−' : '+'}${text} EV`;
}

/** `0.04 % lost`: of a channel. */
export function lostSharePhrase(percent: number): string {
  return `${percentPhrase(percent)} lost`;
}

/** `−2`, `0`, `+6`: at a mark of a scale; its title names the unit. */
export function stopsMarkPhrase(stops: number): string {
  return stops > 0 ? `+${stops}` : String(stops).replace('-', '−');
}

export function sharpMapPhrase(
  widthsPx: readonly number[],
  tiles: number,
  goodPx: number,
  badPx: number,
): string {
  if (widthsPx.length === 0) return readingLabels.noEdge;
  const good = widthsPx.filter((width) => width <= goodPx).length;
  const bad = widthsPx.filter((width) => width > badPx).length;
  const range = `edges from ${figurePhrase(Math.min(...widthsPx), 'px')} to ${figurePhrase(Math.max(...widthsPx), 'px')}`;
  return `${widthsPx.length} of ${tiles} parts have an edge: ${good} sharp, ${bad} soft, ${range}.`;
}

/** `withMovementPx`: how wide the verdict takes its edges to be with a movement that this edge does not show; null for none. */
export function edgePhrase(widthPx: number, goodPx: number, withMovementPx: number | null): string {
  const moved =
    withMovementPx === null
      ? ''
      : ` This edge lies along the movement; with it the verdict counts ${figurePhrase(withMovementPx, 'px')}.`;
  return `From 10 to 90 % of the light in ${figurePhrase(widthPx, 'px')}; up to ${figurePhrase(goodPx, 'px')} is sharp (grey).${moved}`;
}

export function spotPhrase(teller: 'given' | 'camera' | 'sharpest', edges: number): string {
  const where = {
    given: 'at the spot you pointed out',
    camera: 'where the camera focused',
    sharpest: 'where the picture is sharpest',
  }[teller];
  return `Read ${where}, ${edges === 1 ? 'on one edge' : `on ${edges} edges`}.`;
}

export function blurPhrase(blur: {
  readonly kind: 'movement' | 'movement-elsewhere' | 'focus' | 'unknown';
  readonly directionDegrees: number | null;
  readonly lengthPx: number | null;
}): string {
  if (blur.kind === 'movement')
    return `Movement of ${figurePhrase(blur.lengthPx ?? 0, 'px')}, ${directionPhrase(blur.directionDegrees ?? 0)}.`;
  if (blur.kind === 'movement-elsewhere')
    return `Edges elsewhere look moved by ${figurePhrase(blur.lengthPx ?? 0, 'px')}, ${directionPhrase(blur.directionDegrees ?? 0)}; here none lies across that way.`;
  return blur.kind === 'focus'
    ? 'The same every way: what blur there is comes from focus or the lens.'
    : 'The edges here do not tell movement from focus.';
}

export function targetPhrase(target: {
  readonly mean: number | null;
  readonly percentile90: number | null;
  readonly max: number | null;
}): string {
  const { mean, percentile90, max } = target;
  const split = 'Upper half published, lower half measured, the figure their ΔE00.';
  if (mean === null || percentile90 === null || max === null)
    return `${split} The colours of this camera are not known, so nothing can be compared.`;
  return `${split} Mean ${mean.toFixed(1)}, nine of ten up to ${percentile90.toFixed(1)}, largest ${max.toFixed(1)}.`;
}

export function lostPhrase(lost: {
  readonly saturatedPercent: number;
  readonly islandsPercent: number;
  readonly whiteBackdropPercent: number;
}): string {
  const { saturatedPercent, islandsPercent, whiteBackdropPercent } = lost;
  if (saturatedPercent + islandsPercent + whiteBackdropPercent === 0) return readingLabels.nothingLost;
  const parts = [
    `${percentPhrase(saturatedPercent)} of the picture in areas`,
    `${percentPhrase(islandsPercent)} in small reflections`,
    ...(whiteBackdropPercent > 0 ? [`${percentPhrase(whiteBackdropPercent)} in the white backdrop`] : []),
  ];
  return `${parts.join(', ')}.`;
}

export function channelPhrase(
  channel: 'red' | 'green' | 'blue',
  reading: { readonly saturatedPercent: number; readonly headroomStops: number },
): string {
  const { saturatedPercent, headroomStops } = reading;
  return `${readingLabels.channels[channel]}: ${percentPhrase(saturatedPercent)} lost, ${headroomStops.toFixed(1)} stops free above its bright end.`;
}

export function driftPhrase(
  baseline: { readonly kind: 'reference' | 'middle'; readonly name: string | null },
  frames: readonly { readonly name: string; readonly ev: number | null }[],
  badEv: number,
): string {
  const from =
    baseline.kind === 'reference' && baseline.name !== null
      ? `the reference ${baseline.name}`
      : 'the middle of these frames';
  const own = frames.at(-1)?.ev ?? null;
  const out = frames.filter(({ ev }) => ev !== null && Math.abs(ev) > badEv);
  const now = own === null ? 'This frame cannot be compared' : `This frame ${evPhrase(own)}`;
  const others =
    out.length === 0
      ? ''
      : ` Far off: ${out
          .slice(-3)
          .map(({ name, ev }) => `${name} ${evPhrase(ev ?? 0)}`)
          .join(', ')}.`;
  return `${now} from ${from}.${others}`;
}
