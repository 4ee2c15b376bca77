import { partsPhrase } from './look-words.ts';

/** Names of things on the Look page. What its numbers are called stands in look-words.ts. */
export const lookLabels = {
  title: 'Look',
  toSet: 'Set',
  toLook: 'Work on its look',
  picture: 'The picture with this look',
  instruments: 'Instruments',
  undo: 'Undo',
  redo: 'Redo',
  before: 'Before',
  edge: 'Edge between before, at the left, and now',
  neutral: 'nothing turned',
  add: 'Put it in',
  leaveOut: 'Leave it out',
  balance: 'Balance',
  exposure: 'Exposure',
  curve: 'Curve',
  hues: 'Hues',
  channels: 'Slope, offset, power',
  monochrome: 'Black and white',
  tint: 'Split tint',
  detail: 'Detail',
  grain: 'Grain',
  geometry: 'Straighten, crop',
  target: 'Target',
  versions: 'Versions',
  asShot: 'as the camera had it',
  ofTarget: 'by the target',
  pointedAt: 'by something neutral',
  byTemperature: 'by temperature',
  takeAsShot: 'As shot',
  takeTarget: 'By the target',
  pickNeutral: 'Point at something neutral',
  picking:
    'Click on something grey or white. Arrows (with Shift ten times as far) and Enter do it too; Escape leaves it.',
  uvFigure: 'Balance: arrows move the light, up is greener',
  daylight: 'daylight',
  planck: 'black body',
  curveFigure: 'Display density over log exposure, in stops about 18 % grey',
  stopsAxis: 'stops about 18 % grey',
  densityAxis: 'density',
  noCurve: 'There is no curve: scene light is shown as it is, cut at white.',
  blackGiven: 'Give black a density',
  blackLeft: 'Black without light',
  addBand: 'Add a band',
  removeBand: 'Take the band away',
  noBands: 'No band yet. Each has a hue in its middle and fades out at its reach.',
  chosenBand: 'The band that is turned',
  ruleKeys: 'Arrows turn it; Enter types its figure',
  red: 'red',
  green: 'green',
  blue: 'blue',
  across: 'across',
  down: 'down',
  flipNone: 'not turned over',
  flipLeftRight: 'left and right',
  flipTopBottom: 'top and bottom',
  flip: 'Turned over',
  crop: 'Crop',
  noCrop: 'No crop',
  turnCrop: 'Turn the ratio',
  cropOnPicture: 'Set it on the picture',
  croppingHere:
    'Drag the frame to move it, a corner to size it. With keys: arrows move it (with Shift ten times as far), + and - size it, Enter leaves.',
  lines: 'Parallels',
  drawLines: 'Draw two parallels',
  drawingLines:
    'Draw along one edge that should be upright or level, then along its parallel. By keys: arrows move the cross, with Shift ten times as far, Enter sets each end, Escape goes back.',
  lineTooShort: 'That was too short for a line: draw along more of the edge.',
  lineTooShortYet: 'That is too short for a line: move the cross further along the edge, then Enter.',
  firstLineBegun: 'The first line is begun: set its other end.',
  firstLineDone: 'The first line is drawn: begin its parallel.',
  secondLineBegun: 'The parallel is begun: set its other end.',
  removeLines: 'Take them away',
  smoothing: 'Noise smoothing',
  acutance: 'Acutance',
  name: 'Name',
  description: 'What it is for',
  save: 'Save as a new version',
  saveShort: 'Save …',
  saving: 'Saving …',
  saveHint: 'Nothing is overwritten: each time there is one version more.',
  saved: 'Saved.',
  open: 'Work on it',
  show: 'Show before',
  compare: 'Side by side',
  oneMore: 'Choose one more to see the two side by side.',
  comparedTruth: 'Two saved versions, each as the station renders it',
  comparedLead: 'Escape goes back to the look at hand.',
  copyTo: 'Give it to …',
  give: 'Give',
  giveHint: 'Shots take the version that was saved last; one undo takes it back.',
  given: 'Given.',
  saveFirst: 'Save it first: what is given is a saved version.',
  onItsWay: 'The station renders it …',
  toFrame: 'this frame',
  toJob: 'the whole job',
  nothingKept: 'No look is kept yet. The first one that is saved stands here.',
  loading: 'The picture is on its way.',
  earlierStill: 'Still the picture before; this one is on its way.',
  compiling: 'Nearly as delivered: the finer table is being made.',
  failed: 'The light of this picture did not come through.',
  again: 'Try again',
  noFrames: 'There is no frame yet. The first one that has arrived comes up here.',
  noFrame: 'This frame is not known, or is not here any more.',
  notYet: 'This frame is still on its way; it comes up here when it is rendered.',
  cannot: 'There is no picture of this frame to put a look on.',
  raster:
    'The camera sent this picture finished, without a raw: looks are put on raws only. What is seen here is a try.',
  asDelivered: 'As delivered',
  cropping: 'The whole frame; what is dark is cut away when it is delivered',
  nearlyDelivered: 'As delivered, drawn a little less finely',
  asRendered: 'As delivered, rendered by the station',
  inForce: 'Look',
  ownTakenBack: 'As its shot or job',
  notOnThis:
    'The camera sent this picture finished, without a raw, so no look is put on it. For looks, let the camera send raws, or both.',
  renderedSoon: 'The picture is still that of an earlier look; it is rendered again.',
  calledOff: 'Its rendering was called off.',
  callOff: 'Call it off',
  renderAfterAll: 'Render it',
  rendering: 'The station renders it …',
  tryFailed: 'The station did not render it; what is seen leaves those parts out.',
  noTarget:
    'No target was looked for in this frame, since it was taken as something else. If a 24-patch target is in it, say so, and it is held against this look here.',
  takeAsTarget: 'It shows a target',
  targetUnread:
    'This frame was taken as a target, but no 24-patch target was read in it. Photograph one that is sharp and fills a good part of the frame.',
  toPicture: 'To the picture',
  toInstruments: 'To the instruments',
  targetHint: 'Left what the target is, right what this look makes of it; the figure is CIEDE2000.',
  targetIntent: 'A look that is meant to please is far from the target by intent.',
  patch: 'Patch',
  inSoftware: 'This browser has no WebGL 2: pictures follow more slowly.',
  whole: 'Whole',
  closely: 'Closer',
  tilesFailed: 'Part of the picture at full size did not come through.',
  panning: 'The part that is seen: arrows move over the picture',
} as const;

