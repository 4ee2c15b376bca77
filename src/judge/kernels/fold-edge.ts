import { sampleNumbers } from './edge-samples.ts';
import { edgeValue } from './fit-edge.ts';

/**
 * Folds the samples along the edge into one profile of what the fitted edge leaves over, in bins `binPx` wide about the
 * edge: `profile[k]` is the mean of bin k, whose middle lies at (k - (bins - 1) / 2) * binPx; `counts[k]` how many samples
 * it had, 0 for none.
 *
 * `stride`: as the samples were taken. Returns the mean square of the differences between neighbours of a row, halved: the noise of one sample, without what
 * the fit leaves over in general. -1 where there are none.
 */
export function foldEdge(
  samples: Float64Array,
  count: number,
  edge: Float64Array,
  binPx: number,
  stride: number,
  profile: Float64Array,
  counts: Float64Array,
): number {
  if (profile.length !== counts.length || samples.length < count * sampleNumbers) {
    throw new RangeError('foldEdge: sizes differ');
  }
  const bins = profile.length;
  const middle = (bins - 1) / 2;
  const near = 4.5 * stride * stride;
  profile.fill(0);
  counts.fill(0);
  let lastAcross = Number.NaN;
  let lastAlong = Number.NaN;
  let last = 0;
  let pairs = 0;
  let squares = 0;
  for (let at = 0; at < count * sampleNumbers; at += sampleNumbers) {
    const across = samples[at];
    const along = samples[at + 1];
    const d = across - edge[0] - edge[1] * along - 0.5 * edge[2] * along * along;
    const difference = samples[at + 2] - edgeValue(edge, d);
    const bin = Math.round(d / binPx + middle);
    if (bin >= 0 && bin < bins) {
      profile[bin] += difference;
      counts[bin] += 1;
    }
    const apart = (across - lastAcross) * (across - lastAcross) + (along - lastAlong) * (along - lastAlong);
    // Neighbours of a row are one or two samples apart; the next row begins elsewhere.
    if (apart < near) {
      squares += (difference - last) * (difference - last);
      pairs++;
    }
    lastAcross = across;
    lastAlong = along;
    last = difference;
  }
  for (let bin = 0; bin < bins; bin++) if (counts[bin] > 0) profile[bin] /= counts[bin];
  return pairs === 0 ? -1 : squares / (2 * pairs);
}
