import type { ReactNode } from 'react';
import { type SpecificationSaid, specificationRows } from '../../words/index.ts';

/** Every value of a specification, as an order form has it. */
export function SpecificationValues({ said }: { readonly said: SpecificationSaid }): ReactNode {
  return (
    <dl className="hand-values">
      {specificationRows(said).map(([about, value]) => (
        <div key={about}>
          <dt>{about}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}
