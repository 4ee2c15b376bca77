import { addressForCameras, type Camera, type RunningStation } from '../station/index.ts';
import { doorNames, passwordGroups, sentence } from '../words/index.ts';

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
  lines.push(
    ...camerasLines(
      cameras.filter((camera) => !camera.ended),
      station,
      passive,
    ),
  );
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

/** What is the same on every camera once, then each camera by its name. */
function camerasLines(
  cameras: readonly Camera[],
  station: Welcomed,
  passive: { readonly from: number; readonly to: number },
): string[] {
  const used = new Set(cameras.flatMap(({ protocols }) => protocols));
  const doors = openDoors(station, passive).filter(({ protocol }) => used.has(protocol));
  const width = Math.max(entryWidth, ...cameras.map(({ name }) => name.length + 2));
  const own = cameras.map((camera) => entry(camera.name, comesHow(camera, doors, station), width));
  if (used.size === 0) return own.length === 0 ? [] : ['  Cameras:', ...own, ''];
  return [
    '  Enter on each camera:',
    entry('server', serverOf(station)),
    ...(doors.length > 0 ? doors.map(({ line }) => line) : [entry('port', 'none of the doors is open')]),
    entry('folder', 'leave empty, or /'),
    '  and its own log-in (gaps in a password are not typed):',
    ...own,
    '',
  ];
}

/** How one camera comes in: its log-in where it has a door, and which of the doors where they are not all its own. */
function comesHow(
  { name, user, password, protocols }: Camera,
  doors: readonly Door[],
  station: Welcomed,
): string {
  const folders = station.watches
    .filter(({ camera }) => camera === name)
    .map(({ folder }) => `${folder}, watched on this computer`)
    .join('; ');
  if (protocols.length === 0)
    return `by no door, only by a folder: ${folders === '' ? 'none is watched' : folders}`;
  const open = [...new Set(doors.map(({ protocol }) => protocol))];
  const mine = open.filter((protocol) => protocols.includes(protocol));
  const by = mine.map((protocol) => doorNames[protocol]).join(', ');
  const which =
    mine.length === 0
      ? '  (none of the doors it may use is open)'
      : mine.length < open.length
        ? `  (by ${by} only)`
        : '';
  return `user ${user}  password ${passwordGroups(password).join(' ')}${which}${folders === '' ? '' : `  and folder ${folders}`}`;
}

function serverOf({ addresses, troubles }: Welcomed): string {
  const isShutOut = troubles.some(({ code }) => code === 'line.no-private-address');
  return isShutOut ? 'none yet: cameras are shut out, see the note' : addressForCameras(addresses);
}

interface Door {
  readonly protocol: Camera['protocols'][number];
  readonly line: string;
}

/** The doors that are open to cameras, in the order they are told. */
function openDoors(
  { ready, encryptedOnly, explicitTls }: Welcomed,
  passive: { readonly from: number; readonly to: number },
): Door[] {
  const data = `passive mode on (data ports ${passive.from}-${passive.to})`;
  const door = (protocol: Door['protocol'], how: string): Door => ({
    protocol,
    line: entry(doorNames[protocol], how),
  });
  return [
    ...(encryptedOnly ? [] : [door('ftp', `port ${ready.ftp}, ${data}`)]),
    ...(explicitTls ? [door('ftps', `explicit: port ${ready.ftp}, ${data}`)] : []),
    ...(ready.ftps === null ? [] : [door('ftps', `implicit: port ${ready.ftps}, ${data}`)]),
    ...(ready.sftp === null ? [] : [door('sftp', `port ${ready.sftp}`)]),
  ];
}

const entryWidth = 13;

function entry(what: string, value: string, width = entryWidth): string {
  return `    ${what.padEnd(width)}${value}`;
}

const demoLines: readonly string[] = [
  '  This is the demo: a pretend camera photographs a pottery that does not exist.',
  '  Each start adds up to half a gigabyte to its home; the whole folder may be deleted afterwards.',
  '',
];
