import { type Job, listedShots, writeShotList } from '../../job/index.ts';
import { jobShape } from './job-shape.ts';

/** The listed shots as a file that can be taken in again; baselines stay with the day. */
export function exportShots(job: Job, format: 'csv' | 'json'): string {
  if (format === 'csv') return writeShotList(listedShots(job));
  const shots = jobShape(job).shots.map(({ baselines: _baselines, lookId: _lookId, ...shot }) => shot);
  return `${JSON.stringify({ shots }, null, 2)}\n`;
}
