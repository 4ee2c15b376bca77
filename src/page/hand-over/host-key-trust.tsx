import { type ReactNode, useId, useState } from 'react';
import type { Destination } from '../../contract/index.ts';
import { destinationLabels as labels } from '../../words/index.ts';
import { putDestination } from '../link/index.ts';
import { isSameFingerprint } from './destination-draft.ts';
import { useAsked } from './use-asked.ts';

interface TrustProps {
  readonly destination: Destination;
  /** Fingerprint of the key that the server showed just now. */
  readonly shown: string;
  readonly onTrusted: () => void;
}

/** A key is trusted once it was compared with what somebody says who knows, and never at first sight. */
export function HostKeyTrust({ destination, shown, onTrusted }: TrustProps): ReactNode {
  const id = useId();
  const [said, setSaid] = useState('');
  const { busy, refusal, ask } = useAsked();
  const { name, place } = destination;
  if (place.kind !== 'sftp') return null;
  const isSame = isSameFingerprint(said, shown);
  return (
    <form
      className="hand-trust"
      onSubmit={(event) => {
        event.preventDefault();
        if (isSame) ask(() => putDestination(name, { place: { ...place, hostKey: shown } }).then(onTrusted));
      }}
    >
      <p>
        {labels.showsKey} <span className="hand-print">{shown}</span>
      </p>
      <label htmlFor={id}>{labels.sayKey}</label>
      <input
        id={id}
        className="hand-print"
        value={said}
        autoComplete="off"
        spellCheck={false}
        aria-describedby={`${id}-said`}
        onChange={({ target }) => setSaid(target.value)}
      />
      <small>{labels.sayKeyHelp}</small>
      <p id={`${id}-said`} role="status">
        {said.trim() === '' ? '' : isSame ? labels.sameKey : labels.otherKey}
      </p>
      <button type="submit" className="press" disabled={busy || !isSame}>
        {labels.trust}
      </button>
      <p role="status" className="hand-refusal" hidden={refusal === ''}>
        {refusal}
      </p>
    </form>
  );
}
