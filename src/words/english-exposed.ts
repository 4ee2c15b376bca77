import {
  type Args,
  exposureTimePhrase,
  figurePhrase,
  numberArg,
  type SentenceTable,
  textArg,
} from './phrases.ts';
import { settingSentences } from './setting-sentences.ts';

/** What is said of exposure. Codes `exposed.*` come from judge. */
export const exposedSentences: SentenceTable = {
  'exposed.good': (args) => `Exposed right: nothing is lost, ${stops(args)} EV are free above the brightest.`,
  'exposed.as-reference': (args) =>
    `Exposed as the reference, ${evPhrase(numberArg(args, 'ev'))}, and nothing is lost.`,
  'exposed.clipped': (args) =>
    `Light is lost in ${percentPhrase(numberArg(args, 'percent'))} of the picture${channelPhrase(textArg(args, 'channel'))}.`,
  'exposed.strobe-dark': (args) =>
    `The light fell by ${size(args)} EV from one frame to the next: a strobe may not have fired.`,
  'exposed.too-small': () =>
    'Exposure cannot be told: the picture is too small for any part of it to be measured.',
  'exposed.strobe-off-reference': (args) =>
    `The light is ${brighterPhrase(args)} than the reference’s, and not everywhere alike: a strobe may not have fired${timePhrase(args)}.`,
  'exposed.off-reference': (args) =>
    `The light is ${brighterPhrase(args)} than the reference’s${timePhrase(args)}.`,
  'exposed.light-jumped': (args) =>
    `The light is ${brighterPhrase(args)} than that of the ${numberArg(args, 'frames')} frames before.`,
  'exposed.light-drifts': (args) =>
    `The light drifts: ${brighterPhrase(args)} than ${numberArg(args, 'frames')} frames ago.`,
  'exposed.banding': (args) => {
    const hertz = numberArg(args, 'hertz');
    return `Stripes of ${size(args)} EV across the picture: a lamp pulses${pulsePhrase(hertz)}. Use the mechanical shutter, or a time that fits the mains.`;
  },
  'exposed.stripes': (args) =>
    `Stripes of ${size(args)} EV across the picture: what is photographed has them itself, or a lamp pulses${pulsePhrase(numberArg(args, 'hertz'))}. Against a lamp’s: the mechanical shutter, or a time that fits the mains.`,
  'exposed.dark': (args) => `Dark: the brightest lies ${stops(args)} EV below what the sensor holds.`,
  'exposed.black': () =>
    'Black: no part of the picture stands out of noise. Look for a lens cap, a flash that did not fire, a shutter that is too short.',
  'exposed.backdrop-grey': (args) =>
    `${percentPhrase(numberArg(args, 'percent'))} of the backdrop is not yet white.`,
  'exposed.backdrop-uneven': (args) => `The backdrop differs by ${size(args)} EV from corner to corner.`,
  ...settingSentences,
  'exposed.preview': () => 'Only the camera’s preview is here: exposure is measured on the whole file.',
  'exposed.preview-warns': () =>
    'Looks wrong in the camera’s preview; exposure is measured when the whole file is here.',
};

/** The mains' own frequencies, and how far a reading of twice as much may lie from them: half of what tells them apart. */
const mainsHertz = [50, 60] as const;
const mainsShare = 0.09;

/** ` at 100 Hz, with mains of 50 Hz`; a lamp brightens twice in a cycle. Nothing where the frequency is not known. */
function pulsePhrase(hertz: number): string {
  if (hertz <= 0) return '';
  const mains = mainsHertz.find((each) => Math.abs(hertz / (2 * each) - 1) < mainsShare);
  return ` at ${Math.round(hertz)} Hz${mains === undefined ? '' : `, with mains of ${mains} Hz`}`;
}

/** `; the exposure time is 1/60 s since the reference’s 1/125 s`, where the light differs and the time does too. */
function timePhrase(args: Args): string {
  const [was, is] = [numberArg(args, 'timeWas'), numberArg(args, 'timeIs')];
  return was > 0 && is > 0
    ? `; the exposure time is ${exposureTimePhrase(is)} since the reference’s ${exposureTimePhrase(was)}`
    : '';
}

function stops(args: Args): string {
  return numberArg(args, 'stops').toFixed(1);
}

function size(args: Args): string {
  const ev = Math.abs(numberArg(args, 'ev'));
  return ev.toFixed(ev < 0.995 ? 2 : 1);
}

function evPhrase(ev: number): string {
  if (Math.abs(ev) < 0.005) return 'to the hundredth of a stop';
  return `${ev < 0 ? '−' : '+'}${Math.abs(ev).toFixed(2)} EV`;
}

function brighterPhrase(args: Args): string {
  return `${size(args)} EV ${numberArg(args, 'ev') < 0 ? 'darker' : 'brighter'}`;
}

/** A share in as many digits as matter: `0.04 %`, `1.2 %`, `35 %`. */
function percentPhrase(percent: number): string {
  return `${percent.toFixed(percent < 0.995 ? 2 : percent < 9.95 ? 1 : 0)} %`;
}

function channelPhrase(channel: string): string {
  return channel === 'all' || channel === '' ? '' : `, in ${channel} alone`;
}

/** What a figure in EV is of, by the finding it belongs to: one unit means several things here. */
const figureMeanings: Readonly<Record<string, string>> = {
  'exposed.good': 'free',
  'exposed.dark': 'free',
  'exposed.as-reference': 'off',
  'exposed.off-reference': 'off',
  'exposed.strobe-dark': 'off',
  'exposed.light-jumped': 'off',
  'exposed.light-drifts': 'off',
};

/** The figure of Exposed on its card: `1.2 EV free` above the brightest, `−0.3 EV off` what it is held against. */
export function exposedFigurePhrase(code: string, value: number, unit: string): string {
  const meaning = unit === 'EV' ? figureMeanings[code] : undefined;
  const said = figurePhrase(value, unit);
  return meaning === undefined ? said : `${said} ${meaning}`;
}
