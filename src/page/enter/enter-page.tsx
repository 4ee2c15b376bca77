import { type FormEvent, type ReactNode, useCallback, useEffect, useId, useState } from 'react';
import { enterLabels } from '../../words/index.ts';
import { enterByLink, wordsOf } from '../link/index.ts';
import '../style/enter.css';

/** Under TLS the browser says so; on this computer itself nothing crosses a network. */
const isSecure = window.isSecureContext;

/**
 * The page a link leads to: takes the secret out of the address, exchanges it for a cookie and goes on. In clear it asks
 * first, since what follows can be read along.
 */
export function EnterPage(): ReactNode {
  const [token, setToken] = useState(takeToken);
  const [state, setState] = useState<'asking' | 'entering'>(isSecure && token !== '' ? 'entering' : 'asking');
  const [answer, setAnswer] = useState('');
  const enter = useCallback((secret: string) => {
    setState('entering');
    enterByLink(secret).then(
      () => location.replace('/'),
      (thrown: unknown) => {
        setState('asking');
        setAnswer(wordsOf(thrown, enterLabels.unreachable));
      },
    );
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: once, with what the address brought
  useEffect(() => {
    if (isSecure && token !== '') enter(token);
  }, []);
  // Another link opened over this page loads nothing anew.
  useEffect(() => {
    const again = (): void => {
      const other = takeToken();
      if (other === '') return;
      setToken(other);
      if (isSecure) enter(other);
    };
    addEventListener('hashchange', again);
    return () => removeEventListener('hashchange', again);
  }, [enter]);
  return (
    <main className="enter">
      <div className="enter-card paper">
        <h1>{enterLabels.title}</h1>
        {state === 'entering' ? (
          <p role="status">{enterLabels.wait}</p>
        ) : (
          <Asking token={token} setToken={setToken} enter={enter} answer={answer} />
        )}
      </div>
    </main>
  );
}

interface AskingProps {
  readonly token: string;
  readonly setToken: (token: string) => void;
  readonly enter: (token: string) => void;
  readonly answer: string;
}

function Asking({ token, setToken, enter, answer }: AskingProps): ReactNode {
  const id = useId();
  const submit = (event: FormEvent): void => {
    event.preventDefault();
    enter(token);
  };
  return (
    <form onSubmit={submit}>
      <p role="alert">{answer}</p>
      {isSecure ? null : (
        <>
          <p className="enter-clear">{enterLabels.clear}</p>
          <p>
            <a className="enter-button" href={`https://${location.host}/in#${encodeURIComponent(token)}`}>
              {enterLabels.secure}
            </a>
          </p>
          <p>{enterLabels.secureHelp}</p>
        </>
      )}
      <label htmlFor={id}>{enterLabels.token}</label>
      <input
        id={id}
        value={token}
        maxLength={100}
        autoComplete="off"
        autoCapitalize="none"
        spellCheck={false}
        aria-describedby={`${id}-help`}
        onChange={(event) => setToken(event.target.value)}
      />
      <small id={`${id}-help`}>{enterLabels.tokenHelp}</small>
      <button type="submit" className="enter-button" disabled={token.trim() === ''}>
        {isSecure ? enterLabels.enter : enterLabels.goOn}
      </button>
      <section className="enter-certificate">
        <h2>{enterLabels.certificate}</h2>
        <p>{enterLabels.certificateSteps}</p>
        <p>
          <a href="/api/v1/station/certificate.crt" download>
            {enterLabels.certificate}, .crt
          </a>{' '}
          <a href="/api/v1/station/certificate.pem" download>
            {enterLabels.certificate}, .pem
          </a>
        </p>
      </section>
    </form>
  );
}

/** The secret in the address, which it is taken out of at once: no history and no screenshot keeps it. */
function takeToken(): string {
  const token = location.hash.slice(1);
  if (token !== '') history.replaceState(null, '', location.pathname);
  return token;
}
