import type { ReactNode } from 'react';

interface PlotFigureProps {
  readonly title: string;
  /** What the drawing says, in words. */
  readonly caption: string;
  readonly width: number;
  readonly height: number;
  readonly name: string;
  readonly children: ReactNode;
}

/** A drawing with its heading and, below it, the same in words; a reader of the page's text gets the words. */
export function PlotFigure({ title, caption, width, height, name, children }: PlotFigureProps): ReactNode {
  return (
    <figure className="plot" data-plot={name}>
      <h3>{title}</h3>
      <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
        {children}
      </svg>
      <figcaption>{caption}</figcaption>
    </figure>
  );
}

/** In the place of a plot, why there is none. */
export function NoPlot({ title, reason }: { readonly title: string; readonly reason: string }): ReactNode {
  return (
    <div className="plot plot-none">
      <h3>{title}</h3>
      <p>{reason}</p>
    </div>
  );
}
