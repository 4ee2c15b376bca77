import { addressForCameras, type Camera, type RunningStation } from '../station/index.ts';
import { sentence } from '../words/index.ts';

/** What the welcome is made of. */
export type Welcomed = Omit<RunningStation, 'close'>;

/** What a person needs to begin: where the page is, what to enter on each camera, what is amiss. */
export function welcome(station: Welcomed, passive: { readonly from: number; readonly to: number }): string {
  const { ready, troubles, demo, cameras } = station;
  const lines = [
    '',
    ...(demo ? demoLines : []),
    `  The page       ${ready.web}`,
    `  Kept in        ${ready.home}`,
    '',
  ];
  for (const camera of cameras) lines.push(...(camera.ended ? [] : cameraLines(camera, station, passive)));
  const ended = cameras.filter((camera) => camera.ended).map(({ name }) => name);
  if (ended.length > 0) lines.push(`  Ended, may not come in: ${ended.join(', ')}`, '');
  for (const trouble of troubles) lines.push(`  Note: ${sentence(trouble)}`);
  if (
    cameras.some(({ ended: isEnded, protocols }) => !isEnded && protocols.includes('ftp')) &&
    !station.encryptedOnly
  )
    lines.push(`  ${sentence({ code: 'line.ftp-in-clear', args: {} })}`);
  lines.push('  Ctrl+C stops the station.', '', '');
  return lines.join('\n');
}

/** The doors it may use and that are open, and no other; a camera of a watched folder has nothing to enter. */
function cameraLines(
  { name, user, password, protocols }: Camera,
  station: Welcomed,
  passive: { readonly from: number; readonly to: number },
): string[] {
  const folders = station.watches
    .filter(({ camera }) => camera === name)
    .map(({ folder }) => entry('folder', `${folder}, watched on this computer`));
  if (protocols.length === 0) {
    return [
      `  ${name} comes by no door, only by a watched folder:`,
      ...(folders.length > 0 ? folders : [entry('folder', 'none is watched')]),
      '',
    ];
  }
  const doors = doorLines(protocols, station, passive);
  return [
    `  Enter on the camera (${name}):`,
    entry('server', serverOf(station)),
    ...(doors.length > 0 ? doors : [entry('port', 'none of the doors it may use is open')]),
    entry('user', user),
    entry('password', password),
    entry('folder', 'leave empty, or /'),
    ...folders,
    '',
  ];
}

function serverOf({ addresses, troubles }: Welcomed): string {
  const isShutOut = troubles.some(({ code }) => code === 'line.no-private-address');
  return isShutOut ? 'none yet: cameras are shut out, see the note' : addressForCameras(addresses);
}

function doorLines(
  protocols: Camera['protocols'],
  { ready, encryptedOnly, explicitTls }: Welcomed,
  passive: { readonly from: number; readonly to: number },
): string[] {
  const data = `passive mode on (data ports ${passive.from}-${passive.to})`;
  const ftps = protocols.includes('ftps');
  return [
    ...(protocols.includes('ftp') && !encryptedOnly ? [entry('FTP', `port ${ready.ftp}, ${data}`)] : []),
    ...(ftps && explicitTls ? [entry('FTPS', `explicit: port ${ready.ftp}, ${data}`)] : []),
    ...(ftps && ready.ftps !== null ? [entry('FTPS', `implicit: port ${ready.ftps}, ${data}`)] : []),
    ...(protocols.includes('sftp') && ready.sftp !== null ? [entry('SFTP', `port ${ready.sftp}`)] : []),
  ];
}

function entry(what: string, value: string): string {
  return `    ${what.padEnd(13)}${value}`;
}

const demoLines: readonly string[] = [
  '  This is the demo: a pretend camera photographs a pottery that does not exist.',
  '  Each start adds up to half a gigabyte to its home; the whole folder may be deleted afterwards.',
  '',
];
