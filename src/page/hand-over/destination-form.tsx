import { type ReactNode, useEffect, useId, useState } from 'react';
import type { Destination } from '../../contract/index.ts';
import { destinationLabels as labels } from '../../words/index.ts';
import { putDestination } from '../link/index.ts';
import {
  type DestinationDraft,
  type DraftField,
  draftOf,
  emptyDraft,
  readDraft,
} from './destination-draft.ts';
import { useAsked } from './use-asked.ts';

interface FormProps {
  /** The one that is changed; null for a new one. */
  readonly before: Destination | null;
  /** Of destinations that are there. */
  readonly names: readonly string[];
  readonly onEnd: () => void;
}

interface FieldSaid {
  readonly field: Exclude<DraftField, 'kind' | 'logInBy' | 'pathStyle'>;
  readonly label: string;
  readonly help?: string;
}

const name: FieldSaid = { field: 'name', label: labels.name, help: labels.nameHelp };

/** The fields of each kind, in the order in which a person has them at hand. */
const fieldsOf: Readonly<Record<DestinationDraft['kind'], readonly FieldSaid[]>> = {
  folder: [{ field: 'path', label: labels.folderPath, help: labels.folderHelp }],
  sftp: [
    { field: 'host', label: labels.host },
    { field: 'port', label: labels.port },
    { field: 'user', label: labels.user },
    { field: 'path', label: labels.path, help: labels.pathHelp },
  ],
  s3: [
    { field: 'bucket', label: labels.bucket },
    { field: 'region', label: labels.region },
    { field: 'endpoint', label: labels.endpoint, help: labels.endpointHelp },
    { field: 'prefix', label: labels.prefix },
    { field: 'accessKeyId', label: labels.accessKeyId },
  ],
};

const kinds = ['folder', 'sftp', 's3'] as const;

/** A destination, new or changed. Its secret goes to the station with it, and never comes back. */
export function DestinationForm({ before, names, onEnd }: FormProps): ReactNode {
  const id = useId();
  const [draft, setDraft] = useState(() => (before === null ? emptyDraft : draftOf(before)));
  const [wrong, setWrong] = useState('');
  const { busy, refusal, ask } = useAsked();
  const { kind, logInBy } = draft;
  // Whoever opens the form types its name next, by keyboard too.
  useEffect(() => document.getElementById(`${id}-name`)?.focus(), [id]);
  const change = (part: Partial<DestinationDraft>): void => setDraft((was) => ({ ...was, ...part }));
  const secretHelp = before === null ? labels.secretHelp : labels.secretAsBefore;
  const secret: FieldSaid = { field: 'secret', label: secretLabel(draft), help: secretHelp };
  const shown = fieldsOf[kind];
  const save = (): void => {
    const read = readDraft(draft, names, before);
    if ('wish' in read) {
      setWrong('');
      ask(() => putDestination(read.name, read.wish).then(onEnd));
      return;
    }
    const label = [name, ...shown, secret].find(({ field }) => field === read.wrong)?.label ?? read.wrong;
    setWrong(read.taken ? labels.nameTaken : labels.wrong(label));
    document.getElementById(`${id}-${read.wrong}`)?.focus();
  };
  const input = ({ field, label, help }: FieldSaid): ReactNode => (
    <p key={field} className="hand-field">
      <label htmlFor={`${id}-${field}`}>{label}</label>
      <input
        id={`${id}-${field}`}
        type={field === 'secret' ? 'password' : 'text'}
        autoComplete={field === 'secret' ? 'new-password' : 'off'}
        inputMode={field === 'port' ? 'numeric' : 'text'}
        spellCheck={false}
        value={draft[field]}
        {...(help === undefined ? {} : { 'aria-describedby': `${id}-${field}-help` })}
        onChange={({ target }) => change({ [field]: target.value })}
      />
      {help === undefined ? null : <small id={`${id}-${field}-help`}>{help}</small>}
    </p>
  );
  return (
    <form
      className="hand-add"
      aria-label={before === null ? labels.add : labels.changing(before.name)}
      onSubmit={(event) => {
        event.preventDefault();
        save();
      }}
    >
      {input(name)}
      <p className="hand-field">
        <label htmlFor={`${id}-kind`}>{labels.kind}</label>
        <select
          id={`${id}-kind`}
          value={kind}
          disabled={before !== null}
          onChange={({ target }) =>
            change({ kind: kinds.find((each) => each === target.value) ?? kind, secret: '', path: '' })
          }
        >
          {kinds.map((each) => (
            <option key={each} value={each}>
              {labels.kinds[each]}
            </option>
          ))}
        </select>
      </p>
      {shown.map(input)}
      {kind !== 's3' ? null : (
        <label className="hand-tick">
          <input
            type="checkbox"
            checked={draft.pathStyle}
            onChange={({ target }) => change({ pathStyle: target.checked })}
          />
          {labels.pathStyle}
        </label>
      )}
      {kind !== 'sftp' ? null : (
        <p className="hand-field">
          <label htmlFor={`${id}-log`}>{labels.logInBy}</label>
          <select
            id={`${id}-log`}
            value={logInBy}
            onChange={({ target }) =>
              change({ logInBy: target.value === 'key' ? 'key' : 'password', secret: '' })
            }
          >
            <option value="password">{labels.password}</option>
            <option value="key">{labels.key}</option>
          </select>
        </p>
      )}
      {kind === 'folder' ? null : kind === 'sftp' && logInBy === 'key' ? (
        <p className="hand-field">
          <label htmlFor={`${id}-secret`}>{labels.key}</label>
          <textarea
            id={`${id}-secret`}
            className="hand-print"
            rows={4}
            autoComplete="off"
            spellCheck={false}
            value={draft.secret}
            aria-describedby={`${id}-secret-help`}
            onChange={({ target }) => change({ secret: target.value })}
          />
          <small id={`${id}-secret-help`}>
            {labels.keyHelp}; {secretHelp}
          </small>
        </p>
      ) : (
        input(secret)
      )}
      <p className="hand-acts">
        <button type="submit" className="press" disabled={busy}>
          {before === null ? labels.save : labels.saveChange}
        </button>
        <button type="button" className="press" onClick={onEnd}>
          {labels.leave}
        </button>
      </p>
      <p role="status" className="hand-refusal" hidden={wrong === '' && refusal === ''}>
        {wrong === '' ? refusal : wrong}
      </p>
    </form>
  );
}

function secretLabel({ kind, logInBy }: DestinationDraft): string {
  if (kind === 's3') return labels.secretKey;
  return logInBy === 'key' ? labels.key : labels.password;
}
