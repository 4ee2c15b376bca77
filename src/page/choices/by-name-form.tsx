import { type FormEvent, type ReactNode, useId, useState } from 'react';
import { keepName, keptName } from './kept-name.ts';

interface ByNameFormProps {
  readonly labels: {
    readonly name: string;
    readonly reason: string;
    /** What a reason could be. */
    readonly example?: string;
    readonly take: string;
  };
  readonly className?: string;
  readonly buttonClassName?: string;
  /** Above the fields. */
  readonly children?: ReactNode;
  readonly onTake: (by: { readonly name: string; readonly reason: string }) => void;
}

/** Somebody takes something upon themselves, by name and with a reason. The name is remembered on this device. */
export function ByNameForm({
  labels,
  className,
  buttonClassName,
  children,
  onTake,
}: ByNameFormProps): ReactNode {
  const id = useId();
  const [name, setName] = useState(keptName);
  const [reason, setReason] = useState('');
  const by = { name: name.trim(), reason: reason.trim() };
  const take = (event: FormEvent): void => {
    event.preventDefault();
    keepName(by.name);
    onTake(by);
  };
  return (
    <form className={className} onSubmit={take}>
      {children}
      <label htmlFor={`${id}-name`}>{labels.name}</label>
      <input
        id={`${id}-name`}
        value={name}
        maxLength={120}
        autoComplete="name"
        onChange={(event) => setName(event.target.value)}
      />
      <label htmlFor={`${id}-reason`}>{labels.reason}</label>
      <input
        id={`${id}-reason`}
        value={reason}
        maxLength={1000}
        placeholder={labels.example}
        onChange={(event) => setReason(event.target.value)}
      />
      <button type="submit" className={buttonClassName} disabled={by.name === '' || by.reason === ''}>
        {labels.take}
      </button>
    </form>
  );
}
