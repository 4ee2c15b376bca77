import { type ReactNode, useId, useState } from 'react';
import type { Look } from '../../contract/index.ts';
import { jobPageLabels } from '../../words/index.ts';
import { lookGroups } from './look-groups.ts';
import { TextField } from './text-field.tsx';

interface LookChoiceProps {
  /** What it is where nothing is chosen. */
  readonly none: string;
  readonly help: string;
  /** The look as the job or the shot has it now. */
  readonly named: { readonly look: string | null; readonly lookId: string | null };
  /** Every version that is kept; null while they are not here. */
  readonly looks: readonly Look[] | null;
  readonly put: (patch: { readonly look?: string | null; readonly lookId?: string }) => Promise<string>;
}

/** A look out of those that are kept, by name and version; or the name of one that nobody has saved yet, as a wish. */
export function LookChoice({ none, help, named, looks, put }: LookChoiceProps): ReactNode {
  const id = useId();
  const [refusal, setRefusal] = useState('');
  const [naming, setNaming] = useState(false);
  const { look, lookId } = named;
  const isWish = look !== null && lookId === null;
  /** A version may be chosen a moment before the list of looks has it. */
  const isHere = looks?.some((each) => each.id === lookId) ?? false;
  const choose = async (value: string): Promise<void> => {
    setNaming(value === other);
    if (value === other || value === wish) return;
    setRefusal(await put(value === '' ? { look: null } : { lookId: value }));
  };
  return (
    <>
      <div className="entry">
        <label htmlFor={id}>{jobPageLabels.look}</label>
        <select
          id={id}
          value={naming ? other : isWish ? wish : (lookId ?? '')}
          aria-describedby={`${id}-said`}
          onChange={(event) => choose(event.target.value)}
        >
          <option value="">{none}</option>
          {isWish ? <option value={wish}>{jobPageLabels.lookNotKept(look)}</option> : null}
          {look !== null && lookId !== null && !isHere ? (
            <option value={lookId}>{jobPageLabels.lookLoading(look)}</option>
          ) : null}
          {lookGroups(looks ?? [], lookId).map(({ name, versions }) => (
            <optgroup key={name} label={name}>
              {versions.map((each) => (
                <option key={each.id} value={each.id}>
                  {titleOf(each)}
                </option>
              ))}
            </optgroup>
          ))}
          <option value={other}>{jobPageLabels.otherLook}</option>
        </select>
        <div className="entry-said" id={`${id}-said`} role="status">
          <small>{help}</small>
          {refusal === '' ? null : <p className="refusal">{refusal}</p>}
        </div>
      </div>
      {naming ? (
        <TextField
          label={jobPageLabels.otherLookName}
          value={isWish ? look : ''}
          charactersMax={120}
          help={jobPageLabels.otherLookHelp}
          save={async (text) => {
            const name = text.trim();
            const why = await put({ look: name === '' ? null : name });
            if (why === '') setNaming(false);
            return why;
          }}
        />
      ) : null}
    </>
  );
}

/** Values that no id can be. */
const [wish, other] = ['=wish', '=other'];

function titleOf({ name, version, laidAside }: Look): string {
  const title = `${name} ${version}`;
  return laidAside ? jobPageLabels.lookLaidAside(title) : title;
}
