import type { ReactNode } from 'react';
import { maskPhrase } from '../../words/index.ts';
import { rectOf } from '../readings/laid-rect.ts';
import { useDevicePixelRatio } from '../set/use-media.ts';
import { useView, type Zoom } from '../set/use-zoom.ts';
import { copySpaceIn, type PartShares, type SizeCssPx, type SizeImagePx } from '../viewport/index.ts';
import type { Mask } from './delivery-cut.ts';
import '../style/delivery-mask.css';

interface DeliveryMaskProps {
  readonly mask: Mask;
  readonly picture: SizeImagePx;
  readonly free: SizeCssPx;
  readonly zoom: Zoom;
}

const whole: PartShares = { left: 0, top: 0, width: 1, height: 1 };

/**
 * What the delivery will not hold, under the surround's grey, and where words will stand, within a thin line; moved along with the
 * picture.
 */
export function DeliveryMask({ mask, picture, free, zoom }: DeliveryMaskProps): ReactNode {
  const unit = useDevicePixelRatio();
  const view = useView(zoom.motion);
  const { crop, copySpace } = mask;
  if (crop === null && copySpace === null) return null;
  const { left, top, width, height } = rectOf(view, zoom.motion.stage, picture, free, unit);
  const words = copySpace === null ? null : copySpaceIn(crop ?? whole, copySpace);
  return (
    <div className="delivery-mask">
      <svg
        role="img"
        aria-label={maskPhrase(crop, copySpace)}
        style={{ left: left / unit, top: top / unit, width: width / unit, height: height / unit }}
        viewBox="0 0 1 1"
        preserveAspectRatio="none"
      >
        {crop === null ? null : (
          <path className="mask-shade" fillRule="evenodd" d={`M0 0H1V1H0Z${pathOf(crop)}`} />
        )}
        {words === null ? null : <path className="mask-words" d={pathOf(words)} />}
      </svg>
    </div>
  );
}

function pathOf({ left, top, width, height }: PartShares): string {
  return `M${left} ${top}h${width}v${height}h${-width}Z`;
}
