import { availableParallelism } from 'node:os';
import type { StationEvent } from '../contract/index.ts';
import type { Jobs } from '../job/index.ts';
import type { FileRow, FrameRow } from '../register/index.ts';
import {
  ExifToolReader,
  ExifToolWriter,
  type SightPool,
  startDevelopPool,
  startSightPool,
} from '../workers/index.ts';
import { inspectFile } from './arrival-watch.ts';
import type { Closers } from './closers.ts';
import { Deliveries } from './deliveries/deliveries.ts';
import { DestinationBook } from './destinations/destination-book.ts';
import { Developing } from './developing.ts';
import { FirstViews } from './first-views.ts';
import { pathOfFile } from './frame-files.ts';
import { FrameFlow } from './frame-flow.ts';
import { renderedWith } from './looks/rendered-with.ts';
import { Tries } from './looks/tries.ts';
import type { Shelves } from './open-shelves.ts';
import { FrameJudging } from './readings/frame-judging.ts';
import type { FrameLimits } from './readings/frame-limits.ts';
import { LightBook } from './readings/light-book.ts';
import { PreviewJudging } from './readings/preview-judging.ts';
import { ReferencePlanes } from './readings/reference-planes.ts';
import { readElsewhere, SpotsOfTheDay, spotFor } from './readings/spot-readings.ts';
import { isStale } from './readings/stale.ts';
import { Regions } from './regions.ts';
import { fileToShow, renderSource } from './render-source.ts';
import { plainly } from './rendered-by.ts';
import { Renderings, type RenderSource } from './renderings.ts';
import { sayKeptAnew } from './say-kept-anew.ts';
import { Scenes } from './scenes.ts';
import { shownPicture } from './shown-picture.ts';
import { SlateWatch } from './slates/slate-watch.ts';
import { describeTrouble, type StationLog } from './station-log.ts';
import { zoneOffsetMinutes } from './zone.ts';

/** What makes frames visible. */
export interface Frames {
  readonly flow: FrameFlow;
  readonly developing: Developing;
  readonly views: FirstViews;
  readonly renderings: Renderings;
  readonly regions: Regions;
  readonly scenes: Scenes;
  readonly tries: Tries;
  readonly slates: SlateWatch;
  readonly deliveries: Deliveries;
  readonly sight: SightPool;
}

