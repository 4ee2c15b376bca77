import type { ReactNode } from 'react';
import { errorCode } from '../../base/index.ts';
import type { Job } from '../../contract/index.ts';
import { writeSlate } from '../../slate/index.ts';
import { shotName, slateLabels } from '../../words/index.ts';
import { CodeFigure } from './code-figure.tsx';

/** Names above this are set smaller, so that a page stays a page. */
const longNameCharacters = 22;

/** Each shot on a page of its own: the code, its number and name to be read from across the room. */
export function SlatePages({ job }: { readonly job: Job }): ReactNode {
  return named(job).map(({ id, name }, index) => (
    <section className="slate-page" key={id} data-long={name.length > longNameCharacters}>
      <p className="slate-number">{index + 1}</p>
      <h2 className="slate-name">{name}</h2>
      <ShotCode job={job.code} shot={id} name={name} />
      <p className="slate-job">
        {job.code}
        {job.title === '' ? '' : ` · ${job.title}`}
      </p>
    </section>
  ));
}

/** The shots by the names that tell them apart. */
function named({ shots }: Job): readonly Pick<Job['shots'][number], 'id' | 'name'>[] {
  return shots.map((shot) => ({ id: shot.id, name: shotName(shot, shots) }));
}

/** All shots side by side, to point the camera at one of them. */
export function SlateSheet({ job }: { readonly job: Job }): ReactNode {
  return (
    <section className="slate-sheet">
      <h2>
        {job.code}
        {job.title === '' ? '' : ` · ${job.title}`}
      </h2>
      <ol>
        {named(job).map(({ id, name }, index) => (
          <li key={id}>
            <ShotCode job={job.code} shot={id} name={name} />
            <p>
              <strong>{index + 1}</strong> {name}
            </p>
          </li>
        ))}
      </ol>
    </section>
  );
}

function ShotCode({
  job,
  shot,
  name,
}: {
  readonly job: string;
  readonly shot: string;
  readonly name: string;
}): ReactNode {
  const text = textOf(job, shot);
  return text === null ? (
    <p className="slate-none">{slateLabels.tooLong(name)}</p>
  ) : (
    <CodeFigure text={text} label={slateLabels.codeOf(name)} />
  );
}

function textOf(job: string, shot: string): string | null {
  try {
    return writeSlate({ kind: 'shot', job, shot });
  } catch (thrown) {
    if (errorCode(thrown) === 'slate-too-long') return null;
    throw thrown;
  }
}
