import { type FormEvent, type ReactNode, useId, useState } from 'react';
import type { Strike } from '../../contract/index.ts';
import { strikeLabels } from '../../words/index.ts';
import { keepName, keptName } from '../choices/kept-name.ts';
import { signStrike } from '../link/index.ts';
import { dayAndTime } from '../set/clock.ts';
import type { StrikeSeen } from './use-strike.ts';

interface SignatureProps extends Pick<StrikeSeen, 'say'> {
  readonly check: Strike;
}

/** Who signed; the field to sign where nothing is open; on paper the lines to sign by hand. */
export function StrikeSignature({ check, say }: SignatureProps): ReactNode {
  const { signed, ready, job, state } = check;
  return (
    <section className="strike-signature">
      <h2>{strikeLabels.signTitle}</h2>
      {signed === null ? null : (
        <p className={signed.stands ? '' : 'strike-reopened'}>
          {(signed.stands ? strikeLabels.signedBy : strikeLabels.reopened)(
            signed.name,
            dayAndTime(Date.parse(signed.at)),
          )}{' '}
          <button
            type="button"
            className="strike-screen"
            onClick={() => void say(() => signStrike(job, null, state))}
          >
            {strikeLabels.takeBack}
          </button>
        </p>
      )}
      {signed?.stands === true ? null : ready ? (
        <SignForm onSign={(name) => say(() => signStrike(job, name, state))} />
      ) : (
        <p className="strike-screen">{strikeLabels.signWhenReady}</p>
      )}
      <dl className="strike-paper">
        {[strikeLabels.onPaperName, strikeLabels.onPaperDate, strikeLabels.onPaperSignature].map((label) => (
          <div key={label}>
            <dd />
            <dt>{label}</dt>
          </div>
        ))}
      </dl>
    </section>
  );
}

function SignForm({ onSign }: { readonly onSign: (name: string) => Promise<boolean> }): ReactNode {
  const id = useId();
  const [name, setName] = useState(keptName);
  const sign = (event: FormEvent): void => {
    event.preventDefault();
    keepName(name.trim());
    void onSign(name.trim());
  };
  return (
    <form className="strike-sign strike-screen" onSubmit={sign}>
      <label htmlFor={id}>{strikeLabels.yourName}</label>
      <input
        id={id}
        value={name}
        maxLength={120}
        autoComplete="name"
        aria-describedby={`${id}-help`}
        onChange={(event) => setName(event.target.value)}
      />
      <button type="submit" className="press" disabled={name.trim() === ''}>
        {strikeLabels.sign}
      </button>
      <small id={`${id}-help`}>{strikeLabels.signHelp}</small>
    </form>
  );
}
