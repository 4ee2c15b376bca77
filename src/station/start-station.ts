import { randomBytes, randomUUID } from 'node:crypto';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { errorCode, errorMessage } from '../base/index.ts';
import type { ReadyLine, Station } from '../contract/index.ts';
import type { Finding } from '../facts/index.ts';
import { openKeep } from '../keep/index.ts';
import type { CameraFolder } from '../receive/index.ts';
import { openRegister } from '../register/index.ts';
import { createEventLog, startWebDoor, type WebDoor, type WebLogEntry } from '../serve/index.ts';
import { ExifToolReader, startDevelopPool } from '../workers/index.ts';
import { awakeAfterFrameMs, keepAwake, systemInhibitor } from './awake.ts';
import { CameraBook } from './camera-book.ts';
import { CameraLog } from './camera-log.ts';
import { openCameras } from './cameras.ts';
import type { StationOptions } from './core/options.ts';
import { demoJob, startDemo } from './demo.ts';
import { describeStation, readyLine } from './describe-station.ts';
import { createDesk, pathOfFile } from './desk.ts';
import { Developing } from './developing.ts';
import { keepDoor } from './door-keeper.ts';
import { FirstViews } from './first-views.ts';
import { FrameBook } from './frame-book.ts';
import { FrameFlow } from './frame-flow.ts';
import { openFtpDoor } from './ftp-doors.ts';
import { openHome } from './home.ts';
import { JobBook, trayCode } from './job-book.ts';
import { Renderings } from './renderings.ts';
import { describeTrouble, type StationLog } from './station-log.ts';
import { version } from './version.ts';
import { zoneOffsetMinutes } from './zone.ts';

export interface RunningStation {
  /** What the contract prints first. */
  readonly ready: ReadyLine;
  /** Things to mend, such as a door that is shut. */
  readonly troubles: readonly Finding[];
  /** Ends transfers, doors, workers and the journal, in this order; may be called twice. */
  close(): Promise<void>;
}

export interface StartOptions extends StationOptions {
  readonly demo: boolean;
  readonly log: StationLog;
  /** What the stand-in does, in the demo. */
  readonly onStandIn: (progress: Finding) => void;
}

/**
 * Starts everything, from the disk upwards: home, journal, register, workers, frames, doors. What was opened is closed
 * again where a later part cannot start. Rejects with the part's own `SetsideError`.
 */
export async function startStation(options: StartOptions): Promise<RunningStation> {
  const closers: (() => Promise<void>)[] = [];
  const closing = (close: () => Promise<void>): void => {
    closers.unshift(close);
  };
  const closeAll = async (): Promise<void> => {
    for (const close of closers.splice(0))
      await close().catch((thrown) => options.log('error', describeTrouble(thrown)));
  };
  try {
    return await start(options, closing, closeAll);
  } catch (thrown) {
    await closeAll();
    throw thrown;
  }
}

