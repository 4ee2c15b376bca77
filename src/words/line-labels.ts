import { sizePhrase } from './phrases.ts';

/** Words of the Line page. */
export const lineLabels = {
  title: 'Line',
  toLine: 'Line',
  look: 'Look again',
  looking: 'Looking …',
  lookedAt: (time: string): string => `Looked at ${time}.`,
  failed: 'The line cannot be looked at now. It is tried again by itself.',
  open: 'The way from camera to disk is open.',
  openUnproved:
    'Nothing on this computer is in the way. No camera has come since the start to prove the rest.',
  openAsSeen: 'Cameras come in. A dotted piece of the way was not seen yet.',
  shut: (places: string): string => `The way is shut: ${places}.`,
  weak: (places: string): string => `The way is not shut, but needs a look: ${places}.`,
  way: 'The way of a frame',
  todo: 'What to do',
  nothingToDo: 'Nothing.',
  good: 'Good to know',
  evidence: 'How that is known',
  copy: 'Copy',
  copied: 'Copied.',
  terminal: 'In a terminal of this computer:',
  neverRun:
    'The page runs none of these: copy them into a terminal, or let “setside line --mend” ask and run them.',
  firewall: 'Firewall',
  firewallKind: (kind: string): string => `Firewall of this computer: ${kind}.`,
  firewallOpen: 'It lets the cameras in.',
  firewallUnread: 'The station was not let look at its rules.',
  firewallLines: 'These lines open exactly the station’s ports, to exactly the addresses in them:',
  cameras: 'Cameras',
  whoMayCome: 'Who may come in',
  noCameras: 'No camera is registered: add one below.',
  connected: 'connected now',
  lastSeen: (when: string): string => `last heard of ${when}`,
  never: 'has not come yet',
  ended: 'ended, may not come in',
  enter: (address: string): string => `Enter ${address} on it.`,
  entered: (address: string): string => `It comes to ${address}.`,
  notMeasured: 'Its speed is measured with its first file of half a megabyte or more.',
  busy: (percent: number): string => `The line was busy ${percent} % of that time.`,
  diary: 'What it did last',
  strangers: 'Not logged in',
  rehearse: 'Try the way without the camera',
} as const;

export type WayPlace = 'camera' | 'air' | 'router' | 'computer' | 'disk';

/** The pieces of the way, as they are drawn. */
export const placeNames: Readonly<Record<WayPlace, string>> = {
  camera: 'Camera',
  air: 'Air or cable',
  router: 'Router',
  computer: 'This computer',
  disk: 'Disk',
};

/** The same in a sentence. */
export const placeInWords: Readonly<Record<WayPlace, string>> = {
  camera: 'at the camera',
  air: 'between camera and router',
  router: 'at the router',
  computer: 'on this computer',
  disk: 'at the disk',
};

export type WayState = 'open' | 'weak' | 'shut' | 'unknown';

export const wayStateNames: Readonly<Record<WayState, string>> = {
  open: 'open',
  weak: 'weak',
  shut: 'shut',
  unknown: 'not seen yet',
};

/** What stands at a piece of the way where nothing is wrong with it. */
export const wayPhrases = {
  connected: (names: string): string => `${names} connected.`,
  seen: (name: string, when: string): string => `${name} was last here ${when}.`,
  noCamera: 'No camera has come yet.',
  speed: (bytesPerSecond: number): string => `Files came at ${sizePhrase(bytesPerSecond)} a second.`,
  noSpeed: 'Not measured yet: the first frame does that.',
  router: (gateway: string): string => `The router is ${gateway}.`,
  dealtOut: (until: string): string =>
    `It dealt out this computer’s address until ${until}: reserve it there.`,
  noRouter: 'No router leads out of this network; none is needed.',
  doors: (doors: string): string => `Listens: ${doors}.`,
  named: (name: string): string => `Its name on the network: ${name}.`,
  disk: (free: number): string => `${sizePhrase(free)} free.`,
  writes: (bytesPerSecond: number): string => `It takes ${sizePhrase(bytesPerSecond)} a second.`,
} as const;

/** Names of a firewall, as its system calls it. */
export const firewallNames = {
  nftables: 'nftables',
  iptables: 'iptables',
  ufw: 'ufw',
  firewalld: 'firewalld',
  windows: 'that of Windows',
  macos: 'that of macOS',
  none: 'none',
  unknown: 'unknown',
} as const;
