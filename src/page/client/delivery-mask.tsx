import type { ReactNode } from 'react';
import type { CopySpace } from '../../contract/index.ts';
import { copySpaceIn, fitBox, type PartShares, type SizeCssPx, type SizeImagePx } from '../viewport/index.ts';

interface DeliveryMaskProps {
  /** What is delivered, shares of the picture; null for all of it. */
  readonly crop: PartShares | null;
  readonly copySpace: CopySpace | null;
  readonly picture: SizeImagePx;
  readonly free: SizeCssPx;
  readonly devicePixelRatio: number;
}

const whole: PartShares = { left: 0, top: 0, width: 1, height: 1 };

/** What the delivery will not hold, under the surround's grey, and where words will stand, within a thin line. */
export function DeliveryMask(props: DeliveryMaskProps): ReactNode {
  const { crop, copySpace, picture, free, devicePixelRatio } = props;
  if (crop === null && copySpace === null) return null;
  const box = fitBox(picture, free, devicePixelRatio);
  const words = copySpace === null ? null : copySpaceIn(crop ?? whole, copySpace);
  return (
    <svg
      className="delivery-mask"
      aria-hidden="true"
      style={{ left: box.leftCssPx, top: box.topCssPx, width: box.widthCssPx, height: box.heightCssPx }}
      viewBox="0 0 1 1"
      preserveAspectRatio="none"
    >
      {crop === null ? null : (
        <path className="mask-shade" fillRule="evenodd" d={`M0 0H1V1H0Z${pathOf(crop)}`} />
      )}
      {words === null ? null : <path className="mask-words" d={pathOf(words)} />}
    </svg>
  );
}

function pathOf({ left, top, width, height }: PartShares): string {
  return `M${left} ${top}h${width}v${height}h${-width}Z`;
}
