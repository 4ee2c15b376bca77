import { type FormEvent, type ReactNode, useEffect, useId, useRef, useState } from 'react';
import { remarkCharactersMax, speakerCharactersMax } from '../../contract/index.ts';
import { remarkLabels } from '../../words/index.ts';
import { keepName, keptName } from '../choices/kept-name.ts';

interface SayFormProps {
  /** What is being written. */
  readonly label: string;
  /** Whether the text is to be written at once. */
  readonly takesFocus: boolean;
  /** As far as it was written before. */
  readonly begun?: string;
  readonly onText?: (text: string) => void;
  readonly onSay: (text: string, name: string) => void;
  readonly onLeave: () => void;
  readonly children?: ReactNode;
}

/** A text and who says it; the name is asked for once on a device and stays to be changed. */
export function SayForm({
  label,
  takesFocus,
  begun = '',
  onText,
  onSay,
  onLeave,
  children,
}: SayFormProps): ReactNode {
  const id = useId();
  const area = useRef<HTMLTextAreaElement>(null);
  const [text, setText] = useState(begun);
  const [name, setName] = useState(keptName);
  useEffect(() => {
    if (takesFocus) area.current?.focus();
  }, [takesFocus]);
  const canSay = text.trim() !== '' && name.trim() !== '';
  const say = (event: FormEvent): void => {
    event.preventDefault();
    if (!canSay) return;
    keepName(name.trim());
    onSay(text.trim(), name.trim());
  };
  return (
    <form className="say" onSubmit={say}>
      <label htmlFor={`${id}-text`}>{label}</label>
      <textarea
        ref={area}
        id={`${id}-text`}
        value={text}
        rows={3}
        maxLength={remarkCharactersMax}
        onChange={(event) => {
          setText(event.target.value);
          onText?.(event.target.value);
        }}
      />
      {children}
      <label htmlFor={`${id}-name`}>{remarkLabels.name}</label>
      <input
        id={`${id}-name`}
        value={name}
        maxLength={speakerCharactersMax}
        autoComplete="name"
        aria-describedby={`${id}-help`}
        onChange={(event) => setName(event.target.value)}
      />
      <small id={`${id}-help`}>{remarkLabels.nameHelp}</small>
      <p className="say-acts">
        <button type="submit" disabled={!canSay}>
          {remarkLabels.send}
        </button>
        <button type="button" onClick={onLeave}>
          {remarkLabels.cancel}
        </button>
      </p>
    </form>
  );
}