/** Starts what carries frames from their first byte to the page. Threads come with the first frame. */
export function openFrames(
  shelves: Shelves,
  renderingsBytesMax: number,
  publish: (event: StationEvent) => void,
  now: () => number,
  log: StationLog,
  closers: Closers,
): Frames {
  const { home, keep, book, looks, watches, expectations, clocks, cameraBook } = shelves;
  const pool = startDevelopPool();
  closers.add(() => pool.close());
  const reader = new ExifToolReader();
  closers.add(() => reader.close());
  const views = new FirstViews();
  const renderings = new Renderings({ folder: home.renderings, bytesMax: renderingsBytesMax, now, pool });
  const regions = new Regions({
    folder: home.regions,
    homePath: home.path,
    pool,
    views,
    row: (frame) => book.row(frame),
    renderedBy: (row, look) => renderedWith(looks, book.limits(row), look),
  });
  const scenes = new Scenes({
    folder: home.scenes,
    homePath: home.path,
    pool,
    row: (frame) => book.row(frame),
    balance: (row) => book.limits(row).balance,
  });
  const tries = new Tries(home.tries, pool);
  const writer = new ExifToolWriter();
  closers.add(() => writer.close());
  const deliveries = new Deliveries({
    book,
    writer,
    jobs: shelves.jobs,
    places: new DestinationBook(home.path),
    renderings,
    pool,
    homePath: home.path,
    zoneOffsetMinutes,
    now,
    tell: (delivery) => publish({ type: 'delivery', delivery }),
    trouble: (thrown) => log('error', describeTrouble(thrown)),
  });
  closers.add(() => deliveries.close());
  const sight = startSightPool();
  closers.add(() => sight.close());
  const slates = new SlateWatch({
    ...shelves,
    pool: sight,
    changed: (frame, change) => flow.changed(frame, change),
    now,
    trouble: (thrown) => log('error', describeTrouble(thrown)),
  });
  const pathOf = (file: FileRow): string => pathOfFile(home.path, file);
  const row = (frame: string): Promise<FrameRow | null> => book.row(frame);
  const judging = new FrameJudging({
    pool,
    planes: new ReferencePlanes({ pool, source: (frame) => sourceOfFrame(row, frame, pathOf) }),
    row,
    limits: (of) => book.limits(of),
    spot: (of) => spotFor(shelves.register, of),
  });
  const previews = new PreviewJudging(judging, (frame, read) => flow.judged(frame, read));
  const flow: FrameFlow = new FrameFlow({
    book,
    watches,
    views,
    publish,
    develop: (frame, atMs) => developing.add(frame, atMs),
    judgePreview: (frame, preview, capture) => previews.add(frame, preview, capture),
    lights: new LightBook(shelves.register),
    isHeldAgainst: (frame) => isHeldAgainst(shelves.jobs.jobs(), frame),
    now,
    zoneOffsetMinutes,
    expects: (camera) => expectations.of(camera),
    clocks,
    slates,
    pathOf,
    shownPicture: (row) => shownPicture(row, home.path, renderings, book.limits(row)),
  });
  const developing = new Developing({
    renderings,
    reader,
    pathOf,
    zoneOffsetMinutes,
    lanes: Math.max(1, availableParallelism() - 1),
    load: (frame) => book.row(frame),
    lastLook: ({ arrival, sizeBytes }) => watches.takeLastLook(arrival, sizeBytes),
    renderedBy: (row) => book.limits(row),
    doneAgain: (frame, picture) => flow.renderedAgain(frame, picture),
    done: (frame, developed) => flow.developed(frame, developed),
    judge: (frame, source, facts, asTarget) => judging.read(frame, source, facts, asTarget),
    judged: (frame, read) => flow.judged(frame, read),
    trouble: (thrown) => log('error', describeTrouble(thrown)),
  });
  book.onStale(({ id, orderMs }) => developing.addReadings(id, orderMs));
  book.onOtherwise(({ id, orderMs }) => developing.addAgain(id, orderMs));
  const stopHearing = keep.on((event) => {
    cameraBook.hear(event);
    flow.hear(event);
    if (event.type !== 'kept' && event.type !== 'damaged') return;
    const { insteadOf, diskPath } = event;
    if (insteadOf !== null) void sayKeptAnew(home.path, insteadOf, diskPath, log);
  });
  // Whatever made the choice, a person or an undo, what was read elsewhere is read again.
  keep.onRecord((record) => {
    if (record.type === 'purpose-set') {
      flow.intended(record.frame, record.purpose).catch((thrown) => log('error', describeTrouble(thrown)));
    }
    if (record.type !== 'spot-set') return;
    readElsewhere(book, shelves.register, record.frame).then(
      (stale) => {
        for (const { id, orderMs } of stale) developing.addReadings(id, orderMs);
      },
      (thrown: unknown) => log('error', describeTrouble(thrown)),
    );
  });
  const judgeAgain = (frame: string): void => void flow.changed(frame, 'judged').catch(() => {});
  shelves.badOriginals.onChange(judgeAgain);
  shelves.badCopies.onChange(judgeAgain);
  closers.add(async () => {
    await developing.close();
    stopHearing();
    await flow.close();
    await slates.close();
  });
  return { flow, developing, views, renderings, regions, scenes, tries, slates, deliveries, sight };
}

/**
 * Takes up what a station before this one left: frames that were kept but not yet made visible, and broken-off files
 * that nobody had looked into, so that they show what there is of them.
 */
export async function developWhatWaits({ book }: Shelves, { developing, flow }: Frames): Promise<void> {
  const unread: FrameRow[] = [];
  const spots = new SpotsOfTheDay();
  for await (const row of book.everyRow()) {
    const state = row.picture?.state;
    const isElsewhere = spots.isReadElsewhere(row);
    if (row.times.keptMs === null) await flow.lookInto(row);
    else if ((state !== 'rendered' && state !== 'cannot') || row.seen === null)
      developing.add(row.id, row.orderMs);
    else if (state === 'rendered') {
      book.heedRendering(row);
      if (isElsewhere || isUnread(row, book.limits(row))) unread.push(row);
    }
  }
  for (const row of unread.slice(-unreadMax)) developing.addReadings(row.id, row.orderMs);
}

/** The file a frame is shown by, as what renderings and planes are made from. */
async function sourceOfFrame(
  rowOf: (frame: string) => Promise<FrameRow | null>,
  frame: string,
  pathOf: (file: FileRow) => string,
): Promise<RenderSource | null> {
  const row = await rowOf(frame);
  const file = row === null ? null : fileToShow(row);
  if (file === null) return null;
  try {
    const path = pathOf(file);
    return renderSource(file, path, (await inspectFile(path, file.sizeBytes)).kind, plainly);
  } catch {
    return null;
  }
}

/** Whether frames are held against this one now: a shot's reference or baseline, or a target that counts. */
function isHeldAgainst(jobs: Jobs, frame: string): boolean {
  return [...jobs.values()].some(
    ({ shots, targets }) =>
      targets.some((target) => target.frame === frame) ||
      shots.some(
        ({ reference, baselines }) => reference === frame || baselines.some((each) => each.frame === frame),
      ),
  );
}

function isUnread({ readings }: FrameRow, limits: FrameLimits): boolean {
  return readings === null || readings.exposed.source === 'preview' || isStale(readings, limits);
}

/** Frames of an earlier version, or of a register made anew, whose pixels are read again: those of a day, not of years. */
const unreadMax = 300;
