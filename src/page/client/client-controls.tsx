import type { ReactNode } from 'react';
import { type ClientScreen, copySpaces, type Job } from '../../contract/index.ts';
import { clientLabels, soundLabels } from '../../words/index.ts';
import { useFullScreen } from '../set/use-full-screen.ts';
import type { SizeImagePx } from '../viewport/index.ts';
import { type CropChoice, cropIn, cropValue, deliveryChoices, shapeChoices } from './crop-choice.ts';

interface ClientControlsProps {
  readonly awake: boolean;
  readonly screen: ClientScreen;
  readonly job: Job | null;
  /** The picture that is shown; null while there is none. */
  readonly picture: SizeImagePx | null;
  /** The page this device came from. */
  readonly back: { readonly href: string; readonly label: string };
  /** Why the station did not take what was chosen last; empty where it did. */
  readonly refusal: string;
  readonly onChange: (change: Partial<Omit<ClientScreen, 'job'>>) => void;
}

/** For the operator's hand; they go when nobody moves it, so that the client sees the picture and nothing else. */
export function ClientControls(props: ClientControlsProps): ReactNode {
  const { awake, screen, back, refusal, onChange } = props;
  const fullScreen = useFullScreen();
  return (
    <footer className="client-controls paper" data-awake={awake || refusal !== ''}>
      <a href={back.href}>{back.label}</a>
      <CropSelect {...props} />
      <label>
        <span>{clientLabels.copySpace}</span>
        <select
          aria-label={clientLabels.copySpace}
          value={screen.copySpace ?? ''}
          onChange={({ target }) =>
            onChange({ copySpace: copySpaces.find((side) => side === target.value) ?? null })
          }
        >
          <option value="">{clientLabels.noCopySpace}</option>
          {copySpaces.map((side) => (
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

/** What the job's own deliveries cut out stands first; a shape by hand is for what nobody has written down yet. */
function CropSelect({ screen, job, picture, onChange }: ClientControlsProps): ReactNode {
  const own = deliveryChoices(job);
  const value = cropValue(screen.crop);
  const known = [...own, ...shapeChoices];
  // One that was chosen before the job named others.
  const other = value === '' || known.some((choice) => choice.value === value) ? null : screen.crop;
  const name = ({ title, crop, value: shape }: CropChoice): string => {
    if (title === null) return shape;
    return picture !== null && cropIn(crop, picture) === null ? clientLabels.cutsNothing(title) : title;
  };
  const option = (choice: CropChoice): ReactNode => (
    <option key={choice.value} value={choice.value}>
      {name(choice)}
    </option>
  );
  return (
    <label>
      <span>{clientLabels.shape}</span>
      <select
        aria-label={clientLabels.shape}
        value={value}
        onChange={({ target }) =>
          onChange({ crop: known.find((choice) => choice.value === target.value)?.crop ?? null })
        }
      >
        <option value="">{clientLabels.wholePicture}</option>
        {own.length === 0 ? null : <optgroup label={clientLabels.deliveries}>{own.map(option)}</optgroup>}
        <optgroup label={clientLabels.shapes}>{shapeChoices.map(option)}</optgroup>
        {other === null ? null : option({ value, crop: other, title: null })}
      </select>
    </label>
  );
}
