import type { LineCheck, LineRehearsal } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { KeepEvent } from '../../keep/index.ts';
import {
  addressUse,
  type CameraFacts,
  type DeviceTry,
  type DoorFacts,
  goneAddress,
  type InterfaceFacts,
  type LineFact,
  type LineFacts,
} from '../../line/index.ts';
import type { LineReport } from '../../receive/index.ts';
import type { Camera } from '../cameras/core/camera.ts';
import { ArrivalSpeeds, type FrameSeen } from './arrival-speeds.ts';
import { DiskSpeed } from './disk-speed.ts';
import { Doubles } from './doubles.ts';
import { EnteredBook } from './entered-book.ts';
import { lineCheckShape, rehearsalShape } from './line-shape.ts';
import { lookFirewall } from './look-firewall.ts';
import { lookHolders } from './look-holders.ts';
import { lookInterfaces } from './look-interfaces.ts';
import { heardLately, lookNeighbours, lookWay } from './look-neighbours.ts';
import { PacketCounts } from './packet-counts.ts';
import { systemOf } from './system-of.ts';
import { approachesOf, placesOf, portsOf, takenOf, withReach } from './whereabouts.ts';

export interface LineWatchOptions {
  readonly home: string;
  readonly now: () => number;
  readonly failed: (thrown: unknown) => void;
}

/** What the rest of the station knows of the line, asked at each look. */
export interface LineSources {
  readonly cameras: () => readonly Camera[];
  readonly connected: (camera: string) => boolean;
  readonly doors: () => readonly Omit<DoorFacts, 'holder'>[];
  readonly passive: { readonly from: number; readonly to: number };
  readonly linkPort: () => number | null;
  readonly served: (address: string) => boolean;
  readonly lines: () => readonly LineFact[];
  readonly disk: () => Promise<{ readonly freeBytes: number; readonly floorBytes: number }>;
  readonly certificate: () => LineFacts['certificate'];
  readonly mdns: () => string | null;
  readonly frameOf: (frame: string) => Promise<FrameSeen | null>;
}

/** Watches the line from the start on, and looks at all of it when asked. */
export class LineWatch {
  readonly #options: LineWatchOptions;
  readonly #startedMs: number;
  readonly #entered: EnteredBook;
  readonly #speeds = new ArrivalSpeeds();
  readonly #doubles = new Doubles();
  readonly #packets = new PacketCounts();
  readonly #disk: DiskSpeed;
  #passiveShutMs: number | null = null;
  #sources: LineSources | null = null;
  #looking: Promise<LineFacts> | null = null;

  private constructor(options: LineWatchOptions, entered: EnteredBook) {
    this.#options = options;
    this.#startedMs = options.now();
    this.#entered = entered;
    this.#disk = new DiskSpeed(options.home, options.now);
  }

  static async open(options: LineWatchOptions): Promise<LineWatch> {
    return new LineWatch(options, await EnteredBook.open(options.home, options.failed));
  }

  /** The doors are open: from now on it can look. */
  watch(sources: LineSources): void {
    this.#sources = sources;
  }

  hear(event: KeepEvent): void {
    this.#speeds.hear(event);
  }

  /** A log-in says what was entered on a camera. */
  take({ camera, change, finding: { args } }: LineReport): void {
    if (camera === null || change !== 'logged-in') return;
    const { local, address } = args;
    if (typeof local !== 'string' || typeof address !== 'string') return;
    // A stand-in on this computer was given no address that could change.
    if (addressUse(local) === 'loopback') return;
    this.#entered.note(camera, { local, address, atMs: this.#options.now() });
  }

