import type { Job } from '../jobs.ts';
import type { Agreement } from '../remarks.ts';
import type { Shot } from '../shots.ts';

/** A shot of which only the name was said. */
export function sampleShot(shot: Partial<Shot> & { readonly id: string }): Shot {
  return {
    name: shot.id,
    description: '',
    camera: null,
    look: null,
    lookId: null,
    layout: null,
    reference: null,
    heroes: 1,
    selects: 0,
    agreement: false,
    requires: ['arrived', 'sharp', 'exposed', 'inPlace', 'colour'],
    mutes: [],
    tolerances: {},
    scale: null,
    baselines: [],
    order: [],
    ...shot,
  };
}

type SampleJob = Partial<Omit<Job, 'shots'>> & {
  readonly shots?: readonly (Partial<Shot> & { readonly id: string })[];
};

/** A job that waits, without shots; parts can be replaced. */
export function sampleJob({ shots = [], ...job }: SampleJob = {}): Job {
  return {
    code: 'kiln-07',
    title: '',
    client: '',
    from: null,
    to: null,
    place: '',
    notes: '',
    state: 'waiting',
    tolerances: {},
    greyCard: false,
    currentShot: null,
    naming: '',
    look: null,
    lookId: null,
    deliveries: [],
    metadata: '',
    targetEdition: null,
    toleranceSet: null,
    targets: [],
    agreements: [],
    takenAway: [],
    version: 1,
    shots: shots.map(sampleShot),
    ...job,
  };
}

/** A guest's word on the mug; parts can be replaced. */
export function sampleAgreement(parts: Partial<Agreement> = {}): Agreement {
  return {
    id: 'a1',
    shot: 'mug',
    pictures: [{ frame: 'f1', look: '', profile: null }],
    by: { name: 'Ada', from: 'guest', link: 'tablet' },
    at: '2026-10-01T09:30:00.000Z',
    ...parts,
  };
}
