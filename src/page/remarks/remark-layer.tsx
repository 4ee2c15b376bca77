import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { pinNames } from '../../words/index.ts';
import type { Placing } from '../readings/geometry/placing.ts';
import { rectOf } from '../readings/laid-rect.ts';
import { useDevicePixelRatio } from '../set/use-media.ts';
import { useView, type Zoom } from '../set/use-zoom.ts';
import type { SizeCssPx, SizeImagePx } from '../viewport/index.ts';
import { Pins } from './pins.tsx';

interface RemarkLayerProps {
  readonly frame: Frame;
  /** Points are places of the original. */
  readonly placing: Placing;
  readonly picture: SizeImagePx;
  readonly free: SizeCssPx;
  readonly zoom: Zoom;
  readonly chosen: string | null;
  readonly onChoose: (id: string) => void;
}

/** The pins of the frame that is shown, moved along with its picture; only they take what the hand does. */
export function RemarkLayer(props: RemarkLayerProps): ReactNode {
  const { frame, placing, picture, free, zoom, chosen, onChoose } = props;
  const unit = useDevicePixelRatio();
  const view = useView(zoom.motion);
  if (frame.remarks.length === 0) return null;
  const { left, top, width, height } = rectOf(view, zoom.motion.stage, picture, free, unit);
  return (
    <div className="remark-layer">
      <div
        style={{ left: left / unit, top: top / unit, width: width / unit, height: height / unit }}
        data-testid="pins"
      >
        <Pins
          remarks={frame.remarks}
          names={pinNames(frame.remarks)}
          toShown={placing.toShown}
          chosen={chosen}
          onChoose={onChoose}
        />
      </div>
    </div>
  );
}
