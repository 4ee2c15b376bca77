import type { ReactNode } from 'react';

interface PaperHeadProps {
  readonly title: string;
  /** Label and value; one without a value is left out. */
  readonly rows: readonly (readonly [label: string, value: string])[];
}

/** The head of a job's sheet: what it is, and of which job. */
export function PaperHead({ title, rows }: PaperHeadProps): ReactNode {
  return (
    <header className="call-head">
      <h1>{title}</h1>
      <dl>
        {rows
          .filter(([, value]) => value !== '')
          .map(([label, value]) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{value}</dd>
            </div>
          ))}
      </dl>
    </header>
  );
}
