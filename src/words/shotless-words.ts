import type { ShotlessReason } from '../facts/index.ts';

/** Why a frame belongs to no shot, and what is done about it, beside the list of shots to choose from. */
export function shotlessSentence(reason: ShotlessReason): string {
  return `${sentences[reason]} ${chooseHere}`;
}

const chooseHere = 'Choose its shot here.';

const sentences: Readonly<Record<ShotlessReason, string>> = {
  'no-shots': 'In no shot: it came before the job’s first shot was named.',
  'no-current': 'In no shot: when it came no shot was the current one. The Set page says which one is.',
  'other-camera':
    'In no shot: when it came the current shot was set to another camera. The shot’s card on the Set page says which.',
  'by-hand': 'In no shot: somebody took it out of its shot, or into this job without one.',
  'by-slate': 'In no shot: the slate before it names none that takes this camera’s frames.',
  unknown: 'In no shot: it came to an earlier version of the station, which did not write down why.',
};

/**
 * Why so many frames each belong to no shot, the most first, and what is done about it with the buttons of the Sheet page.
 * Empty where there are none.
 */
export function shotlessPhrase(counts: ReadonlyMap<ShotlessReason, number>): string {
  const parts = [...counts].sort(([, one], [, other]) => other - one);
  if (parts.length === 0) return '';
  const said = parts.map(([reason, count]) => `${count} ${phrases[reason]}`).join(', ');
  const isOne = parts.length === 1 && parts[0]?.[1] === 1;
  return `${said}. ${counts.has('no-shots') ? namesThere : ''}${takeInHand(isOne)}`;
}

const namesThere = 'Shots are named on the Job page. ';
const takeInHand = (isOne: boolean): string =>
  `Take ${isOne ? 'it' : 'them'} in hand and choose “To a shot” below.`;

const phrases: Readonly<Record<ShotlessReason, string>> = {
  'no-shots': 'came before the first shot was named',
  'no-current': 'came while no shot was the current one',
  'other-camera': 'came while the current shot was another camera’s',
  'by-hand': 'put here by hand',
  'by-slate': 'put here by a slate',
  unknown: 'came to an earlier version, which did not write down why',
};
