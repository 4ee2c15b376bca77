import type { ReactNode } from 'react';
import { pageLabels, scalePhrase } from '../../words/index.ts';
import { useScale, useView, type Zoom } from './use-zoom.ts';

/** How closely one looks, in words, and the buttons that change it. */
export function ZoomControls({ zoom }: { readonly zoom: Zoom }): ReactNode {
  const scale = useScale(zoom.motion);
  const close = useView(zoom.motion) !== null;
  if (scale === null) return null;
  return (
    <fieldset className="zoom paper" data-close={close}>
      <legend className="unseen">{pageLabels.scale}</legend>
      <button type="button" aria-label={pageLabels.farther} onClick={() => zoom.take('farther')}>
        −
      </button>
      <output className="zoom-scale" data-testid="scale">
        {scalePhrase(scale)}
      </output>
      <button type="button" aria-label={pageLabels.closer} onClick={() => zoom.take('closer')}>
        +
      </button>
      <button
        type="button"
        className="zoom-pixels"
        aria-label={scale === 1 ? pageLabels.wholePicture : pageLabels.pixelForPixel}
        onClick={() => zoom.take('pixels')}
      >
        {scale === 1 ? pageLabels.wholePicture : '1:1'}
      </button>
    </fieldset>
  );
}
