import type { ReactNode } from 'react';
import type { Frame, Job } from '../../contract/index.ts';
import type { Question } from '../../facts/index.ts';
import { readingLabels } from '../../words/index.ts';
import { BlurPlot } from './blur-plot.tsx';
import { DepthPlot } from './depth-plot.tsx';
import { DriftPlot } from './drift-plot.tsx';
import { EdgePlot } from './edge-plot.tsx';
import { GhostControls } from './ghost-controls.tsx';
import { LostLegend } from './lost-legend.tsx';
import { PlacePlot } from './place-plot.tsx';
import { NoPlot } from './plot-figure.tsx';
import { ScaleControls } from './scale-controls.tsx';
import { SharpMapPlot } from './sharp-map-plot.tsx';
import { type Picking, SpotControls } from './spot-controls.tsx';
import { StopsPlot } from './stops-plot.tsx';
import { TargetCount } from './target-count.tsx';
import { TargetPlot } from './target-plot.tsx';
import type { LaidSwitch } from './use-laid-choice.ts';
import type { Measuring } from './use-measuring.ts';
import type { Readings } from './use-readings.ts';
import type { ReferencePicture } from './use-reference.ts';

interface QuestionPlotsProps extends Readings {
  readonly question: Question;
  /** Width by height of the upright picture. */
  readonly shape: number;
  readonly laid: LaidSwitch;
  readonly reference: ReferencePicture;
  /** Whether the frame is what its shot is held against. */
  readonly isReference: boolean;
  readonly frame: Frame;
  readonly picking: Picking;
  readonly measuring: Measuring;
  /** The frame's; null while it lies in the tray. */
  readonly job: Job | null;
}

/** The plots of one verdict, or why there are none. */
export function QuestionPlots(props: QuestionPlotsProps): ReactNode {
  const { question, readings, lost, shape, laid, reference, isReference, frame, picking, measuring, job } =
    props;
  if (question === 'arrived') return null;
  if (question === 'inPlace')
    return (
      <>
        <PlacePlot
          figures={frame.readings}
          findings={frame.verdicts.inPlace.findings}
          shape={shape}
          isAwaited={isPlaceAwaited(frame)}
        />
        <GhostControls laid={laid} reference={reference} isReference={isReference} />
        <ScaleControls frame={frame} job={job} measuring={measuring} />
      </>
    );
  if (readings === null)
    return <p className="plot-none">{lost ? readingLabels.notLoaded : readingLabels.loading}</p>;
  const { sharp, exposed, light, depth, target, goodEdgePx, badEdgePx, source } = readings;
  if (sharp === null || exposed === null) return <p className="plot-none">{readingLabels.notRead}</p>;
  const preliminary = source === 'preview' ? <p className="plot-none">{readingLabels.preliminary}</p> : null;
  if (question === 'colour')
    return target === null ? (
      <NoPlot title={readingLabels.patches} reason={readingLabels.noTarget} />
    ) : (
      <>
        {preliminary}
        <TargetPlot target={target} />
        {frame.readings.deliveredMeanDeltaE00 === undefined ? null : (
          <p className="plot-none">{readingLabels.patchesByOwn}</p>
        )}
        {target.source === 'preview' ? null : <TargetCount frame={frame} job={job} />}
      </>
    );
  if (question === 'exposed')
    return (
      <>
        {preliminary}
        <StopsPlot exposed={exposed} />
        <LostLegend exposed={exposed} laid={laid} />
        <DriftPlot light={light} />
      </>
    );
  return (
    <>
      {preliminary}
      <SharpMapPlot sharp={sharp} goodPx={goodEdgePx} badPx={badEdgePx} shape={shape} />
      <SpotControls frame={frame} spot={sharp.spot} picking={picking} />
      <EdgePlot sharp={sharp} goodPx={goodEdgePx} verdict={frame.verdicts.sharp} />
      <BlurPlot blur={sharp.blur} />
      <DepthPlot depth={depth} />
    </>
  );
}

function isPlaceAwaited({ verdicts: { inPlace } }: Frame): boolean {
  const codes = ['place.not-yet', 'place.preview', 'judge.not-measured'];
  return inPlace.findings.some(({ code }) => codes.includes(code));
}
