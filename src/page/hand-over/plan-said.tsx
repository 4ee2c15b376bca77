import type { ReactNode } from 'react';
import { handOverLabels as labels, metadataLabels, saidOfFiles } from '../../words/index.ts';
import { ExampleWords } from '../metadata/example-words.tsx';
import { More, SaidOfAll } from './delivered-files.tsx';
import type { Planned } from './use-plan.ts';

/** Files that are named; more are counted. */
const namedMax = 12;

/** How many frames, and what can be said of them before anything is made. */
export function PlanSaid({ planned: { plan, refusal } }: { readonly planned: Planned }): ReactNode {
  const files = plan?.files ?? [];
  const said = saidOfFiles(files.map(({ findings }) => findings));
  const count = files.filter(({ findings }) => findings.length > 0).length;
  const spoken = files.flatMap(({ frame, original }, index) => {
    const texts = said.ofEach[index] ?? [];
    return texts.length === 0 ? [] : [{ frame, original, text: texts.join(' ') }];
  });
  return (
    <div className="hand-plan">
      <p role="status">
        {refusal !== ''
          ? refusal
          : plan === null
            ? labels.planning
            : `${labels.plan(plan.files.length)} ${labels.planSaid(count)}`}
      </p>
      <SaidOfAll said={said} names={files.map(({ original }) => original)} />
      {spoken.length === 0 ? null : (
        <ul className="hand-files">
          {spoken.slice(0, namedMax).map(({ frame, original, text }) => (
            <li key={frame}>
              <strong>{original}</strong> {text}
            </li>
          ))}
        </ul>
      )}
      <More count={spoken.length - namedMax} />
      {plan?.example == null ? null : (
        <details className="hand-details">
          <summary>{metadataLabels.wordsOfFirst}</summary>
          <ExampleWords example={plan.example} />
        </details>
      )}
    </div>
  );
}
