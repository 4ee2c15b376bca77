import type { ReactNode } from 'react';
import { handOverLabels as labels, metadataLabels, sentence } from '../../words/index.ts';
import { ExampleWords } from '../metadata/example-words.tsx';
import { More } from './delivered-files.tsx';
import type { Planned } from './use-plan.ts';

/** Files that are named; more are counted. */
const namedMax = 12;

/** How many frames, and what can be said of them before anything is made. */
export function PlanSaid({ planned: { plan, refusal } }: { readonly planned: Planned }): ReactNode {
  const spoken = plan?.files.filter(({ findings }) => findings.length > 0) ?? [];
  return (
    <div className="hand-plan">
      <p role="status">
        {refusal !== ''
          ? refusal
          : plan === null
            ? labels.planning
            : `${labels.plan(plan.files.length)} ${labels.planSaid(spoken.length)}`}
      </p>
      {spoken.length === 0 ? null : (
        <ul className="hand-files">
          {spoken.slice(0, namedMax).map(({ frame, original, findings }) => (
            <li key={frame}>
              <strong>{original}</strong> {findings.map((finding) => sentence(finding)).join(' ')}
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