async function start(
  options: StartOptions,
  closing: (close: () => Promise<void>) => void,
  closeAll: () => Promise<void>,
): Promise<RunningStation> {
  const now = Date.now;
  const home = await openHome(options.home);
  const cameras = await openCameras(home.keys);
  const events = createEventLog({ run: randomBytes(6).toString('hex') });
  const views = new FirstViews();

  // The flow needs the keep's events and the keep needs the flow's inspection: the knot is tied here.
  let flow: FrameFlow | null = null;
  let jobs: JobBook | null = null;
  const keep = await openKeep({
    home: home.path,
    inspect: async (file) => (flow === null ? { kind: 'unknown' } : flow.inspect(file)),
    newId: () => randomUUID(),
    now,
    jobOf: () => jobs?.codeForNext() ?? trayCode,
    diskFloorBytes: options.diskFloorBytes,
    hashWorkers: 1,
  });
  closing(() => keep.close());
  const register = await openRegister(home.register);
  closing(() => register.close());
  const cameraLog = new CameraLog(now);
  let cameraBook: CameraBook | null = null;
  const book = await FrameBook.open(register, keep, {
    expects: (camera) => cameraBook?.expects(camera) ?? null,
    now,
  });
  closing(async () => book.close());
  jobs = await JobBook.load(keep, register);
  const { silentAfterMs } = options;
  cameraBook = await CameraBook.load({ cameras, log: cameraLog, keep, register, silentAfterMs, now });
  const cameraState = cameraBook;

  const pool = startDevelopPool();
  closing(() => pool.close());
  const reader = new ExifToolReader();
  closing(() => reader.close());
  const renderings = new Renderings(home.renderings, pool);
  const developing = createDeveloping({
    book,
    renderings,
    reader,
    homePath: home.path,
    flow: () => flow,
    log: options.log,
  });
  flow = new FrameFlow({
    book,
    views,
    publish: (event) => events.publish(event),
    develop: (frame, atMs) => developing.add(frame, atMs),
    now,
    zoneOffsetMinutes,
    expects: (camera) => cameraState.expects(camera),
  });
  const stopHearing = keep.on((event) => {
    cameraState.hear(event);
    flow?.hear(event);
  });
  const running = flow;
  closing(async () => {
    await developing.close();
    stopHearing();
    await running.close();
  });

  if (options.demo) await jobs.openJob(demoJob);
  const folderOf = (camera: string): CameraFolder => keep.folderOf(camera);
  const ftp = await openFtpDoor(options, keepDoor(cameras, folderOf), (report) => {
    cameraLog.take(report);
    if (report.camera !== null) options.log('info', report.finding);
  });
  closing(() => ftp.close());

  const describe = (asOperator: boolean): Omit<Station, 'now' | 'disk'> =>
    describeStation({
      options,
      homePath: home.path,
      cameraBook: cameraState,
      ftp,
      webPort: web?.port ?? null,
      jobs,
      asOperator,
    });
  const desk = createDesk({
    homePath: home.path,
    keep,
    book,
    flow: running,
    jobs,
    cameras: cameraState,
    views,
    renderings,
    events,
    describe,
    now,
  });
  let web: WebDoor | null = null;
  web = await startWebDoor(
    {
      host: '127.0.0.1',
      port: options.webPort,
      pageDir: fileURLToPath(new URL('../page', import.meta.url)),
      version,
    },
    desk,
    (entry) => options.log(entry.level, webFinding(entry)),
  );
  const door = web;
  closing(() => door.close());

  const tellLine = setInterval(() => {
    void desk.station(true).then(
      (station) => events.publish({ type: 'line', station }),
      () => {},
    );
  }, linePulseMs);
  closing(async () => clearInterval(tellLine));

  if (options.keepAwake) {
    const end = keepAwake(
      systemInhibitor(),
      () => cameraState.busy(awakeAfterFrameMs),
      () => options.log('info', { code: 'station.cannot-keep-awake', args: {} }),
    );
    closing(async () => end());
  }
  await developWhatWaits(book, developing);
  if (options.demo) {
    closing(
      startDemo({ ...options, homePath: home.path, ftpPort: ftp.port, cameras, now, keep, flow: running }),
    );
  }
  return {
    ready: readyLine(door.url, ftp.port, home.path, cameras),
    troubles: [...ftp.troubles, ...keep.troubles],
    close: closeAll,
  };
}

/** What the web door could not say to the caller, with what was thrown where something was. */
function webFinding({ event, details, error }: WebLogEntry): Finding {
  const thrown = error === undefined ? {} : { error: errorCode(error), message: errorMessage(error) };
  return { code: `web.${event}`, args: { ...details, ...thrown } };
}

/** Disk, connections and addresses change without an event; a page that shows them is this much behind at most. */
const linePulseMs = 5000;

function createDeveloping(parts: {
  book: FrameBook;
  renderings: Renderings;
  reader: ExifToolReader;
  homePath: string;
  flow: () => FrameFlow | null;
  log: StationLog;
}): Developing {
  return new Developing({
    renderings: parts.renderings,
    reader: parts.reader,
    pathOf: (file) => pathOfFile(parts.homePath, file),
    zoneOffsetMinutes,
    lanes: Math.max(1, availableParallelism() - 1),
    load: (frame) => parts.book.row(frame),
    done: async (frame, developed) => parts.flow()?.developed(frame, developed),
    trouble: (thrown) => parts.log('error', describeTrouble(thrown)),
  });
}

/** Frames that were kept but not yet made visible when the station ended last. */
async function developWhatWaits(book: FrameBook, developing: Developing): Promise<void> {
  for await (const row of book.everyRow()) {
    const state = row.picture?.state;
    if (row.times.keptMs !== null && state !== 'rendered' && state !== 'cannot') {
      developing.add(row.id, row.shutterMs ?? row.times.keptMs);
    }
  }
}