  /** Once in some seconds: what only shows over time. */
  async pulse(): Promise<void> {
    const [heard] = await Promise.all([heardLately(), this.#packets.sample()]);
    this.#doubles.note(heard, this.#options.now());
  }

  /** That the camera was given an address which this computer does not have now; null where all is well. */
  changedFor(camera: string, own: readonly string[]): Finding | null {
    const login = this.#entered.of(camera);
    const gone = goneAddress({ interfaces: [asInterface(own)] }, { login, ended: false });
    if (gone === null) return null;
    const local = own.find(
      (address) => ['private', 'shared'].includes(addressUse(address)) && address.includes('.'),
    );
    return { code: 'line-check.address-changed', args: { camera, address: gone, local: local ?? '' } };
  }

  async check(): Promise<LineCheck> {
    const facts = await this.facts();
    const speeds = await this.#speeds.meanings(async (frame) => this.#sources?.frameOf(frame) ?? null);
    return lineCheckShape(facts, this.#sources?.mdns() ?? null, speeds);
  }

  /** What a device with a link found out about the cameras' way. */
  async rehearsed(device: DeviceTry): Promise<LineRehearsal> {
    return rehearsalShape(device, await this.facts());
  }

  /** Those who ask while it looks get what it sees. */
  facts(): Promise<LineFacts> {
    this.#looking ??= this.#look().finally(() => {
      this.#looking = null;
    });
    return this.#looking;
  }

  close(): Promise<void> {
    return this.#entered.close();
  }

  async #look(): Promise<LineFacts> {
    const sources = this.#sources;
    if (sources === null) throw new Error('the doors are not open yet');
    const nowMs = this.#options.now();
    const system = systemOf(process.platform);
    const [interfaces, neighbours, holders, disk] = await Promise.all([
      lookInterfaces(system, sources.served, nowMs),
      lookNeighbours(system),
      lookHolders(system),
      sources.disk(),
      this.#packets.sample(),
    ]);
    this.#doubles.note(neighbours, nowMs);
    const doors = sources.doors().map(
      (door): DoorFacts => ({
        ...door,
        holder: door.wanted === null ? null : (named(holders.get(door.wanted)) ?? null),
      }),
    );
    const known = sources.cameras().map((camera) => this.#camera(camera, sources));
    const linkPort = sources.linkPort();
    const busy = known.some(({ connected }) => connected);
    const [cameras, ways, firewall, writeBytesPerSecond] = await Promise.all([
      Promise.all(known.map((camera) => withReach({ interfaces, neighbours }, camera))),
      Promise.all(placesOf({ interfaces, neighbours }, known).map((address) => lookWay(system, address))),
      lookFirewall(
        system,
        portsOf(doors, sources.passive, linkPort),
        approachesOf({ interfaces, neighbours }, known),
      ),
      this.#disk.read(busy),
    ]);
    const { from, to } = sources.passive;
    if (firewall.ports.some(({ port, state }) => state === 'shut' && port >= from && port <= to))
      this.#passiveShutMs = nowMs;
    return {
      nowMs,
      startedMs: this.#startedMs,
      system,
      interfaces,
      neighbours,
      doubles: this.#doubles.all(nowMs),
      doors,
      passive: { ...sources.passive, taken: takenOf(sources.passive, holders) },
      linkPort,
      firewall,
      passiveShutMs: this.#passiveShutMs,
      ways: ways.filter((way) => way !== null),
      cameras,
      lines: sources.lines(),
      disk: { ...disk, writeBytesPerSecond },
      packets: this.#packets.lately(),
      program: process.execPath,
      certificate: sources.certificate(),
    };
  }

  #camera({ name, user, allow, protocols, ended }: Camera, { connected }: LineSources): CameraFacts {
    return {
      name,
      user,
      allow,
      protocols,
      ended,
      connected: connected(name),
      login: this.#entered.of(name),
      reach: null,
      bytesPerSecond: this.#speeds.of(name),
    };
  }
}

function named(holder: string | undefined): string | undefined {
  return holder === '' ? undefined : holder;
}

function asInterface(own: readonly string[]): InterfaceFacts {
  const addresses = own.map((address) => ({
    address,
    family: 'IPv4' as const,
    prefixBits: 32,
    given: 'unknown' as const,
    leaseEndsMs: null,
    served: true,
  }));
  return {
    name: '',
    kind: 'unknown',
    up: true,
    hardware: null,
    bitsPerSecond: null,
    gateway: null,
    addresses,
  };
}
