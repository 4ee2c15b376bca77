/** What is said of a target that counts, or could. */

type Figures = Readonly<Record<string, number>>;

/** What the target measured: how true colours are without it, how grey its greys, how good a matrix it makes. */
export function targetWorthPhrase(figures: Figures): string {
  const { meanDeltaE00, neutralDuv, neutralDeltaK, profileFitDeltaE00, profileLeaveOneOutDeltaE00 } = figures;
  const now =
    meanDeltaE00 === undefined
      ? 'The colours of this camera are not known.'
      : `By the camera’s own balance and matrix: mean ${meanDeltaE00.toFixed(1)} ΔE00.`;
  const greys =
    neutralDuv === undefined || neutralDeltaK === undefined
      ? ''
      : ` Its greys are off by ${signed(neutralDuv, 4)} Duv and ${signed(neutralDeltaK, 0)} K.`;
  const profile =
    profileFitDeltaE00 === undefined || profileLeaveOneOutDeltaE00 === undefined
      ? ' No matrix can be made from it: too many of its patches have lost light.'
      : ` A matrix made from it leaves ${profileLeaveOneOutDeltaE00.toFixed(1)} ΔE00 on patches it was not made from (${profileFitDeltaE00.toFixed(1)} on its own).`;
  return `${now}${greys}${profile}`;
}

/** That it counts, since when, and what for. */
export function countedPhrase(camera: string, since: string, hasProfile: boolean): string {
  return hasProfile
    ? `It counts: raws of ${camera} from ${since} on are balanced on it and rendered by its matrix.`
    : `It counts: frames of ${camera} from ${since} on are held against it. They are rendered as shot, since no matrix could be made.`;
}

/** `+0.0021`, `−310`, `0`: a minus as wide as a plus. */
function signed(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  if (Number(text) === 0) return (0).toFixed(digits);
  return `${value < 0 ? '−' : '+'}${text}`;
}
