import type { Frame, Job } from '../../contract/index.ts';
import { framesOf, type PageState } from '../state/index.ts';

/** What the address asks for: `?frame=`, or `?job=` with or without `&shot=`. */
export interface Asked {
  readonly frame: string | null;
  readonly job: string | null;
  readonly shot: string | null;
}

export function askedOf(search: string): Asked {
  const query = new URLSearchParams(search);
  return { frame: query.get('frame'), job: query.get('job'), shot: query.get('shot') };
}

export function lookAddress({ frame, job, shot }: Partial<Asked>): string {
  const query = new URLSearchParams();
  for (const [name, value] of Object.entries({ frame, job, shot })) if (value) query.set(name, value);
  const text = query.toString();
  return text === '' ? '/look' : `/look?${text}`;
}

export interface Subject {
  /** The frames that can be stepped through, oldest first. */
  readonly frames: readonly Frame[];
  readonly frame: Frame | null;
  readonly job: Job | null;
}

/**
 * The frame that the look is seen on: the one asked for, else the newest rendered one of the shot, the job, or of all. A
 * shot or a job without frames has none.
 */
export function subjectOf(state: PageState, asked: Asked): Subject {
  const all = framesOf(state.frames);
  const named = asked.frame === null ? null : (state.frames.byId.get(asked.frame) ?? null);
  const code = named?.job ?? asked.job;
  const shot = asked.shot;
  const frames = all.filter(
    (frame) => (code === null || frame.job === code) && (shot === null || frame.shot === shot),
  );
  const shown = frames.findLast((frame) => frame.picture.state === 'rendered') ?? frames.at(-1) ?? null;
  const frame = asked.frame === null ? shown : named;
  return {
    frames: named !== null && !frames.includes(named) ? [named] : frames,
    frame,
    job: state.jobs?.find((job) => job.code === (frame?.job ?? code)) ?? null,
  };
}
