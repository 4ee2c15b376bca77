import type { JobReport, LightPoint, TimeStep, TimeStepName } from '../job/index.ts';
import { reportLabels } from '../words/index.ts';
import { type Box, black, type Ink, type Paper, soft } from './document.ts';
import { Plot, roundTicks } from './plot.ts';

const captionPt = 7.5;
const within: Ink = [0.9, 0.9, 0.9];
/** Points of a curve: more are not seen at this size. */
const curvePointsMax = 300;
/** Longer jobs have nights in them: their pictures are drawn in their order. */
const dayMs = 24 * 3_600_000;

/** The box a plot may take, and below it its words. Gives where those end. */
type DrawPart = (paper: Paper, report: JobReport, box: Box, clock: (atMs: number) => string) => number;

/** Which share of frames was on the screen after how long. */
export const drawWaits: DrawPart = (paper, { times }, box) => {
  const step = (name: TimeStepName): TimeStep | undefined =>
    times.steps.find((each) => each.step === name && each.seconds.length > 0);
  const fromShutter = step('shutter-view') !== undefined || step('shutter-rendering') !== undefined;
  const view = step(fromShutter ? 'shutter-view' : 'byte-view');
  const rendering = step(fromShutter ? 'shutter-rendering' : 'byte-rendering');
  const known = [view, rendering].filter((each) => each !== undefined);
  if (known.length === 0) return words(paper, [reportLabels.noWaits], box, box.y + 4);
  // Up to the slowest in a hundred where that can be told: one frame that came hours later must not press the others flat.
  const reach = Math.max(
    0.5,
    ...known.map(({ p99S, p90S, maxS }) => p99S ?? (p90S === null ? (maxS ?? 1) : p90S * 2)),
  );
  const ticks = roundTicks(0, reach * 1.05, 5).map((at) => ({ at, label: String(at) }));
  const xTitle = fromShutter ? reportLabels.waitsAxis : reportLabels.waitsAxisByte;
  const shares = [0, 50, 90, 100].map((at) => ({ at, label: String(at) }));
  const plot = new Plot(
    paper,
    box,
    { from: 0, to: reach * 1.05, ticks, title: xTitle },
    { from: 0, to: 100, ticks: shares, title: reportLabels.shareAxis },
  );
  plot.axes();
  if (view !== undefined) plot.line(curve(view, reach * 1.05), 1.3);
  if (rendering !== undefined) plot.line(curve(rendering, reach * 1.05), 1.3, true);
  const beyond = Math.max(
    ...known.map(({ seconds }) => seconds.filter((each) => each > reach * 1.05).length),
  );
  return words(
    paper,
    [
      ...(view === undefined ? [] : [`${reportLabels.view} (line): ${reportLabels.percentiles(view)}`]),
      ...(rendering === undefined
        ? []
        : [`${reportLabels.rendering} (broken line): ${reportLabels.percentiles(rendering)}`]),
      ...(beyond === 0 ? [] : [reportLabels.beyond(beyond)]),
      ...(fromShutter ? [] : [reportLabels.shutterUnknown]),
    ],
    box,
    box.y + box.height,
  );
};

/** Steps of the share of frames that needed no longer, up to a bound. */
function curve({ seconds }: TimeStep, reach: number): readonly (readonly [number, number])[] {
  const stride = Math.max(1, Math.ceil(seconds.length / curvePointsMax));
  const points: [number, number][] = [[0, 0]];
  let share = 0;
  for (const [index, second] of seconds.entries()) {
    if (second > reach) break;
    if (index % stride !== 0 && index !== seconds.length - 1) continue;
    points.push([Math.max(0, second), share]);
    share = ((index + 1) / seconds.length) * 100;
    points.push([Math.max(0, second), share]);
  }
  return [...points, [reach, share]];
}

/** How the light of each picture stood to the reference of its shot. */
export const drawLight: DrawPart = (paper, { light }, box, clock) => {
  const [first] = light.points;
  const last = light.points.at(-1);
  if (first === undefined || last === undefined)
    return words(paper, [reportLabels.noLight(light.unknown)], box, box.y + 4);
  const worst = light.points.reduce((a, b) => (Math.abs(b.ev) > Math.abs(a.ev) ? b : a));
  const reach = Math.max(light.limit.bad * 1.2, Math.abs(worst.ev) * 1.1);
  const { place, axis } = lightAxis(light.points, first, last, clock);
  const evs = roundTicks(-reach, reach, 5).map((at) => ({
    at,
    label: at > 0 ? `+${at}` : String(at).replace('-', '−'),
  }));
  const plot = new Plot(paper, box, axis, {
    from: -reach,
    to: reach,
    ticks: evs,
    title: reportLabels.lightAxis,
  });
  plot.band(-light.limit.good, light.limit.good, within);
  plot.axes();
  for (const bad of [-light.limit.bad, light.limit.bad]) {
    plot.line(
      [
        [axis.from, bad],
        [axis.to, bad],
      ],
      0.6,
      true,
      soft,
    );
  }
  for (const [index, point] of light.points.entries()) {
    const isBad = point.judgement === 'bad';
    const [x, y] = [plot.x(place(point, index)), plot.y(point.ev)];
    paper.fill(black);
    paper.ink(black);
    // A ring with a bar is bad, as everywhere.
    if (isBad) {
      paper.doc.lineWidth(0.9).circle(x, y, 2.6).stroke();
      paper.rule(y, 1, black, 5.2, x - 2.6);
    } else paper.doc.circle(x, y, 1.5).fill();
  }
  return words(
    paper,
    [
      reportLabels.lightCaption(light.points.length, worst, light.unknown),
      reportLabels.lightLimits(light.limit),
    ],
    box,
    box.y + box.height,
  );
};

/** Time of day within a day, else the order. */
function lightAxis(
  points: readonly LightPoint[],
  first: LightPoint,
  last: LightPoint,
  clock: (atMs: number) => string,
): { place: (point: LightPoint, index: number) => number; axis: ConstructorParameters<typeof Plot>[2] } {
  const spanMs = last.atMs - first.atMs;
  if (points.length > 1 && spanMs > 0 && spanMs <= dayMs) {
    const edge = spanMs * 0.03;
    const ticks = [first.atMs, first.atMs + spanMs / 2, last.atMs].map((at) => ({ at, label: clock(at) }));
    const axis = { from: first.atMs - edge, to: last.atMs + edge, ticks, title: reportLabels.timeAxis };
    return { place: ({ atMs }) => atMs, axis };
  }
  const to = points.length + 0.5;
  const ticks = [1, points.length].map((at) => ({ at, label: String(at) }));
  const axis = {
    from: 0.5,
    to,
    ticks: points.length === 1 ? ticks.slice(1) : ticks,
    title: reportLabels.orderAxis,
  };
  return { place: (_, index) => index + 1, axis };
}

function words(paper: Paper, lines: readonly string[], { x, width }: Box, top: number): number {
  let y = top;
  for (const line of lines) y += paper.line(line, { x, y }, { size: captionPt, width }) + 1;
  return y;
}
