import { statfs } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { errorCode, errorMessage } from '../base/index.ts';
import type { Finding } from '../facts/index.ts';
import { type CameraFolder, defaultFtpLimits, openSharedBooks, type ReportLine } from '../receive/index.ts';
import { type EventLog, startWebDoor, type WebDoor, type WebLogEntry } from '../serve/index.ts';
import { ChangeRows } from './cameras/change-rows.ts';
import { dismissEnded } from './cameras/dismissal.ts';
import { keepDoor } from './cameras/door-keeper.ts';
import { hardwareOf } from './cameras/neighbours.ts';
import { RefusedLines } from './cameras/refused-lines.ts';
import type { Closers } from './closers.ts';
import type { StationOptions } from './core/options.ts';
import { describeStation } from './describe-station.ts';
import { createDesk } from './desk.ts';
import { DestinationBook } from './destinations/destination-book.ts';
import { type CameraDoor, type FtpsCameraDoor, openFtpDoor, openFtpsDoor } from './ftp-doors.ts';
import { openHandOver } from './hand-over/open-hand-over.ts';
import { OwnName, toldPort } from './line/own-name.ts';
import { doorFacts, isServed, namedAddresses, validityOf } from './line/sources.ts';
import { LinkBook } from './links/link-book.ts';
import { createLinkDesk } from './links/link-desk.ts';
import { Outside, ownHosts } from './links/outside.ts';
import type { Frames } from './open-frames.ts';
import type { Shelves } from './open-shelves.ts';
import { type OwnCertificate, openOwnCertificate } from './own-certificate.ts';
import { withHolder } from './port-holder.ts';
import { openSftpDoor, type SftpCameraDoor } from './sftp-door.ts';
import { writeStationAddress } from './station-address.ts';
import type { StationLog } from './station-log.ts';
import { version } from './version.ts';
import { openWatches } from './watches.ts';

export interface Doors {
  readonly certificate: OwnCertificate;
  readonly ftp: CameraDoor;
  readonly ftps: FtpsCameraDoor;
  readonly sftp: SftpCameraDoor;
  readonly web: WebDoor;
}

export interface DoorsOptions extends StationOptions {
  readonly demo: boolean;
  readonly log: StationLog;
}

/** Disk, connections and addresses change without an event; a page that shows them is this much behind at most. */
const linePulseMs = 5000;

