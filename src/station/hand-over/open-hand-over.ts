import { randomUUID } from 'node:crypto';
import { type Keep, readCard, readEverythingAgain } from '../../keep/index.ts';
import type { ReportLine } from '../../receive/index.ts';
import type { EventLog } from '../../serve/index.ts';
import { inspectFile } from '../arrival-watch.ts';
import type { CameraRoster } from '../cameras/camera-roster.ts';
import type { Closers } from '../closers.ts';
import type { StationOptions } from '../core/options.ts';
import type { Deliveries } from '../deliveries/deliveries.ts';
import { describeTrouble, type StationLog } from '../station-log.ts';
import { Cards } from './cards.ts';
import { Verifying } from './verifying.ts';

/** So long after a camera's last frame nothing is read that nobody waits for. */
const restAfterFrameMs = 60_000;

interface Rooms {
  readonly keep: Keep;
  readonly roster: Pick<CameraRoster, 'find'>;
  readonly deliveries: Pick<Deliveries, 'list'>;
}

/** Opens what looks after cards and copies. Nothing is read before it is due or asked for. */
export async function openHandOver(
  options: StationOptions & { readonly log: StationLog },
  { keep, roster, deliveries }: Rooms,
  events: Pick<EventLog, 'publish'>,
  onLine: ReportLine,
  closers: Closers,
): Promise<{ readonly cards: Cards; readonly verifying: Verifying }> {
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
  const verifying = await Verifying.open({
    home: options.home,
    everyDays: options.verifyEveryDays,
    memoryCounts: options.memoryCounts,
    read: readEverythingAgain,
    isBusy: () => now() - keptMs < restAfterFrameMs || isDelivering(),
    tell: (verification) => events.publish({ type: 'verification', verification }),
    trouble,
    now,
  });
  closers.add(() => verifying.close());
  return { cards, verifying };
}
