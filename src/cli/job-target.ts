import { SetsideError } from '../base/index.ts';
import { type Job, job } from '../contract/index.ts';
import { countedPhrase, targetWorthPhrase } from '../words/index.ts';
import { dayAndTime } from './day-and-time.ts';
import { frameNamed } from './frame-named.ts';
import { framesOf } from './frames-of-job.ts';
import { aboutJob } from './job-refusals.ts';
import { callStation, sendJson } from './station-calls.ts';

/** The job after the change, and what is to be said of it. */
export interface CountedBy {
  readonly shown: Job;
  readonly lines: readonly string[];
}

/**
 * Lets the target in a frame count, or no longer. `words`: the frame's name or id. Rejects `no-frame`, `several-frames`, and
 * what the station refuses.
 */
export async function countTarget(
  station: string,
  code: string,
  words: string,
  gone: boolean,
): Promise<CountedBy> {
  const path = `/api/v1/jobs/${encodeURIComponent(code)}`;
  const before = job.parse(await (await aboutJob(code, callStation(station, path))).json());
  const { id, name } = frameNamed(code, await framesOf(station, code), words);
  if (gone && !before.targets.some(({ frame }) => frame === id)) {
    throw new SetsideError('no-target', `No target in ${name} counts in job ${code}`, {
      cure: `setside job target ${code} ${name} lets it count.`,
    });
  }
  const answer = gone
    ? callStation(station, `${path}/targets/${encodeURIComponent(id)}`, { method: 'DELETE' })
    : sendJson(station, 'POST', `${path}/targets`, { frame: id });
  const shown = job.parse(await (await aboutJob(code, answer)).json());
  const counted = shown.targets.find(({ frame }) => frame === id);
  if (counted === undefined) return { shown, lines: [`The target in ${name} counts no longer.`] };
  // Only now it is measured for certain.
  const { readings } = (await framesOf(station, code)).find((frame) => frame.id === id) ?? { readings: {} };
  const since = dayAndTime(Date.parse(counted.from));
  return {
    shown,
    lines: [
      `${name}: ${targetWorthPhrase(readings)}`,
      countedPhrase(counted.camera, since, counted.profile !== null),
    ],
  };
}
