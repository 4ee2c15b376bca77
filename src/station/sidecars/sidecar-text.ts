import { createHash } from 'node:crypto';
import { markToXmpRating } from '../../facts/index.ts';
import type { Job } from '../../job/index.ts';
import { noInstance, sidecarTool, writeXmp } from '../../metadata/index.ts';
import type { FrameRow } from '../../register/index.ts';

/** The sidecar of a frame as it should be now. Its instance id is the hash of all the rest. */
export function sidecarText(row: Pick<FrameRow, 'id' | 'mark' | 'shot' | 'job'>, job: Job | null): string {
  const shot = job?.shots.find(({ id }) => id === row.shot);
  const facts = {
    rating: markToXmpRating[row.mark],
    title: shot?.name ?? '',
    description: shot?.description ?? '',
    event: job?.title ?? '',
    location: job?.place ?? '',
    keywords: [...(job === null ? [] : [job.code, job.client]), ...(shot === undefined ? [] : [shot.name])],
    identifier: row.id,
  };
  return writeXmp(facts, instanceOf(writeXmp(facts)));
}

/** What is known of a text that lies where a sidecar of ours belongs. */
export interface FoundSidecar {
  /** The frame it speaks of; null for one that is not ours. */
  readonly frame: string | null;
  /** Whether it is as it was written: another program changed nothing in it. */
  readonly untouched: boolean;
}

export function foundSidecar(text: string): FoundSidecar {
  const frame = /<dc:identifier>([A-Za-z0-9_-]{1,64})<\/dc:identifier>/.exec(text)?.[1] ?? null;
  const instance = /xmpMM:InstanceID="(urn:sha256:[0-9a-f]{64})"/.exec(text)?.[1];
  const untouched =
    instance !== undefined &&
    text.includes(`xmp:CreatorTool="${sidecarTool}"`) &&
    instanceOf(text.replace(instance, noInstance)) === instance;
  return { frame, untouched };
}

function instanceOf(text: string): string {
  return `${noInstance}${createHash('sha256').update(text).digest('hex')}`;
}
