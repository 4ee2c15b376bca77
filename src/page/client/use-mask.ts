import { useState } from 'react';
import type { Frame, Job } from '../../contract/index.ts';
import type { ShareBox } from '../../facts/index.ts';
import type { Placing } from '../readings/geometry/placing.ts';
import type { SizeImagePx } from '../viewport/index.ts';
import { type Crop, deliveryChoices } from './crop-choice.ts';
import { type Mask, maskOf } from './delivery-cut.ts';
import { subjectShown } from './subject-shown.ts';

export interface ChosenMask {
  readonly job: Job | null;
  readonly crop: Crop;
  readonly subject: ShareBox | null;
  readonly mask: Mask;
  readonly choose: (crop: Crop) => void;
}

const noMask: Mask = { crop: null, copySpace: null };

/** Which delivery's mask lies over the picture of this screen: the first that the job names, until somebody chooses. */
export function useMask(
  job: Job | null,
  frame: Frame | null,
  picture: SizeImagePx | null,
  placing: Placing | null,
): ChosenMask {
  // Of one job: another has deliveries of its own.
  const [chosen, setChosen] = useState<{ readonly job: string | null; readonly crop: Crop } | null>(null);
  const code = job?.code ?? null;
  const first = deliveryChoices(job)[0]?.crop ?? null;
  const crop = chosen !== null && chosen.job === code ? chosen.crop : first;
  const subject = subjectShown(frame, placing);
  return {
    job,
    crop,
    subject,
    mask: picture === null ? noMask : maskOf(crop, null, picture, subject),
    choose: (next) => setChosen({ job: code, crop: next }),
  };
}
