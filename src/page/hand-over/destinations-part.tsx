import { type ReactNode, useState } from 'react';
import { destinationLabels as labels } from '../../words/index.ts';
import { DestinationForm } from './destination-form.tsx';
import { DestinationRow } from './destination-row.tsx';
import type { Destinations } from './use-destinations.ts';

/** Where deliveries can be sent: each tested, trusted, changed, forgotten here, and new ones added. */
export function DestinationsPart({ list, look }: Destinations): ReactNode {
  const [adding, setAdding] = useState(false);
  if (list === 'elsewhere') return <p>{labels.elsewhere}</p>;
  if (list === null) return null;
  const names = list.map(({ name }) => name);
  return (
    <>
      {list.length === 0 ? <p>{labels.none}</p> : null}
      <ul className="hand-destinations">
        {list.map((each) => (
          <DestinationRow key={each.name} destination={each} names={names} onChanged={look} />
        ))}
      </ul>
      {adding ? (
        <DestinationForm
          before={null}
          names={names}
          onEnd={() => {
            setAdding(false);
            document.getElementById('hand-destinations')?.focus();
            look();
          }}
        />
      ) : (
        <p className="hand-acts">
          <button type="button" className="press" onClick={() => setAdding(true)}>
            {labels.add}
          </button>
        </p>
      )}
    </>
  );
}
