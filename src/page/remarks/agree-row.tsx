import { type ReactNode, useState } from 'react';
import { type Agreement, speakerCharactersMax } from '../../contract/index.ts';
import { agreementStanding, type SeenPicture } from '../../facts/index.ts';
import { agreementLabels, remarkLabels, saidBy, speakerName, standingWords } from '../../words/index.ts';
import { keepName, keptName } from '../choices/kept-name.ts';
import { CardDialog } from '../set/card-dialog.tsx';
import { clockTime } from '../set/clock.ts';
import type { Outgoing } from './outbox.ts';
import { isNameTaken, ownAgreements } from './own-agreements.ts';
import { UnsentNote } from './unsent-note.tsx';
import type { OutboxOfPage } from './use-outbox.ts';

interface AgreeRowProps {
  readonly shot: { readonly id: string; readonly name: string };
  /** As they are on the screen now. */
  readonly heroes: readonly SeenPicture[];
  /** Of every shot. */
  readonly agreements: readonly Agreement[];
  readonly outbox: OutboxOfPage;
  /** Names of the heroes' pictures, in the order of `heroes`. */
  readonly names: readonly string[];
  /** Whether the row stands where the shot is not named already. */
  readonly isAlone?: boolean;
  /** `again`: they are who agreed by this name on another device. */
  readonly onAgree: (name: string, again: boolean) => void;
  readonly onWithdraw: (id: string) => void;
}

/** Who agreed to a shot, whether that is still worth anything, and the button to do so. */
export function AgreeRow({
  shot,
  heroes,
  agreements,
  outbox,
  names,
  isAlone = false,
  onAgree,
  onWithdraw,
}: AgreeRowProps): ReactNode {
  const given = agreements.filter((each) => each.shot === shot.id);
  const known = new Set(given.map(({ id }) => id));
  const waiting = outbox.letters.filter(
    ({ letter }) => letter.kind === 'agreement' && letter.shot === shot.id && !known.has(letter.body.id),
  );
  const own = ownAgreements();
  const isOwnStanding = given.some(
    ({ id, pictures }) => own.has(id) && agreementStanding(pictures, heroes) === 'stands',
  );
  const isOnItsWay = waiting.some(({ refusal }) => refusal === null);
  if (heroes.length === 0 && given.length === 0 && waiting.length === 0) return null;
  return (
    <div className="agree" data-shot={shot.id}>
      {isAlone ? <p className="agree-shot">{agreementLabels.of(shot.name, names.length)}</p> : null}
      <ul>
        {given.map((agreement) => (
          <li key={agreement.id} data-standing={agreementStanding(agreement.pictures, heroes)}>
            <GivenWords agreement={agreement} heroes={heroes} />
            {own.has(agreement.id) ? (
              <button type="button" onClick={() => onWithdraw(agreement.id)}>
                {agreementLabels.withdraw}
                <span className="unseen"> {shot.name}</span>
              </button>
            ) : null}
          </li>
        ))}
        {waiting.map((outgoing) => (
          <WaitingWord key={outgoing.letter.body.id} outgoing={outgoing} outbox={outbox} />
        ))}
      </ul>
      {heroes.length === 0 || isOwnStanding || isOnItsWay ? null : (
        <AgreeButton
          shot={shot}
          names={names}
          isTaken={(name) => isNameTaken(name, given, own)}
          onAgree={onAgree}
        />
      )}
    </div>
  );
}

interface GivenWordsProps {
  readonly agreement: Agreement;
  readonly heroes: readonly SeenPicture[];
}

/** `Agreed: Ada, 14:02, to the picture as it is`. */
export function GivenWords({ agreement, heroes }: GivenWordsProps): ReactNode {
  const { by, at, pictures } = agreement;
  return (
    <span>
      <strong>{agreementLabels.title}</strong>: {saidBy(speakerName(by), clockTime(Date.parse(at)))},{' '}
      {standingWords[agreementStanding(pictures, heroes)]}
    </span>
  );
}

interface WaitingWordProps {
  readonly outgoing: Outgoing;
  readonly outbox: OutboxOfPage;
}

function WaitingWord({ outgoing, outbox }: WaitingWordProps): ReactNode {
  return (
    <li>
      <span>
        <strong>{agreementLabels.title}</strong>: {outgoing.letter.body.name ?? ''}, {agreementLabels.sending}
      </span>
      <UnsentNote outgoing={outgoing} outbox={outbox} />
    </li>
  );
}

interface AgreeButtonProps extends Pick<AgreeRowProps, 'shot' | 'names' | 'onAgree'> {
  /** Somebody agreed by this name already, on another device. */
  readonly isTaken: (name: string) => boolean;
}

function AgreeButton({ shot, names, isTaken, onAgree }: AgreeButtonProps): ReactNode {
  /** The name that was asked about: who is the same person says so by pressing again. */
  const [asked, setAsked] = useState<string | null>(null);
  const [asks, setAsks] = useState(false);
  const [name, setName] = useState(keptName);
  const agree = (): void => {
    const again = isTaken(name);
    if (again && asked !== name.trim()) {
      setAsked(name.trim());
      return;
    }
    setAsked(null);
    keepName(name.trim());
    setAsks(false);
    onAgree(name.trim(), again);
  };
  return (
    <>
      <button
        type="button"
        className="agree-button"
        onClick={() => {
          setName(keptName());
          setAsks(true);
        }}
      >
        {agreementLabels.agree}
        <span className="unseen"> {shot.name}</span>
      </button>
      <CardDialog
        title={`${agreementLabels.question} ${shot.name}`}
        open={asks}
        onClose={() => setAsks(false)}
      >
        <form
          className="say"
          onSubmit={(event) => {
            event.preventDefault();
            if (name.trim() !== '') agree();
          }}
        >
          <p>{agreementLabels.consequence(names)}</p>
          <label htmlFor={`agree-${shot.id}`}>{remarkLabels.name}</label>
          <input
            id={`agree-${shot.id}`}
            value={name}
            maxLength={speakerCharactersMax}
            autoComplete="name"
            onChange={(event) => setName(event.target.value)}
          />
          <p role="alert">{asked === null || asked !== name.trim() ? '' : agreementLabels.taken(asked)}</p>
          <p className="say-acts">
            <button type="submit" disabled={name.trim() === ''}>
              {asked !== null && asked === name.trim() ? agreementLabels.again : agreementLabels.agree}
            </button>
          </p>
        </form>
      </CardDialog>
    </>
  );
}
