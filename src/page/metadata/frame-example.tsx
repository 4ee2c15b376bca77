import { type ReactNode, useId, useState } from 'react';
import type { Frame, Job } from '../../contract/index.ts';
import { specificationNamed } from '../../deliver/index.ts';
import { metadataLabels as labels, sentence } from '../../words/index.ts';
import { usePlan } from '../hand-over/use-plan.ts';
import { ExampleWords } from './example-words.tsx';

/** Frames that can be chosen from; what they say differs by shot at most. */
const framesMax = 500;

/** What the file of one frame would say, by the job's first delivery that the station knows. */
export function FrameExample({
  job,
  frames,
}: {
  readonly job: Job;
  readonly frames: readonly Frame[];
}): ReactNode {
  const id = useId();
  const [chosen, setChosen] = useState('');
  const frame = frames.find((each) => each.id === chosen) ?? frames[0];
  const named = job.deliveries.map(specificationNamed).find((each) => each !== null);
  const specification = named?.name ?? 'print';
  const title = named?.specification.title ?? specificationNamed(specification)?.specification.title;
  const { plan, refusal } = usePlan(
    frame === undefined ? null : { job: job.code, specification, frames: [frame.id] },
    [job.version],
  );
  if (frame === undefined) return <p>{labels.noFrame}</p>;
  const spoken = plan?.files[0]?.findings.filter(({ code }) => wordCodes.has(code)) ?? [];
  return (
    <>
      <div className="entry">
        <label htmlFor={id}>{labels.exampleFrame}</label>
        <select id={id} value={frame.id} onChange={({ target }) => setChosen(target.value)}>
          {frames.slice(0, framesMax).map((each) => (
            <option key={each.id} value={each.id}>
              {each.name}
            </option>
          ))}
        </select>
      </div>
      <p>{labels.exampleBy(title ?? specification)}</p>
      {refusal === '' ? null : <p className="refusal">{refusal}</p>}
      {plan?.example == null ? null : <ExampleWords example={plan.example} />}
      {spoken.map((finding) => (
        <p key={finding.code}>{sentence(finding)}</p>
      ))}
    </>
  );
}

/** What is said of words; the rest is said on the Hand-over page. */
const wordCodes: ReadonlySet<string> = new Set([
  'deliver.words-unknown',
  'deliver.iim-cut',
  'deliver.no-iim',
]);
