import { randomUUID } from 'node:crypto';
import { trayCode } from '../../job/index.ts';
import { type Keep, readCard, readEverythingAgain } from '../../keep/index.ts';
import type { ReportLine } from '../../receive/index.ts';
import type { EventLog } from '../../serve/index.ts';
import { inspectFile } from '../arrival-watch.ts';
import { Bags } from '../bags/bags.ts';
import { startBag } from '../bags/start-bag.ts';
import type { CameraRoster } from '../cameras/camera-roster.ts';
import type { Closers } from '../closers.ts';
import type { StationOptions } from '../core/options.ts';
import type { Deliveries } from '../deliveries/deliveries.ts';
import type { DestinationBook } from '../destinations/destination-book.ts';
import type { JobBook } from '../jobs/job-book.ts';
import { describeTrouble, type StationLog } from '../station-log.ts';
import { Cards } from './cards.ts';
import { Verifying } from './verifying.ts';

/** So long after a camera's last frame nothing is read that nobody waits for. */
const restAfterFrameMs = 60_000;

interface Rooms {
  readonly keep: Keep;
  readonly roster: Pick<CameraRoster, 'find'>;
  readonly deliveries: Pick<Deliveries, 'list'>;
  readonly jobs: Pick<JobBook, 'job'>;
  readonly destinations: Pick<DestinationBook, 'all'>;
}

/** Opens what looks after cards, copies and bags. Nothing is read before it is due, asked for, or was broken off. */
export async function openHandOver(
  options: StationOptions & { readonly log: StationLog },
  { keep, roster, deliveries, jobs, destinations }: Rooms,
  events: Pick<EventLog, 'publish'>,
  onLine: ReportLine,
  closers: Closers,
): Promise<{ readonly cards: Cards; readonly verifying: Verifying; readonly bags: Bags }> {
  const now = Date.now;
  const trouble = (thrown: unknown): void => options.log('error', describeTrouble(thrown));
  const cards = new Cards({
    ...options,
    keep,
    read: readCard,
    folderOf: (camera) => (roster.find(camera)?.ended === false ? keep.folderOf(camera) : null),
    prove: async (path, sizeBytes) => (await inspectFile(path, sizeBytes)).wholeness.kind,
    report: (camera, folder, finding) =>
      onLine({ camera, address: folder, connection: 0, change: 'note', finding }),
    tell: (check) => events.publish({ type: 'card', check }),
    trouble,
    newId: randomUUID,
    now,
  });
  closers.add(() => cards.close());
  let keptMs = Number.NEGATIVE_INFINITY;
  const isDelivering = (): boolean => deliveries.list(undefined).some(({ state }) => state === 'running');
  const stopHearing = keep.on((event) => {
    if (event.type === 'kept' || event.type === 'progress') keptMs = now();
  });
  closers.add(stopHearing);
  const isBusy = (): boolean => now() - keptMs < restAfterFrameMs || isDelivering();
  const verifying = await Verifying.open({
    home: options.home,
    everyDays: options.verifyEveryDays,
    memoryCounts: options.memoryCounts,
    copies: options.copies,
    read: readEverythingAgain,
    isBusy,
    tell: (verification) => events.publish({ type: 'verification', verification }),
    trouble,
    now,
  });
  closers.add(() => verifying.close());
  const bags = await Bags.open({
    ...options,
    destinations: async () =>
      (await destinations.all()).flatMap(({ place }) => (place.kind === 'folder' ? [place.path] : [])),
    hasJob: (code) => code === trayCode || jobs.job(code) !== null,
    start: startBag,
    isBusy,
    tell: (work) => events.publish({ type: 'bag', work }),
    trouble,
    newId: randomUUID,
    now,
  });
  closers.add(() => bags.close());
  return { cards, verifying, bags };
}
