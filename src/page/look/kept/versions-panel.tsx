import { type ReactNode, useState } from 'react';
import type { Frame, Job, Look as KeptLook } from '../../../contract/index.ts';
import { lookLabels, versionPhrase } from '../../../words/index.ts';
import { useCall } from '../../choices/use-call.ts';
import { useLook as giveLook, saveLook } from '../../link/index.ts';
import { clockTime } from '../../set/clock.ts';
import type { Hand } from '../instruments/hand.ts';
import { type Base, baseOf } from '../state/base.ts';
import { GiveForm } from './give-form.tsx';
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
  readonly onCompare: (look: KeptLook) => void;
}

/** Saving, the versions there are, and giving one to shots. */
export function VersionsPanel(props: VersionsPanelProps): ReactNode {
  const { hand, base, kept, frame, job } = props;
  const [name, setName] = useState<string | null>(null);
  const [about, setAbout] = useState<string | null>(null);
  const [said, setSaid] = useState('');
  const { refusal, run } = useCall();
  const title = name ?? hand.look.title;
  const save = (): void => {
    const description = about ?? hand.look.description;
    setSaid(lookLabels.saving);
    run(async () => {
      const saved = await saveLook({ ...hand.look, title, description });
      props.onSaved(baseOf(saved));
      kept.reload(saved.id);
      setName(null);
      setAbout(null);
    }).then((isTaken) => setSaid(isTaken ? lookLabels.saved : ''));
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
            value={about ?? hand.look.description}
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
              <span>{versionPhrase(look.version, clockTime(Date.parse(look.savedAt)), look.savedBy)}</span>
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
                  onClick={() => props.onCompare(look)}
                >
                  {lookLabels.compare}
                </button>
              </span>
            </li>
          ))}
        </ul>
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
