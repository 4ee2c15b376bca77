import type { Frame, Job, Station } from '../../contract/index.ts';
import { type Finding, questions } from '../../facts/index.ts';
import { shotName } from '../../words/index.ts';

/** What can be seen beforehand that would go wrong with a job, worst first. Pure: `station.now` is the clock. */
export function jobProblems(job: Job, station: Station | null, frames: readonly Frame[]): Finding[] {
  if (job.state === 'closed') return [];
  return [
    ...currentProblems(job),
    ...placeProblems(station),
    ...dayProblems(job, station),
    ...job.shots.flatMap((shot) => shotProblems(shot, job.shots, station, frames)),
    ...nameProblems(job),
    ...lookProblems(job),
    ...targetProblems(job, frames),
  ];
}

function problem(what: string, args: Finding['args'] = {}): Finding {
  return { code: `job.problem-${what}`, args };
}

function currentProblems(job: Job): Finding[] {
  if (job.shots.length === 0) return [problem('no-shots')];
  return job.state === 'open' && job.currentShot === null ? [problem('no-current')] : [];
}

function placeProblems(station: Station | null): Finding[] {
  return station?.secondPlaces.length === 0 ? [{ code: 'page.one-place', args: {} }] : [];
}

function dayProblems({ to, state }: Job, station: Station | null): Finding[] {
  const today = station === null ? undefined : dayOfHere(station.now);
  return state === 'open' && to !== null && today !== undefined && to < today
    ? [problem('day-over', { to })]
    : [];
}

/** The day of the calendar where this page is seen, RFC 3339 full-date: a day ends at midnight there, not in UTC. */
function dayOfHere(now: string): string {
  const at = new Date(now);
  const two = (figure: number): string => String(figure).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

function shotProblems(
  shot: Job['shots'][number],
  shots: Job['shots'],
  station: Station | null,
  frames: readonly Frame[],
): Finding[] {
  const { camera, requires, mutes, reference } = shot;
  const name = shotName(shot, shots);
  const known = station?.cameras.find((each) => each.name === camera);
  const both = questions.filter((question) => requires.includes(question) && mutes.includes(question));
  return [
    ...(station !== null && camera !== null && known === undefined
      ? [problem('camera-unknown', { shot: name, camera })]
      : []),
    ...(known?.ended === true ? [problem('camera-ended', { shot: name, camera: known.name })] : []),
    ...both.map((question) => problem('required-and-muted', { shot: name, question })),
    ...(reference !== null && frames.some(({ id, mark }) => id === reference && mark === 'out')
      ? [problem('reference-out', { shot: name })]
      : []),
  ];
}

function nameProblems({ shots }: Job): Finding[] {
  const names = shots.map(({ name }) => name);
  const twice = new Set(names.filter((name, index) => names.indexOf(name) < index));
  return [...twice].map((name) => {
    const numbers = names.flatMap((each, index) => (each === name ? index + 1 : []));
    return problem('name-twice', { name, count: numbers.length, numbers: numbers.join(', ') });
  });
}

/** Names of looks that the job or a shot asks for and that are not kept, each once. */
function lookProblems({ look, lookId, shots }: Job): Finding[] {
  const wished = [{ look, lookId }, ...shots].flatMap((each) =>
    each.lookId === null ? (each.look ?? []) : [],
  );
  return [...new Set(wished)].map((name) => ({ code: 'job.look-not-kept', args: { name } }));
}

/** Colour is proved by a target in the same light. */
function targetProblems({ shots }: Job, frames: readonly Frame[]): Finding[] {
  const wanted = shots.some(({ requires }) => requires.includes('colour'));
  return wanted && frames.length > 0 && !frames.some(({ purpose }) => purpose === 'target')
    ? [problem('no-target')]
    : [];
}
