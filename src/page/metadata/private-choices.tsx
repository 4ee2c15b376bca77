import { type ReactNode, useState } from 'react';
import { privateFields } from '../../deliver/index.ts';
import { metadataLabels as labels, privateFieldWords } from '../../words/index.ts';
import { putWords, type SheetProps } from './sheet-field.tsx';

/** What goes along of the camera's own notes: nothing, unless somebody ticks it. */
export function PrivateChoices(props: SheetProps): ReactNode {
  const [refusal, setRefusal] = useState('');
  const chosen = props.sheet.privateFields ?? [];
  const turn = async (field: (typeof privateFields)[number], on: boolean): Promise<void> => {
    const value = privateFields.filter((each) => (each === field ? on : chosen.includes(each)));
    setRefusal(await putWords(props, ['privateFields'], value));
  };
  return (
    <fieldset className="metadata-private">
      <legend>{labels.private}</legend>
      <p>{labels.privateAbout}</p>
      {privateFields.map((field) => (
        <label key={field} className="tick">
          <input
            type="checkbox"
            checked={chosen.includes(field)}
            onChange={({ target }) => turn(field, target.checked)}
          />
          <span>
            {privateFieldWords[field]?.name} <small>{privateFieldWords[field]?.why}</small>
          </span>
        </label>
      ))}
      <p role="status" className="refusal">
        {refusal}
      </p>
    </fieldset>
  );
}
