import { randomBytes } from 'node:crypto';
import type { ReadyLine } from '../contract/index.ts';
import type { Finding } from '../facts/index.ts';
import { createEventLog } from '../serve/index.ts';
import { awakeAfterFrameMs, keepAwake, systemInhibitor } from './awake.ts';
import type { Camera } from './cameras/core/camera.ts';
import { diedLines } from './cameras/died-lines.ts';
import { Closers } from './closers.ts';
import { type OwnAddress, reachTroubles, servedAddresses } from './core/addresses.ts';
import type { StationOptions } from './core/options.ts';
import { closeDemoJob, openDemoJob } from './demo-job.ts';
import { readyLine } from './describe-station.ts';
import { homeFindings } from './home-findings.ts';
import { openDoors } from './open-doors.ts';
import { developWhatWaits, openFrames } from './open-frames.ts';
import { openShelves } from './open-shelves.ts';
import { ownAddresses } from './own-addresses.ts';
import { startSidecars } from './sidecars/start-sidecars.ts';
import { describeTrouble, type StationLog } from './station-log.ts';

export interface RunningStation {
  /** What the contract prints first. */
  readonly ready: ReadyLine;
  /** Things to mend, such as a door that is shut. */
  readonly troubles: readonly Finding[];
  /** Where cameras are served. */
  readonly addresses: readonly OwnAddress[];
  /** Whether the stand-in shoots an invented job. */
  readonly demo: boolean;
  /** As they were at the start, the ended ones too. */
  readonly cameras: readonly Camera[];
  /** Folders that are watched for cameras. */
  readonly watches: StationOptions['watches'];
  /** Whether plain FTP is refused. */
  readonly encryptedOnly: boolean;
  /** Whether the port for FTP speaks TLS too. */
  readonly explicitTls: boolean;
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
 * Starts everything, from the disk upwards: shelves, frames, doors. What was opened is closed again where a later part
 * cannot start. Rejects with the part's own `SetsideError`.
 */
export async function startStation(options: StartOptions): Promise<RunningStation> {
  const closers = new Closers((thrown) => options.log('error', describeTrouble(thrown)));
  try {
    return await start(options, closers);
  } catch (thrown) {
    await closers.closeAll();
    throw thrown;
  }
}

async function start(options: StartOptions, closers: Closers): Promise<RunningStation> {
  const { log, demo } = options;
  const now = Date.now;
  const startedMs = now();
  const events = createEventLog({ run: randomBytes(6).toString('hex') });
  const shelves = await openShelves(options, now, log, closers);
  const { home, roster, keep, book, jobs, cameraBook, cameraLog } = shelves;
  for (const report of diedLines(keep.brokenOff(), startedMs, (arrival) => keep.cameBy(arrival))) {
    cameraLog.take(report);
    log('info', report.finding);
  }
  // A command beside the station may say how fast a sensor is read: what is told of stripes changes with it.
  roster.onChange((before, after) => {
    const of = (cameras: readonly Camera[]): string =>
      JSON.stringify(cameras.map((each) => [each.name, each.rowTimeUs]));
    if (of(before) !== of(after)) events.publish({ type: 'resync' });
  });
  if (demo) await openDemoJob(home.path, book, jobs, closers, now);
  else await closeDemoJob(jobs);
  const frames = openFrames(
    shelves,
    options.renderingsBytesMax,
    (event) => events.publish(event),
    now,
    log,
    closers,
  );
  if (options.sidecars) startSidecars(shelves, log, closers);
  const { certificate, ftp, ftps, sftp, web } = await openDoors(
    options,
    shelves,
    frames,
    events,
    now,
    closers,
  );
  if (options.keepAwake) {
    const busy = (): boolean => cameraBook.busy(awakeAfterFrameMs);
    const unable = (): void => log('info', { code: 'station.cannot-keep-awake', args: {} });
    closers.add(keepAwake(systemInhibitor(), busy, unable));
  }
  await developWhatWaits(shelves, frames);
  await frames.deliveries.open();
  if (demo) {
    // The pretend camera and its set are a tenth of all code: a station that serves real ones begins without.
    const { startDemo } = await import('./demo.ts');
    closers.add(
      startDemo({
        ...options,
        homePath: home.path,
        ftpPort: ftp.port,
        cameras: roster.active(),
        now,
        keep,
        webUrl: web.url,
      }),
    );
  }
  const own = ownAddresses();
  const addresses = servedAddresses(own, options.bind);
  return {
    ready: readyLine({
      web: web.url,
      ftp: ftp.port,
      ftps: ftps.port,
      sftp: sftp.port,
      home: home.path,
      cameras: roster.active(),
    }),
    demo,
    cameras: roster.all(),
    watches: options.watches,
    encryptedOnly: options.ftps.encryptedOnly,
    explicitTls: certificate.authority !== null,
    addresses,
    troubles: [
      ...(demo ? [] : reachTroubles(own, options.bind)),
      ...certificate.troubles,
      ...ftp.troubles,
      ...ftps.troubles,
      ...sftp.troubles,
      ...homeFindings(home.path, options),
      ...keep.troubles,
    ],
    close: () => closers.closeAll(),
  };
}
