import type { LineCheck, LineFinding, Station } from '../../contract/index.ts';
import { doorNames, sentence, type WayPlace, type WayState, wayPhrases } from '../../words/index.ts';

/** One piece of the way from camera to disk, with what is to be said of it. */
export interface WayPiece {
  readonly place: WayPlace;
  readonly state: WayState;
  readonly lines: readonly string[];
}

export const wayPlaces: readonly WayPlace[] = ['camera', 'air', 'router', 'computer', 'disk'];

/** Where each finding lies. What is not named lies where it is mended. */
const placeOfCode: Readonly<Record<string, WayPlace>> = {
  'line-check.nothing-came': 'air',
  'line-check.weak-line': 'air',
  'line-check.kept-apart': 'air',
  'line-check.not-there': 'camera',
  'line-check.address-changed': 'computer',
  'line-check.address-dealt-out': 'router',
  'line-check.no-dhcp': 'router',
  'line-check.passive-shut-between': 'router',
  'line-check.address-translated': 'router',
  'line-check.other-network': 'router',
  'line-check.address-twice': 'router',
  'line-check.disk-full': 'disk',
  'line-check.disk-slow': 'disk',
};
const placeOfCure = { camera: 'camera', station: 'computer', network: 'router' } as const;

export function placeOf({ code, cures }: Pick<LineFinding, 'code' | 'cures'>): WayPlace {
  return placeOfCode[code] ?? placeOfCure[cures[0]?.at ?? 'station'];
}

export interface Clock {
  /** A moment as it is told: a time of this day, or a day and a time. */
  readonly when: (moment: string) => string;
}

/** The pieces in the order a frame passes them. */
export function wayOf(check: LineCheck, station: Station, { when }: Clock): readonly WayPiece[] {
  return wayPlaces.map((place) => {
    const here = check.findings.filter((finding) => placeOf(finding) === place);
    const worst =
      here.find(({ weight }) => weight === 'shut') ?? here.find(({ weight }) => weight === 'weak');
    if (worst !== undefined) {
      const state = worst.weight === 'shut' ? 'shut' : 'weak';
      return { place, state, lines: [sentence(worst.cause)] };
    }
    return { place, ...quiet[place](check, station, when) };
  });
}

type Quiet = (check: LineCheck, station: Station, when: Clock['when']) => Omit<WayPiece, 'place'>;

/** What is said where nothing is wrong. Nobody has proved what nobody has passed. */
const quiet: Readonly<Record<WayPlace, Quiet>> = {
  camera: ({ cameras }, station, when) => {
    const connected = station.cameras.filter((camera) => camera.connected).map(({ name }) => name);
    if (connected.length > 0) return { state: 'open', lines: [wayPhrases.connected(connected.join(', '))] };
    // The check knows of log-ins, in earlier runs too; the station of every sign of life in this one.
    const [latest] = [...cameras, ...station.cameras]
      .flatMap(({ name, lastSeen }) => (lastSeen === null ? [] : [{ name, lastSeen }]))
      .sort((one, other) => Date.parse(other.lastSeen) - Date.parse(one.lastSeen));
    return latest === undefined
      ? { state: 'unknown', lines: [wayPhrases.noCamera] }
      : { state: 'open', lines: [wayPhrases.seen(latest.name, when(latest.lastSeen))] };
  },
  air: ({ cameras }) => {
    const speeds = cameras.flatMap(({ bytesPerSecond }) => bytesPerSecond ?? []);
    return speeds.length === 0
      ? { state: 'unknown', lines: [wayPhrases.noSpeed] }
      : { state: 'open', lines: [wayPhrases.speed(Math.min(...speeds))] };
  },
  router: ({ interfaces, cameras }, _station, when) => {
    const used = interfaces.filter(({ addresses }) => addresses.some(({ served }) => served));
    const gateways = [...new Set(used.flatMap(({ gateway }) => gateway ?? []))];
    const leases = used
      .flatMap(({ addresses }) => addresses)
      .flatMap(({ served, leaseEnds }) => (served && leaseEnds !== null ? [leaseEnds] : []));
    const proved = cameras.some(({ lastSeen }) => lastSeen !== null);
    if (gateways.length === 0) return { state: proved ? 'open' : 'unknown', lines: [wayPhrases.noRouter] };
    const [first] = leases.sort();
    return {
      state: proved ? 'open' : 'unknown',
      lines: [
        ...gateways.map(wayPhrases.router),
        ...(first === undefined ? [] : [wayPhrases.dealtOut(when(first))]),
      ],
    };
  },
  computer: ({ doors, mayEnter, mdns }) => {
    const open = doors.flatMap(({ name, port }) => (port === null ? [] : [`${doorNames[name]} ${port}`]));
    const lines = [
      mayEnter.join(', '),
      open.length === 0 ? '' : wayPhrases.doors(open.join(', ')),
      mdns === null ? '' : wayPhrases.named(mdns),
    ];
    return { state: open.length === 0 ? 'shut' : 'open', lines: lines.filter((line) => line !== '') };
  },
  disk: ({ disk: { freeBytes, floorBytes, writeBytesPerSecond } }) => ({
    state: freeBytes > floorBytes ? 'open' : 'shut',
    lines: [
      wayPhrases.disk(freeBytes),
      ...(writeBytesPerSecond === null ? [] : [wayPhrases.writes(writeBytesPerSecond)]),
    ],
  }),
};