/** "3 changes since version 2" and the like. */
export function lookStandPhrase(name: string, version: number | null, changes: number): string {
  const of = version === null ? name : `${name}, version ${version}`;
  if (changes === 0) return of;
  return `${of}, ${changes === 1 ? '1 change' : `${changes} changes`} since`;
}

/** "Delivery will differ: grain, acutance". `parts` are member names, parted by blanks. */
export function willDifferPhrase(parts: string): string {
  return `Delivery will differ: ${partsPhrase(parts)}`;
}

/** "Before: Evening, version 2, cut and turned as now, still without grain". `parts` as in {@link willDifferPhrase}. */
export function beforePhrase(name: string, version: number | null, isRecut: boolean, parts: string): string {
  const cut = isRecut ? ', cut and turned as now' : '';
  const without = parts === '' ? '' : `, still without ${partsPhrase(parts)}`;
  return `Before: ${lookStandPhrase(name, version, 0)}${cut}${without}`;
}

/** "This is version 2 already: nothing was saved." */
export function alreadyPhrase(version: number): string {
  return `It is version ${version} already; none was added.`;
}

/** "version 3, 2 Oct 2026, 14:02, Lena". */
export function versionPhrase(version: number, savedAt: string, savedBy: string): string {
  return [`version ${version}`, savedAt, savedBy].filter((part) => part !== '').join(', ');
}

/** "Mean 2.1, worst 5.3 (patch 14)". */
export function patchesPhrase(mean: number, worst: number, patch: number): string {
  return `Mean ${mean.toFixed(1)}, worst ${worst.toFixed(1)} (patch ${patch})`;
}

/** "Pixel for pixel: 3 of 8 pieces are here". */
export function piecesPhrase(here: number, of: number): string {
  return `Pixel for pixel: ${here} of ${of} pieces are here.`;
}

/** "Band 2 at 145°". */
export function bandPhrase(place: number, hueDeg: number): string {
  return `Band ${place} at ${Math.round(hueDeg)}°`;
}

/** "Exposure, figure". */
export function figureOfPhrase(name: string): string {
  return `${name}, figure`;
}
