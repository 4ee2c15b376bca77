import { type ReactNode, useId } from 'react';
import { judgements } from '../../facts/index.ts';
import { judgementNames, soundLabels } from '../../words/index.ts';
import type { SoundChoices } from './sound-choices.ts';
import type { Sound } from './use-sound.ts';

const ways = ['off', 'tones', 'voice'] as const satisfies readonly SoundChoices['how'][];
const extents = ['all', 'trouble'] as const satisfies readonly SoundChoices['what'][];

/** What is heard, of which frames, how loud; and how each of it sounds. */
export function SoundForm({ sound }: { readonly sound: Sound }): ReactNode {
  const id = useId();
  const { choices, choose } = sound;
  const isOff = choices.how === 'off';
  return (
    <form className="choices sound-form" onSubmit={(event) => event.preventDefault()}>
      <fieldset className="choice">
        <legend>{soundLabels.how}</legend>
        <div className="picks">
          {ways.map((how) => (
            <Pick key={how} name={`${id}-how`} on={choices.how === how} choose={() => choose({ how })}>
              {soundLabels.ways[how]}
            </Pick>
          ))}
        </div>
        <small role="status">{noteOf(sound)}</small>
      </fieldset>
      <fieldset className="choice" disabled={isOff}>
        <legend>{soundLabels.about}</legend>
        <div className="picks">
          {extents.map((what) => (
            <Pick key={what} name={`${id}-what`} on={choices.what === what} choose={() => choose({ what })}>
              {soundLabels.what[what]}
            </Pick>
          ))}
        </div>
      </fieldset>
      <div className="choice">
        <label htmlFor={`${id}-volume`}>{soundLabels.volume}</label>
        <input
          id={`${id}-volume`}
          type="range"
          min="0"
          max="1"
          step="0.05"
          value={choices.volume}
          onChange={(event) => choose({ volume: event.target.valueAsNumber })}
        />
      </div>
      <div className="choice">
        <span>{soundLabels.listen}</span>
        <div className="picks">
          {[...judgements, 'gone' as const].map((what) => (
            <button key={what} type="button" className="sound-example" onClick={() => sound.example(what)}>
              {what === 'gone' ? soundLabels.gone : judgementNames[what]}
            </button>
          ))}
        </div>
      </div>
      <div className="choice">
        <label htmlFor={`${id}-nearing`}>{soundLabels.nearing}</label>
        <input
          id={`${id}-nearing`}
          type="checkbox"
          disabled={isOff}
          checked={choices.nearing}
          aria-describedby={`${id}-nearing-help`}
          onChange={(event) => choose({ nearing: event.target.checked })}
        />
        <small id={`${id}-nearing-help`}>{soundLabels.nearingHelp}</small>
      </div>
    </form>
  );
}

interface PickProps {
  readonly name: string;
  readonly on: boolean;
  readonly choose: () => void;
  readonly children: ReactNode;
}

function Pick({ name, on, choose, children }: PickProps): ReactNode {
  return (
    <label>
      <input type="radio" name={name} checked={on} onChange={choose} />
      {children}
    </label>
  );
}

/** Why nothing is heard, where something should be. */
function noteOf({ choices, waits, elsewhere, hasVoice }: Sound): string {
  if (waits) return soundLabels.waits;
  if (elsewhere) return soundLabels.elsewhere;
  return choices.how === 'voice' && !hasVoice ? soundLabels.noVoice : '';
}
