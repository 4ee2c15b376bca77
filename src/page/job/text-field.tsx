import { type KeyboardEvent, type ReactNode, useContext, useEffect, useId, useRef, useState } from 'react';
import { jobPageLabels } from '../../words/index.ts';
import { type Draft, DraftPlace, keepDraft, keptDraft, noteSent, wasSent } from './drafts.ts';

interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  /** Settles with why it was not taken; empty where it was. */
  readonly save: (value: string) => Promise<string>;
  readonly help?: string;
  readonly placeholder?: string;
  readonly type?: 'text' | 'date' | 'number';
  readonly lines?: number;
  readonly charactersMax?: number;
  readonly disabled?: boolean;
}

/**
 * A text that is taken when the field is left or Enter is pressed. What is typed is never thrown away: where somebody else
 * changed the same text meanwhile, both are shown and the person decides; where the station refuses, it stays in the field.
 * A field that goes away before it was left - by the way back, another page, a reload - keeps its text, and takes it when it
 * is there again.
 */
export function TextField(props: TextFieldProps): ReactNode {
  const { label, value, save, help, placeholder, type = 'text', lines = 1, charactersMax, disabled } = props;
  const id = useId();
  const key = `${useContext(DraftPlace)} ${label}`;
  const [edit, setKept] = useState(() => keptDraft(key));
  const latest = useRef(edit);
  latest.current = edit;
  const setEdit = (next: Draft | null): void => {
    keepDraft(key, next);
    setKept(next);
  };
  const [refusal, setRefusal] = useState('');
  const [asked, setAsked] = useState(false);
  // One's own words that were on their way as the next were begun are no change of somebody else's.
  const changedElsewhere =
    edit !== null && edit.from !== value && edit.typed !== value && !wasSent(key, value);
  // What stands there by now is what was typed: nothing is left to be taken.
  useEffect(() => {
    if (edit === null || edit.typed !== value || edit.from === value) return;
    keepDraft(key, null);
    setKept(null);
    setRefusal('');
  }, [edit, value, key]);
  const take = async (typed: string): Promise<void> => {
    noteSent(key, typed);
    const why = await save(typed);
    setRefusal(why);
    // What was typed on meanwhile, here or in the field as it came back, is not taken yet.
    const since = keptDraft(key) ?? latest.current;
    if (why === '' && (since === null || since.typed === typed)) leave();
  };
  const leave = (): void => {
    setEdit(null);
    setAsked(false);
    setRefusal('');
  };
  const finish = (): void => {
    if (edit === null) return;
    if (edit.typed === value) leave();
    else if (changedElsewhere) setAsked(true);
    else void take(edit.typed);
  };
  const last = useRef(finish);
  last.current = finish;
  // Once as the field comes, for what an earlier visit left, and once as it goes.
  useEffect(() => {
    last.current();
    return () => last.current();
  }, []);
  const shared = {
    id,
    value: edit?.typed ?? value,
    disabled,
    placeholder,
    maxLength: charactersMax,
    'aria-describedby': `${id}-said`,
    onChange: (event: { readonly target: { readonly value: string } }) =>
      setEdit({ from: edit?.from ?? value, typed: event.target.value }),
    onBlur: finish,
  };
  const press = (event: KeyboardEvent): void => {
    if (event.key === 'Enter') finish();
    if (event.key === 'Escape' && edit !== null) leave();
  };
  return (
    <div className="entry">
      <label htmlFor={id}>{label}</label>
      {lines > 1 ? (
        <textarea {...shared} rows={lines} />
      ) : (
        <input
          {...shared}
          type={type}
          onKeyDown={press}
          {...(type === 'number' ? { min: 0, max: 99 } : {})}
        />
      )}
      <div className="entry-said" id={`${id}-said`} role="status">
        {help === undefined ? null : <small>{help}</small>}
        {refusal === '' ? null : <p className="refusal">{refusal}</p>}
        {changedElsewhere && asked ? (
          <p className="refusal">
            <span>
              {value === '' ? jobPageLabels.changedElsewhereEmpty : jobPageLabels.changedElsewhere(value)}
            </span>{' '}
            <button type="button" onClick={() => take(edit.typed)}>
              {jobPageLabels.putMine}
            </button>{' '}
            <button type="button" onClick={leave}>
              {jobPageLabels.leaveTheirs}
            </button>
          </p>
        ) : null}
      </div>
    </div>
  );
}
