import type { Strike } from '../strike.ts';

/** The check of a job without a shot, which is not ready; parts can be replaced. */
export function sampleStrike(strike: Partial<Strike> = {}): Strike {
  const job = strike.job ?? 'kiln-07';
  return {
    job,
    title: '',
    client: '',
    at: '2026-10-01T16:00:00.000Z',
    ready: false,
    open: [
      {
        key: `strike.no-shots ${job}`,
        cost: 'reshoot',
        finding: { code: 'strike.no-shots', args: { job } },
        because: null,
        shot: null,
        frame: null,
        question: null,
        counting: null,
        explainable: false,
        accepted: null,
      },
    ],
    accepted: [],
    shots: [],
    cameras: [],
    frames: 0,
    state: '0'.repeat(64),
    signed: null,
    version: 1,
    ...strike,
  };
}
