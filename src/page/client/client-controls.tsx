import type { ReactNode } from 'react';
import type { ClientScreen, Job } from '../../contract/index.ts';
import { copySpaceSides, type ShareBox } from '../../facts/index.ts';
import { clientLabels, soundLabels } from '../../words/index.ts';
import { useFullScreen } from '../set/use-full-screen.ts';
import type { SizeImagePx } from '../viewport/index.ts';
import { CropSelect } from './crop-select.tsx';

interface ClientControlsProps {
  readonly awake: boolean;
  readonly screen: ClientScreen;
  readonly job: Job | null;
  /** The picture that is shown; null while there is none. */
  readonly picture: SizeImagePx | null;
  /** What is photographed in it, shares; null where it is not told. */
  readonly subject: ShareBox | null;
  /** The page this device came from. */
  readonly back: { readonly href: string; readonly label: string };
  /** Why the station did not take what was chosen last; empty where it did. */
  readonly refusal: string;
  readonly onChange: (change: Partial<Omit<ClientScreen, 'job'>>) => void;
}

/** For the operator's hand; they go when nobody moves it, so that the client sees the picture and nothing else. */
export function ClientControls(props: ClientControlsProps): ReactNode {
  const { awake, screen, job, picture, subject, back, refusal, onChange } = props;
  const fullScreen = useFullScreen();
  return (
    <footer className="client-controls paper" data-awake={awake || refusal !== ''}>
      <a href={back.href}>{back.label}</a>
      <CropSelect
        crop={screen.crop}
        job={job}
        picture={picture}
        subject={subject}
        onChoose={(crop) => onChange({ crop })}
      />
      <label>
        <span>{clientLabels.copySpace}</span>
        <select
          aria-label={clientLabels.copySpace}
          value={screen.copySpace ?? ''}
          onChange={({ target }) =>
            onChange({ copySpace: copySpaceSides.find((side) => side === target.value) ?? null })
          }
        >
          <option value="">{clientLabels.noCopySpace}</option>
          {copySpaceSides.map((side) => (
            <option key={side} value={side}>
              {clientLabels.copySpaces[side]}
            </option>
          ))}
        </select>
      </label>
      <button
        type="button"
        className="press"
        disabled={screen.frame === null}
        onClick={() => onChange({ frame: null })}
      >
        {clientLabels.follow}
      </button>
      <button
        type="button"
        className="press"
        aria-pressed={fullScreen.on}
        disabled={!fullScreen.can}
        onClick={fullScreen.toggle}
      >
        {soundLabels.fullScreen}
      </button>
      <span role="alert">{refusal}</span>
    </footer>
  );
}
