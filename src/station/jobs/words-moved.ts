import { withShotsRenamed } from '../../deliver/index.ts';
import { type JobChoice, type Jobs, listedShots, planJobChange } from '../../job/index.ts';

/**
 * The choices, and those that have the words for a job's files go along with the names of its shots: what is said of a shot is kept by its
 * name, and must not be lost when that changes. They are one act with the new name, and taken back with it.
 */
export function withWordsMoved(jobs: Jobs, choices: readonly JobChoice[]): readonly JobChoice[] {
  const codes = new Set(choices.flatMap((choice) => (choice.type === 'shot-stated' ? [choice.job] : [])));
  return [...choices, ...[...codes].flatMap((code) => movesIn(jobs, code, choices))];
}

function movesIn(jobs: Jobs, code: string, choices: readonly JobChoice[]): readonly JobChoice[] {
  const job = jobs.get(code);
  const text = job?.handOver.metadata ?? '';
  if (job === undefined || text === '') return [];
  const names = new Map(listedShots(job).map(({ id, name }) => [id, name]));
  const stay = new Map(names);
  const renamed = new Map<string, string>();
  for (const choice of choices) {
    if (choice.type !== 'shot-stated' || choice.job !== code) continue;
    const { id, name } = choice.shot;
    const before = names.get(id);
    if (before === undefined || before === name) continue;
    renamed.set(before, name);
    stay.delete(id);
  }
  const metadata = withShotsRenamed(text, renamed, new Set(stay.values()));
  return metadata === text ? [] : planJobChange(jobs, code, { handOver: { metadata } });
}
