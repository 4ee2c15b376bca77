import type { ReactNode } from 'react';
import { clientLabels, maskPhrase } from '../../words/index.ts';
import type { SizeImagePx } from '../viewport/index.ts';
import { deliveryChoices } from './crop-choice.ts';
import { CropSelect } from './crop-select.tsx';
import type { ChosenMask } from './use-mask.ts';

interface MaskSlipProps {
  readonly chosen: ChosenMask;
  readonly picture: SizeImagePx;
}

/** Which mask lies over the picture, another one to choose, and in words what it keeps. */
export function MaskSlip({ chosen, picture }: MaskSlipProps): ReactNode {
  const { job, crop, subject, mask, choose } = chosen;
  const isNone = crop === null && deliveryChoices(job).length === 0;
  return (
    <fieldset className="mask-slip paper">
      <legend className="unseen">{clientLabels.mask}</legend>
      <CropSelect crop={crop} job={job} picture={picture} subject={subject} onChoose={choose} />
      <p role="status">{isNone ? clientLabels.noDelivery : maskPhrase(mask.crop, mask.copySpace)}</p>
    </fieldset>
  );
}
