import { EventEmitter } from 'node:events';
import { hostname } from 'node:os';
import { Bonjour } from 'bonjour-service';

/** What is told on the network, by the names of the IANA registry of service names (RFC 6335). */
export interface ToldService {
  readonly type: 'ftp' | 'sftp-ssh' | 'http';
  readonly port: number;
}

/** Nothing while the door is shut. */
export function toldPort(type: ToldService['type'], port: number | null): readonly ToldService[] {
  return port === null ? [] : [{ type, port }];
}

/** More networks than this no computer on a set is in. */
const networksMax = 4;

/**
 * The station's name on the network (RFC 6762, RFC 6763), so that a camera or a phone that knows such names needs no address. Told on
 * the private networks alone; told anew when the addresses change. A network that refuses it costs nothing else.
 */
export class OwnName {
  readonly #addresses: () => readonly string[];
  readonly #services: () => readonly ToldService[];
  #tellers: Bonjour[] = [];
  #told = '';
  #name: string | null = null;

  /** `addresses`: where cameras are served by IPv4, those of private networks. */
  constructor(addresses: () => readonly string[], services: () => readonly ToldService[]) {
    this.#addresses = addresses;
    this.#services = services;
  }

  /** `studio.local`; null while there is nobody to tell. */
  get name(): string | null {
    return this.#name;
  }

  /** Tells what is to be told now; nothing where it is told already. */
  async follow(): Promise<void> {
    const addresses = this.#addresses().slice(0, networksMax);
    const services = this.#services();
    const wanted = JSON.stringify([addresses, services]);
    if (wanted === this.#told) return;
    this.#told = wanted;
    await this.#hush();
    if (addresses.length === 0 || services.length === 0) return;
    const label = plainLabel(hostname());
    const host = `${label}.local`;
    this.#tellers = addresses.map((address) => {
      // The library hands these on to the socket; its type knows those of a service alone.
      const socket: object = { interface: address, bind: '0.0.0.0' };
      const teller = new Bonjour(socket, () => {});
      neverThrow(teller);
      for (const { type, port } of services) {
        // Its own look whether a name is taken prints to the terminal; with the port in it, it is not.
        teller.publish({
          name: `Setside ${label} ${port}`,
          type,
          port,
          host,
          probe: false,
          disableIPv6: true,
        });
      }
      return teller;
    });
    this.#name = host;
  }

  async close(): Promise<void> {
    await this.#hush();
  }

  async #hush(): Promise<void> {
    const tellers = this.#tellers;
    this.#tellers = [];
    this.#name = null;
    await Promise.all(tellers.map(goodbye));
  }
}

/**
 * Where the port for names cannot be opened, the library's inner emitter says `error`, and one that nobody hears ends the
 * process. It has no door to that emitter.
 */
function neverThrow(teller: Bonjour): void {
  const server: unknown = Reflect.get(teller, 'server');
  const emitter: unknown = typeof server === 'object' && server !== null ? Reflect.get(server, 'mdns') : null;
  if (emitter instanceof EventEmitter) emitter.on('error', () => {});
}

/** A goodbye is for those who listen; a network that is gone must not hold the end up. */
const goodbyeMsMax = 500;

function goodbye(teller: Bonjour): Promise<void> {
  return new Promise((resolve) => {
    const patience = setTimeout(end, goodbyeMsMax);
    function end(): void {
      clearTimeout(patience);
      teller.destroy();
      resolve();
    }
    teller.unpublishAll(() => end());
  });
}

/** A label of RFC 1123 section 2.1: letters, digits and hyphens. */
function plainLabel(name: string): string {
  const label = (name.split('.')[0] ?? '')
    .toLowerCase()
    .replaceAll(/[^a-z0-9-]+/g, '-')
    .slice(0, 40);
  return label === '' ? 'setside' : label;
}
