import { type ReactNode, useState } from 'react';
import type { Frame, Job, Look as KeptLook } from '../../../contract/index.ts';
import { alreadyPhrase, lookLabels, versionPhrase } from '../../../words/index.ts';
import { useCall } from '../../choices/use-call.ts';
import { useLook as giveLook, saveLook } from '../../link/index.ts';
import { dayAndTime } from '../../set/clock.ts';
import type { Hand } from '../instruments/hand.ts';
import { type Base, baseOf } from '../state/base.ts';
import { GiveForm } from './give-form.tsx';
import type { Compared } from './use-compare.ts';
import type { Kept } from './use-kept.ts';

interface VersionsPanelProps {
  readonly hand: Hand;
  readonly base: Base;
  readonly isTouched: boolean;
  readonly kept: Kept;
  readonly frame: Frame | null;
  readonly job: Job | null;
  readonly onSaved: (base: Base) => void;
  readonly onOpen: (base: Base) => void;
  readonly onBefore: (look: KeptLook) => void;
  readonly compared: Compared;
}

/** Saving, the versions there are, and giving one to shots. */
export function VersionsPanel(props: VersionsPanelProps): ReactNode {
  const { hand, base, kept, frame, job } = props;
  const [name, setName] = useState<string | null>(null);
  const [about, setAbout] = useState<string | null>(null);
  const [said, setSaid] = useState('');
  const { refusal, run } = useCall();
  const isCompared = (look: KeptLook): boolean => props.compared.looks.some(({ id }) => id === look.id);
  const title = name ?? hand.look.title;
  // What is said of one look is not said of another that begins from it.
  const wasSaid = sameName(title, hand.look.title) ? hand.look.description : '';
  const save = (): void => {
    const description = about ?? wasSaid;
    setSaid(lookLabels.saving);
    run(async () => {
      const { saved, isNew } = await saveLook({ ...hand.look, title, description });
      props.onSaved(baseOf(saved));
      kept.reload(saved.id);
      setName(null);
      setAbout(null);
      setSaid(isNew ? lookLabels.saved : alreadyPhrase(saved.version));
    }).then((isTaken) => isTaken || setSaid(''));
  };
  return (
    <>
      <form
        className="panel-group save-form"
        onSubmit={(event) => {
          event.preventDefault();
          save();
        }}
      >
        <label>
          {lookLabels.name}
          <input value={title} maxLength={80} required onChange={(event) => setName(event.target.value)} />
        </label>
        <label>
          {lookLabels.description}
          <input
            value={about ?? wasSaid}
            maxLength={400}
            onChange={(event) => setAbout(event.target.value)}
          />
        </label>
        <button type="submit" className="press" disabled={title.trim() === ''}>
          {lookLabels.save}
        </button>
        <p role="status" className="panel-hint">
          {refusal === '' ? said || lookLabels.saveHint : refusal}
        </p>
      </form>
      <div className="panel-group panel-group-wide">
        <NameRow kept={kept} />
        <ul className="version-list">
          {kept.versions.map((look) => (
            <li key={look.id} data-open={look.id === base.id}>
              <span>{versionPhrase(look.version, dayAndTime(Date.parse(look.savedAt)), look.savedBy)}</span>
              <span className="panel-presses">
                <button type="button" className="press" onClick={() => props.onOpen(baseOf(look))}>
                  {lookLabels.open}
                </button>
                <button type="button" className="press" onClick={() => props.onBefore(look)}>
                  {lookLabels.show}
                </button>
                <button
                  type="button"
                  className="press"
                  disabled={frame === null}
                  aria-pressed={isCompared(look)}
                  onClick={() => props.compared.toggle(look)}
                >
                  {lookLabels.compare}
                </button>
              </span>
            </li>
          ))}
        </ul>
        <p role="status" className="panel-hint">
          {props.compared.looks.length === 1 ? lookLabels.oneMore : ''}
        </p>
      </div>
      <GiveForm
        version={base.id === null || props.isTouched ? null : base}
        frame={frame}
        job={job}
        onGive={(use) => run(() => giveLook(base.id ?? '', use))}
      />
    </>
  );
}

/** As the station holds names against each other: large or small, with however many blanks. */
function sameName(one: string, other: string): boolean {
  const plain = (name: string): string => name.trim().replace(/\s+/g, ' ').toLowerCase();
  return plain(one) === plain(other);
}

function NameRow({ kept }: { readonly kept: Kept }): ReactNode {
  const { looks } = kept;
  if (looks === null) return null;
  if (looks.length === 0) return <p className="panel-said">{lookLabels.nothingKept}</p>;
  const shown = kept.versions[0]?.name;
  return (
    <div className="panel-presses">
      {looks.map((look) => (
        <button
          key={look.id}
          type="button"
          className="press"
          aria-pressed={look.name === shown}
          onClick={() => kept.choose(look.id)}
        >
          {look.name}
        </button>
      ))}
    </div>
  );
}
