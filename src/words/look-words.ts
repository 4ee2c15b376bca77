/** How a number of a look is called and what it does, in words for a page, a help text and the published schema. */
export interface ParameterWords {
  readonly name: string;
  /** One sentence. */
  readonly about: string;
}

/** Of every parameter of the room `look`, under its name there; a test holds that none is missing. */
export const parameterWords: Readonly<Record<string, ParameterWords>> = {
  exposureEv: { name: 'Exposure', about: 'Stops added to the light of the scene.' },
  'balance.temperatureK': {
    name: 'Colour temperature',
    about: 'Correlated colour temperature of the light that is to look white, in kelvin.',
  },
  'balance.duv': {
    name: 'Duv',
    about:
      'How far that light lies from the Planckian locus: above zero towards green, below towards magenta.',
  },
  'balance.rgb': {
    name: 'Neutral',
    about: 'Scene light of something neutral in the picture, linear Rec. 2020, balanced as shot.',
  },
  flare: { name: 'Flare', about: 'Stray light that is taken out of the dark tones, as a share of white.' },
  falloffEv: {
    name: 'Falloff',
    about: 'Stops added at the corners, fading towards the middle: above zero against a lens that darkens.',
  },
  'curve.pivot': {
    name: 'Pivot',
    about: 'Scene light that is shown as the same display light; 0.18 is 18 % grey.',
  },
  'curve.gamma': {
    name: 'Gamma',
    about: 'Slope of the curve’s straight part, at the pivot, on logarithmic axes.',
  },
  'curve.toeEv': {
    name: 'Toe',
    about: 'Stops below the pivot where the toe begins: the slope goes over to 1, so that black stays black.',
  },
  'curve.shoulder': {
    name: 'Shoulder',
    about: 'How late and how sharply the shoulder bends towards white; 1 is soft, 4 abrupt.',
  },
  'curve.whiteEv': { name: 'White', about: 'Stops above the pivot where display white is reached.' },
  'curve.densityRange': {
    name: 'Density range',
    about: 'Density of the deepest black above white: 2 is a black of a hundredth of white.',
  },
  'cdl.slope': { name: 'Slope', about: 'Factor on each channel of the encoded picture (ASC CDL).' },
  'cdl.offset': { name: 'Offset', about: 'Added to each channel after the slope (ASC CDL).' },
  'cdl.power': { name: 'Power', about: 'Power each channel is raised to after slope and offset (ASC CDL).' },
  'cdl.saturation': {
    name: 'Saturation',
    about: 'Factor on the distance of each channel from luma; 0 is grey (ASC CDL).',
  },
  'bands.hueDeg': { name: 'Hue', about: 'Hue angle in OKLCh at the middle of the band.' },
  'bands.reachDeg': {
    name: 'Reach',
    about: 'Degrees to each side where the band fades to nothing.',
  },
  'bands.lightness': {
    name: 'Lightness',
    about: 'How much lighter the band’s colours become, in parts of their own chroma.',
  },
  'bands.chroma': { name: 'Chroma', about: 'Share of chroma added to the band’s colours, or taken away.' },
  'bands.turnDeg': { name: 'Turn', about: 'Degrees by which the band’s hues are turned.' },
  'monochrome.amount': {
    name: 'Black and white',
    about: 'How far colours are replaced by greys: 1 is a black-and-white picture.',
  },
  'monochrome.bands.hueDeg': { name: 'Hue', about: 'Hue angle in OKLCh at the middle of the band.' },
  'monochrome.bands.reachDeg': {
    name: 'Reach',
    about: 'Degrees to each side where the band fades to nothing.',
  },
  'monochrome.bands.ev': {
    name: 'Weight',
    about: 'Stops by which the greys of the band’s colours become lighter, as behind a filter.',
  },
  'tint.darkHueDeg': { name: 'Hue of the dark tones', about: 'Hue angle in OKLCh of the dark tones’ tint.' },
  'tint.darkChroma': { name: 'Tint of the dark tones', about: 'OKLCh chroma laid over the dark tones.' },
  'tint.lightHueDeg': {
    name: 'Hue of the light tones',
    about: 'Hue angle in OKLCh of the light tones’ tint.',
  },
  'tint.lightChroma': { name: 'Tint of the light tones', about: 'OKLCh chroma laid over the light tones.' },
  'tint.crossing': { name: 'Crossing', about: 'Lightness (OKLCh) at which the two tints meet.' },
  'smoothing.luma': {
    name: 'Smoothing of lightness',
    about: 'Differences of lightness that count as noise, in standard deviations of the picture’s own noise.',
  },
  'smoothing.chroma': {
    name: 'Smoothing of colour',
    about: 'Differences of colour that count as noise, in standard deviations of the picture’s own noise.',
  },
  'acutance.widthPx': {
    name: 'Width',
    about: 'Standard deviation of the blur that acutance works against, in pixels at full size.',
  },
  'acutance.strength': { name: 'Strength', about: 'How much of the detail of that width is added.' },
  'acutance.gate': {
    name: 'Noise gate',
    about: 'Detail below this many standard deviations of the picture’s noise is left alone.',
  },
  'grain.sizePx': { name: 'Grain size', about: 'Diameter of a grain in pixels at full size.' },
  'grain.density': {
    name: 'Grain',
    about: 'Granularity: standard deviation of density in an even mid-grey.',
  },
  'geometry.straightenDeg': {
    name: 'Straighten',
    about: 'Degrees by which the picture is turned clockwise, cut to stay a rectangle.',
  },
  'geometry.crop.across': { name: 'Across', about: 'First number of the ratio, as in 4 to 5.' },
  'geometry.crop.down': { name: 'Down', about: 'Second number of the ratio.' },
  'geometry.crop.size': {
    name: 'Size',
    about: 'Share of the largest crop of that ratio that the picture holds.',
  },
  'geometry.crop.centreX': {
    name: 'Centre across',
    about: 'Middle of the crop, as a share of the original’s width.',
  },
  'geometry.crop.centreY': {
    name: 'Centre down',
    about: 'Middle of the crop, as a share of the original’s height.',
  },
  'geometry.lines': {
    name: 'Parallels',
    about:
      'Two lines that are parallel on the thing itself, their ends as shares of the original’s width and height.',
  },
};

/** Units as they stand behind a number; empty where a number has none. */
export const unitWords: Readonly<Record<string, string>> = {
  ev: 'EV',
  kelvin: 'K',
  duv: '',
  share: '',
  factor: '',
  density: 'D',
  degrees: '°',
  px: 'px',
  chroma: '',
  sigma: 'σ',
};

/** The parts of a look as a sentence names them. */
const partNames: ReadonlyMap<string, string> = new Map([
  ['balance', 'balance'],
  ['exposureEv', 'exposure'],
  ['flare', 'flare'],
  ['curve', 'characteristic curve'],
  ['bands', 'bands of hue'],
  ['monochrome', 'black and white'],
  ['tint', 'split tint'],
  ['falloffEv', 'falloff'],
  ['smoothing', 'smoothing'],
  ['acutance', 'acutance'],
  ['grain', 'grain'],
  ['geometry', 'straightening and crop'],
]);

/** "smoothing, grain" of their member names, parted by blanks; a name that is none is said as it is. */
export function partsPhrase(parts: string): string {
  return parts
    .split(' ')
    .map((part) => partNames.get(part) ?? part)
    .join(', ');
}
