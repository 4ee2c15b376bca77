import type { ReactNode } from 'react';
import type { Job } from '../../contract/index.ts';
import type { ShareBox } from '../../facts/index.ts';
import { clientLabels } from '../../words/index.ts';
import type { SizeImagePx } from '../viewport/index.ts';
import { type Crop, type CropChoice, cropValue, deliveryChoices, shapeChoices } from './crop-choice.ts';
import { maskOf } from './delivery-cut.ts';

interface CropSelectProps {
  readonly crop: Crop;
  readonly job: Pick<Job, 'deliveries'> | null;
  /** The picture that is shown; null while there is none. */
  readonly picture: SizeImagePx | null;
  readonly subject: ShareBox | null;
  readonly onChoose: (crop: Crop) => void;
}

/** What the job's own deliveries cut out stands first; a shape by hand is for what nobody has written down yet. */
export function CropSelect({ crop, job, picture, subject, onChoose }: CropSelectProps): ReactNode {
  const own = deliveryChoices(job);
  const value = cropValue(crop);
  const known = [...own, ...shapeChoices];
  // One that was chosen before the job named others.
  const other = value === '' || known.some((choice) => choice.value === value) ? null : crop;
  const name = ({ title, crop: of, value: shape }: CropChoice): string => {
    if (title === null) return shape;
    if (picture === null) return title;
    const mask = maskOf(of, null, picture, subject);
    return mask.crop === null && mask.copySpace === null ? clientLabels.cutsNothing(title) : title;
  };
  const option = (choice: CropChoice): ReactNode => (
    <option key={choice.value} value={choice.value}>
      {name(choice)}
    </option>
  );
  return (
    <label className="crop-choice">
      <span>{clientLabels.shape}</span>
      <select
        aria-label={clientLabels.shape}
        value={value}
        onChange={({ target }) =>
          onChoose(known.find((choice) => choice.value === target.value)?.crop ?? null)
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