/** Opens the cameras' door and the page's, and tells the pages how the station is doing. */
export async function openDoors(
  options: DoorsOptions,
  shelves: Shelves,
  frames: Frames,
  events: EventLog,
  now: () => number,
  closers: Closers,
): Promise<Doors> {
  const {
    home,
    roster,
    keep,
    places,
    badOriginals,
    badCopies,
    register,
    book,
    jobs,
    looks,
    cameraLog,
    line,
    cameraBook,
    clocks,
    acts,
    inTurn,
  } = shelves;
  const { flow, slates, deliveries, sight, views, renderings, regions, scenes, tries, developing } = frames;
  const folderOf = (camera: string): CameraFolder => keep.folderOf(camera);
  const refused = new RefusedLines(now, (finding) => options.log('warn', finding));
  const keeper = keepDoor(roster, folderOf, hardwareOf, (camera, address, finding) => {
    cameraLog.take({ camera, address, connection: 0, change: 'refused', finding });
    refused.take(finding);
  });
  const rows = new ChangeRows((report) => {
    cameraLog.take(report);
    line.take(report);
    if (report.camera !== null) options.log('info', report.finding);
    else if (report.change === 'refused') refused.take(report.finding);
  });
  const onLine: ReportLine = (report) => rows.take(report);
  const { mayStayShut, encryptedOnly } = options.ftps;
  const mayGoWithout = mayStayShut && !encryptedOnly;
  const certificate = await openOwnCertificate(home.keys, mayGoWithout, now, options.log, closers);
  const { authority } = certificate;
  // One count for all doors: a guesser has no more tries by knocking at each.
  const shared = openSharedBooks(defaultFtpLimits);
  const ftp = await openFtpDoor(options, keeper, onLine, authority, shared);
  closers.add(() => ftp.close());
  const ftps = await openFtpsDoor(options, keeper, onLine, authority, shared);
  closers.add(() => ftps.close());
  const sftp = await openSftpDoor(options, home.keys, keeper, onLine, shared);
  closers.add(() => sftp.close());
  dismissEnded(roster, [ftp, ftps, sftp], sftp);
  openWatches(options.watches, roster, folderOf, onLine, closers);
  const { cards, verifying, bags } = await openHandOver(
    { ...options, home: home.path },
    { keep, roster, deliveries, jobs, destinations: new DestinationBook(home.path) },
    events,
    onLine,
    closers,
  );
  // Known once the door listens, which it does before anybody can ask.
  const webPort: { port: number | null } = { port: null };
  const links = await LinkBook.open(home.keys, now);
  closers.add(() => links.close());
  let outside: Outside | null = null;
  const linkCalls = createLinkDesk({ links, outside: () => outside, jobs, log: options.log });
  const ownName = new OwnName(
    () => namedAddresses(options.bind),
    () => [
      ...toldPort('ftp', ftp.port),
      ...toldPort('sftp-ssh', sftp.port),
      ...toldPort('http', outside?.shape().port ?? null),
    ],
  );
  closers.add(() => ownName.close());
  line.watch({
    cameras: () => roster.all(),
    connected: (camera) => cameraLog.connected(camera),
    doors: () => [doorFacts('ftp', ftp), doorFacts('ftps', ftps), doorFacts('sftp', sftp)],
    passive: options.passive,
    linkPort: () => outside?.shape().port ?? null,
    served: (address) => isServed(address, options.bind),
    lines: () => cameraLog.all(),
    disk: async () => {
      const { bavail, bsize } = await statfs(home.path);
      return { freeBytes: bavail * bsize, floorBytes: options.diskFloorBytes };
    },
    certificate: () => validityOf(authority),
    mdns: () => ownName.name,
    frameOf: (frame) => book.row(frame),
  });
  const desk = createDesk({
    line,
    linkCalls,
    words: links,
    homePath: home.path,
    diskFloorBytes: options.diskFloorBytes,
    keep,
    book,
    flow,
    jobs,
    looks,
    acts,
    inTurn,
    slates,
    deliveries,
    cards,
    verifying,
    bags,
    badOriginals,
    places,
    sight,
    register,
    clocks,
    cameras: cameraBook,
    views,
    renderings,
    developing,
    regions,
    scenes,
    tries,
    events,
    root: authority?.root ?? null,
    describe: (asOperator) =>
      describeStation({
        options,
        homePath: home.path,
        cameraBook,
        places,
        badOriginals,
        badCopies,
        keep,
        ftp,
        ftps,
        certificate,
        sftp,
        webPort: webPort.port,
        jobs,
        asOperator,
      }),
    now,
  });
  const pageDir = fileURLToPath(new URL('../page', import.meta.url));
  const web = await startWebDoor(
    { host: '127.0.0.1', port: options.webPort, pageDir, version, ownHosts },
    desk,
    (entry) => options.log(entry.level, webFinding(entry)),
  ).catch(async (thrown: unknown) => {
    throw await withHolder(thrown, options.webPort, '--web PORT');
  });
  webPort.port = web.port;
  closers.add(() => web.close());
  closers.add(await writeStationAddress(home.path, web.url));
  const door = new Outside({ ports: options.linkPorts, bind: options.bind, authority }, web);
  outside = door;
  closers.add(() => door.close());
  const followLinks = (): Promise<void> => door.follow(links.all().length > 0);
  links.onChange(() => void followLinks());
  await followLinks();
  await ownName.follow();
  const pulse = setInterval(() => {
    void line.pulse();
    void ownName.follow();
    desk.station(false).then(
      (station) => events.publish({ type: 'line', station }),
      () => {},
    );
  }, linePulseMs);
  closers.add(() => clearInterval(pulse));
  return { certificate, ftp, ftps, sftp, web };
}

/** What the web door could not say to the caller, with what was thrown where something was. */
function webFinding({ event, details, error }: WebLogEntry): Finding {
  const thrown = error === undefined ? {} : { error: errorCode(error), message: errorMessage(error) };
  return { code: `web.${event}`, args: { ...details, ...thrown } };
}
