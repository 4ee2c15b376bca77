import type { RootCertificate } from '../authority/index.ts';
import { epochMsToRfc3339 } from '../base/index.ts';
import type { ReadyLine, Station } from '../contract/index.ts';
import type { Keep, SecondPlaces } from '../keep/index.ts';
import type { BadCopies } from './bad-copies.ts';
import type { BadOriginals } from './bad-originals.ts';
import type { CameraBook } from './cameras/camera-book.ts';
import type { Camera } from './cameras/core/camera.ts';
import { reachTroubles, servedAddresses } from './core/addresses.ts';
import type { StationOptions } from './core/options.ts';
import type { CameraDoor, FtpsCameraDoor } from './ftp-doors.ts';
import { homeFindings } from './home-findings.ts';
import type { JobBook } from './jobs/job-book.ts';
import { jobSummaryShape } from './jobs/job-shape.ts';
import { keptFindings } from './kept-findings.ts';
import { ownAddresses } from './own-addresses.ts';
import type { OwnCertificate } from './own-certificate.ts';
import type { SftpCameraDoor } from './sftp-door.ts';
import { version } from './version.ts';

/** What `GET /api/v1/station` answers, without what changes by the second. */
export function describeStation(parts: {
  options: StationOptions & { readonly demo: boolean };
  homePath: string;
  cameraBook: CameraBook;
  ftp: CameraDoor;
  ftps: FtpsCameraDoor;
  certificate: OwnCertificate;
  sftp: SftpCameraDoor;
  webPort: number | null;
  jobs: JobBook;
  places: Pick<SecondPlaces, 'statuses'>;
  badCopies: Pick<BadCopies, 'findingIn'>;
  badOriginals: Pick<BadOriginals, 'finding'>;
  keep: Pick<Keep, 'keptFile' | 'troubles'>;
  asOperator: boolean;
}): Omit<Station, 'now' | 'disk' | 'incoming'> {
  const { options, homePath, cameraBook, ftp, ftps, certificate, sftp, jobs, asOperator } = parts;
  const own = ownAddresses();
  const addresses = servedAddresses(own, options.bind);
  // The stand-in of a demo is on this computer.
  const [noReach] = options.demo ? [] : reachTroubles(own, options.bind);
  const openJob = jobs.open();
  return {
    version,
    home: homePath,
    addresses: addresses.map((address) => ({ ...address })),
    doors: [
      { name: 'web', port: parts.webPort, trouble: null },
      { name: 'ftp', port: ftp.port, trouble: noReach ?? ftp.troubles[0] ?? null },
      { name: 'ftps', port: ftps.port, trouble: ftps.troubles[0] ?? certificate.troubles[0] ?? null },
      {
        name: 'sftp',
        port: sftp.port,
        trouble: sftp.troubles[0] ?? null,
        hostKeys: sftp.hostKeys.map((print) => ({ ...print })),
      },
    ],
    passive: options.passive,
    encryptedOnly: options.ftps.encryptedOnly,
    certificate: certificate.authority === null ? null : certificateOf(certificate.authority.root),
    cameras: cameraBook.entries(asOperator),
    job: openJob === null ? null : jobSummaryShape(openJob),
    secondPlaces: parts.places
      .statuses()
      .map(({ place, folder, otherDevice, countsNot, waiting, finding }) => ({
        folder,
        otherDevice,
        waiting,
        trouble: finding ?? parts.badCopies.findingIn(place, folder) ?? countsNot,
      })),
    kept: [
      ...homeFindings(homePath, options).map(({ code, args }) => ({ code, args: { ...args } })),
      ...keptFindings(parts.badOriginals, parts.keep),
    ],
    demo: options.demo,
  };
}

function certificateOf({ name, fingerprint, notAfterMs }: RootCertificate): Station['certificate'] {
  return { name, fingerprint, notAfter: epochMsToRfc3339(notAfterMs) };
}

/** The first line of `station --json`. */
export function readyLine(parts: {
  web: string;
  ftp: number;
  ftps: number | null;
  sftp: number | null;
  home: string;
  cameras: readonly Camera[];
}): ReadyLine {
  const { web, ftp, ftps, sftp, home, cameras } = parts;
  return {
    ready: true,
    web,
    ftp,
    ftps,
    sftp,
    home,
    cameras: cameras.map(({ name, user, password }) => ({ name, user, password })),
  };
}
