import type { ReactNode } from 'react';
import type { BagWork, Job } from '../../contract/index.ts';
import { bagLabels as labels } from '../../words/index.ts';
import { CommandLines } from '../line/command-lines.tsx';
import { stopBag } from '../link/index.ts';
import { BagCheck } from './bag-check.tsx';
import { BagMake } from './bag-make.tsx';
import { BagOutcome } from './bag-outcome.tsx';
import { ProgressLine } from './progress-line.tsx';
import { useAsked } from './use-asked.ts';
import { useBags } from './use-bags.ts';

interface BagPartProps {
  readonly work: BagWork | null;
  readonly jobs: readonly Job[];
  /** The job that the page is about, or the open one. */
  readonly job: string | null;
  /** Changes when another disk may have become a place. */
  readonly destinations: string;
}

/** Archive packages: made of a job, and read again. */
export function BagPart({ work, jobs, job, destinations }: BagPartProps): ReactNode {
  const { desk, look } = useBags(`${work?.id} ${work?.state} ${destinations}`);
  const { busy, refusal, ask } = useAsked();
  if (desk === 'elsewhere') return <p>{labels.elsewhere}</p>;
  const isRunning = work?.state === 'running';
  const places = desk?.places ?? [];
  const bags = desk?.bags ?? [];
  const making = places.filter(({ mayMake }) => mayMake);
  return (
    <>
      <p>{labels.about}</p>
      {desk !== null && places.length === 0 ? <p>{labels.noPlace}</p> : null}
      {work === null ? null : (
        <section className="hand-card hand-bag" aria-label={work.folder}>
          {isRunning ? <UnderWay work={work} /> : <BagOutcome work={work} />}
        </section>
      )}
      <p className="hand-acts">
        {isRunning ? (
          <button type="button" className="press" disabled={busy} onClick={() => ask(stopBag)}>
            {labels.stop}
          </button>
        ) : null}
        <button type="button" className="press" onClick={look}>
          {labels.look}
        </button>
      </p>
      <p role="status" className="hand-refusal" hidden={refusal === ''}>
        {refusal}
      </p>
      {making.length === 0 || jobs.length === 0 ? null : (
        <BagMake places={making} bags={bags} jobs={jobs} job={job} busy={busy || isRunning} ask={ask} />
      )}
      {places.length === 0 ? null : <BagCheck bags={bags} busy={busy || isRunning} ask={ask} />}
      <details className="hand-details">
        <summary>{labels.terminal}</summary>
        <CommandLines commands={[labels.makeLine(job ?? 'JOB'), labels.checkLine]} name={labels.title} />
      </details>
    </>
  );
}

function UnderWay({ work }: { readonly work: BagWork }): ReactNode {
  const { phase, kind, folder, doneBytes, bytes, toGoMs, waiting } = work;
  const words =
    phase === 'beginning'
      ? kind === 'make'
        ? labels.beginning
        : labels.checkBegins
      : labels[phase](doneBytes, bytes);
  return (
    <>
      <h3>{folder}</h3>
      {waiting && phase === 'beginning' ? null : (
        <ProgressLine
          name={labels.title}
          done={doneBytes}
          of={phase === 'beginning' ? 0 : Math.max(bytes, 1)}
          words={words}
          toGoMs={toGoMs}
        />
      )}
      {waiting ? <p role="status">{labels.waits}</p> : null}
    </>
  );
}
