import type * as contract from '../../contract/index.ts';
import { stepStops, stopsFrom, type Tolerances } from '../../facts/index.ts';
import { usualTolerances } from '../../judge/index.ts';
import type { FrameRow, Register } from '../../register/index.ts';
import type { FrameBook } from '../frame-book.ts';
import type { JobBook } from '../jobs/job-book.ts';
import { depthOf } from './depth-of.ts';
import { limitsOfFrame } from './frame-limits.ts';
import { lightSeries } from './light-series.ts';
import { targetShape } from './target-shape.ts';

export interface ReadingsDeskOptions {
  readonly book: Pick<FrameBook, 'row'>;
  readonly jobs: Pick<JobBook, 'jobs'>;
  readonly register: Pick<Register, 'readingDetail' | 'litFrames' | 'litFrame'>;
}

/** What was read in a frame's pixels, in the contract's shape; null where there is no such frame. */
export async function frameReadings(
  { book, jobs, register }: ReadingsDeskOptions,
  id: string,
): Promise<contract.FrameReadings | null> {
  const row = await book.row(id);
  if (row === null || row.files.length === 0) return null;
  const detail = row.readings === null ? null : await register.readingDetail(id);
  const { tolerances, reference } = limitsOfFrame(jobs.jobs(), new Map(), row);
  const edge = tolerances.edgeWidthPx ?? usualTolerances.edgeWidthPx;
  const about = {
    frame: id,
    version: row.version,
    goodEdgePx: edge.good,
    badEdgePx: edge.bad,
    depth: depthOf(row.capture),
  };
  if (row.readings === null || detail === null)
    return { ...about, source: null, sharp: null, exposed: null, light: null, target: null };
  const { sharp, exposed } = row.readings;
  return {
    ...about,
    source: exposed.source,
    sharp: sharpShape(sharp, detail),
    exposed: exposedShape(exposed, detail, tolerances.backdropGreyPercent !== undefined),
    light: await lightShape(register, row, reference, tolerances),
    target: targetShape(row.readings.colour, detail.patches, tolerances),
  };
}

type Detail = NonNullable<Awaited<ReturnType<Register['readingDetail']>>>;
type Kept = NonNullable<FrameRow['readings']>;

function sharpShape(
  { samplePx, spot, atSpot, elsewhere, blur }: Kept['sharp'],
  { map, profile }: Detail,
): contract.SharpReadings {
  return {
    samplePx,
    spot,
    atSpot,
    elsewhere,
    blur,
    map: {
      ...map,
      columnEnds: [...map.columnEnds],
      rowEnds: [...map.rowEnds],
      widthsPx: [...map.widthsPx],
    },
    profile: profile === null ? null : { ...profile, heights: [...profile.heights] },
  };
}

function exposedShape(
  exposed: Kept['exposed'],
  { histogram, lost }: Detail,
  whiteBackdrop: boolean,
): contract.ExposedReadings {
  const { red, green, blue } = histogram;
  const { saturatedPercent, islandsPercent, atBorderPercent, headroomStops, underNoisePercent } = exposed;
  const whiteBackdropPercent = whiteBackdrop ? atBorderPercent : 0;
  return {
    red: exposed.red,
    green: exposed.green,
    blue: exposed.blue,
    saturatedPercent: saturatedPercent - whiteBackdropPercent,
    islandsPercent,
    whiteBackdropPercent,
    headroomStops,
    underNoisePercent,
    middleStops: exposed.middleStops,
    histogram: { fromStops: stopsFrom, stepStops, red: [...red], green: [...green], blue: [...blue] },
    lost: { ...lost, runs: [...lost.runs] },
  };
}

async function lightShape(
  register: ReadingsDeskOptions['register'],
  row: FrameRow,
  reference: string | null,
  tolerances: Tolerances,
): Promise<contract.LightReadings | null> {
  const series = await lightSeries(register, row, reference);
  if (series === null) return null;
  const { good, bad } = tolerances.lightEv ?? usualTolerances.lightEv;
  return { ...series, goodEv: good, badEv: bad };
}
