import '../style/metadata.css';
import type { ReactNode } from 'react';
import type { DeliveryPlan } from '../../contract/index.ts';
import {
  digitalSourceNames,
  metadataLabels as labels,
  pictureWordNames,
  privateFieldWords,
} from '../../words/index.ts';

interface ExampleWordsProps {
  readonly example: NonNullable<DeliveryPlan['example']>;
}

/** What one file would say, as it will stand in it. */
export function ExampleWords({ example: { words, cut, privateFields } }: ExampleWordsProps): ReactNode {
  const along = privateFields.map((each) => privateFieldWords[each]?.name ?? each).join('; ');
  if (words.length === 0 && along === '') return <p>{labels.nothing}</p>;
  return (
    <dl className="metadata-said">
      {words.map(({ property, text }) => (
        <Said key={property} name={pictureWordNames[property] ?? property}>
          {property === 'digitalSourceType' ? (digitalSourceNames[text] ?? text) : text}
        </Said>
      ))}
      {cut.map(({ dataset, text }) => (
        <Said key={dataset} name={labels.cut(dataset)}>
          {text}
        </Said>
      ))}
      {along === '' ? null : <Said name={labels.alongWith}>{along}</Said>}
    </dl>
  );
}

function Said({ name, children }: { readonly name: string; readonly children: string }): ReactNode {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}
