import { type ReactNode, useState } from 'react';
import type { Destination, DestinationTest } from '../../contract/index.ts';
import { destinationLabels as labels, placePhraseOf, sentence } from '../../words/index.ts';
import { forgetDestination, testDestination } from '../link/index.ts';
import { VerdictShape } from '../set/verdict-shape.tsx';
import { DestinationForm } from './destination-form.tsx';
import { HostKeyTrust } from './host-key-trust.tsx';
import { useAsked } from './use-asked.ts';

interface RowProps {
  readonly destination: Destination;
  /** Of destinations that are there. */
  readonly names: readonly string[];
  readonly onChanged: () => void;
}

/** One destination: where it is, whether it takes a file, whose key it shows. Never a secret. */
export function DestinationRow({ destination, names, onChanged }: RowProps): ReactNode {
  const { name, place, secret } = destination;
  const { busy, refusal, ask } = useAsked();
  const [tested, setTested] = useState<DestinationTest | null>(null);
  const [testing, setTesting] = useState(false);
  const [sure, setSure] = useState(false);
  const [changing, setChanging] = useState(false);
  const known = place.kind === 'sftp' ? place.hostKey : null;
  const test = (): void => {
    setTesting(true);
    setTested(null);
    ask(() =>
      testDestination(name)
        .then(setTested)
        .finally(() => setTesting(false)),
    );
  };
  return (
    <li>
      <p>
        <strong>{name}</strong> {placePhraseOf(place)}
        {secret !== null ? (
          <small>, {labels.secrets[secret]}</small>
        ) : place.kind === 'folder' ? null : (
          <small>, {labels.noSecret}</small>
        )}
      </p>
      {place.kind !== 'sftp' ? null : (
        <p className="hand-soft">
          {known === null ? (
            labels.hostKeyUnknown
          ) : (
            <>
              {labels.hostKey} <span className="hand-print">{known}</span>
            </>
          )}
        </p>
      )}
      <p className="hand-acts">
        <button type="button" className="press" disabled={busy} onClick={test}>
          {labels.test}
          <span className="unseen">{labels.about(name)}</span>
        </button>
        <button
          type="button"
          className="press"
          disabled={busy}
          aria-expanded={changing}
          onClick={() => setChanging(!changing)}
        >
          {labels.change}
          <span className="unseen">{labels.about(name)}</span>
        </button>
        {sure ? (
          <span className="hand-sure">
            {labels.forgetSure}{' '}
            <button
              type="button"
              className="press"
              disabled={busy}
              onClick={() => ask(() => forgetDestination(name).then(onChanged))}
            >
              {labels.forget}
            </button>{' '}
            <button type="button" className="press" onClick={() => setSure(false)}>
              {labels.keepIt}
            </button>
          </span>
        ) : (
          <button type="button" className="press" disabled={busy} onClick={() => setSure(true)}>
            {labels.forget}
            <span className="unseen">{labels.about(name)}</span>
          </button>
        )}
      </p>
      {changing ? (
        <DestinationForm
          before={destination}
          names={names}
          onEnd={() => {
            setChanging(false);
            setTested(null);
            document.getElementById('hand-destinations')?.focus();
            onChanged();
          }}
        />
      ) : null}
      <div role="status">
        {testing ? <p>{labels.testing}</p> : null}
        {tested === null ? null : <TestSaid tested={tested} />}
        <p className="hand-refusal" hidden={refusal === ''}>
          {refusal}
        </p>
      </div>
      {tested === null || tested.hostKey === null || tested.hostKey === known ? null : (
        <HostKeyTrust
          destination={destination}
          shown={tested.hostKey}
          onTrusted={() => {
            setTested(null);
            onChanged();
          }}
        />
      )}
    </li>
  );
}

function TestSaid({ tested: { ok, findings } }: { readonly tested: DestinationTest }): ReactNode {
  return (
    <>
      <p className="hand-outcome">
        <VerdictShape judgement={ok ? 'good' : 'bad'} />
        {ok ? labels.tested : labels.testFailed}
      </p>
      {findings.map((finding) => (
        <p key={finding.code}>
          {/* Its sentence ends with a command; here the form below does that. */}
          {finding.code === 'send.host-key-unknown' ? labels.compareFirst : sentence(finding)}
        </p>
      ))}
    </>
  );
}
