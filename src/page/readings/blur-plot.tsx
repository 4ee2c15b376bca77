import type { ReactNode } from 'react';
import type { SharpReadings } from '../../contract/index.ts';
import { blurPhrase, readingLabels } from '../../words/index.ts';

/** What a point of the subject became: a streak along the movement, or a disc. */
export function BlurPlot({ blur }: { readonly blur: SharpReadings['blur'] }): ReactNode {
  return (
    <div className="plot plot-beside" data-plot="blur">
      <svg viewBox="-24 -24 48 48" aria-hidden="true">
        <circle className="plot-ground" r="23" />
        {blur.kind === 'movement' ? (
          <>
            <path className="plot-streak" d="M-15 0H15" transform={`rotate(${blur.directionDegrees ?? 0})`} />
            <path
              className="plot-line"
              d="M-20 0h40m-6 -5l6 5l-6 5m-28 -10l-6 5l6 5"
              transform={`rotate(${blur.directionDegrees ?? 0})`}
            />
          </>
        ) : (
          <circle
            className={blur.kind === 'focus' ? 'plot-disc' : 'plot-dotted'}
            r={blur.kind === 'focus' ? 10 : 12}
          />
        )}
      </svg>
      <div>
        <h3>{readingLabels.blur}</h3>
        <p>{blurPhrase(blur)}</p>
      </div>
    </div>
  );
}
