import { hostname } from 'node:os';
import type { Authority } from '../../authority/index.ts';
import { errorCode } from '../../base/index.ts';
import type { LinkDoor as DoorShape } from '../../contract/index.ts';
import type { Finding } from '../../facts/index.ts';
import type { LinkDoor, WebDoor } from '../../serve/index.ts';
import { ownAddresses } from '../own-addresses.ts';
import { openServed } from '../serve-private.ts';
import { type LinkAddress, linkAddresses } from './core/link-addresses.ts';
import { groupedToken } from './core/token.ts';

export interface OutsideOptions {
  /** Ports to try, in order; 0 is any free one. */
  readonly ports: readonly number[];
  readonly bind: string | null;
  readonly authority: Authority | null;
}

/** After the last link has ended, so that a phone that slept is told why it is shut out. */
const lingerMs = 5 * 60_000;

/**
 * The port for devices with a link: open while there is a link, for a little while after, and shut otherwise, so that a station nobody was let in to
 * answers nothing to the network.
 */
export class Outside {
  readonly #options: OutsideOptions;
  readonly #web: WebDoor;
  #door: LinkDoor | null = null;
  #trouble: Finding | null = null;
  #turn: Promise<void> = Promise.resolve();
  #timer: NodeJS.Timeout | null = null;

  constructor(options: OutsideOptions, web: WebDoor) {
    this.#options = options;
    this.#web = web;
  }

  /** Opens the door where there are links; without any it shuts soon. Never rejects: what is wrong is told as a trouble. */
  follow(isWanted: boolean): Promise<void> {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
    if (isWanted) return this.#next(() => this.#open());
    this.#timer = setTimeout(() => void this.close(), lingerMs);
    this.#timer.unref();
    return this.#turn;
  }

  /** Shuts the door now. */
  close(): Promise<void> {
    if (this.#timer !== null) clearTimeout(this.#timer);
    return this.#next(() => this.#shut());
  }

  shape(): DoorShape {
    const trouble = this.#trouble;
    return {
      port: this.#door?.port ?? null,
      trouble: trouble === null ? null : { code: trouble.code, args: { ...trouble.args } },
    };
  }

  /** Where a link leads; none while the door is shut. */
  addresses(token: string): LinkAddress[] {
    if (this.#door === null) return [];
    const hasTls = this.#options.authority !== null;
    return linkAddresses(
      servedHere(this.#options.bind),
      localName(),
      this.#door.port,
      groupedToken(token),
      hasTls,
    );
  }

  #next(work: () => Promise<void>): Promise<void> {
    this.#turn = this.#turn.then(work);
    return this.#turn;
  }

  async #open(): Promise<void> {
    if (this.#door !== null) return;
    this.#trouble = null;
    const { ports, bind, authority } = this.#options;
    for (const port of ports) {
      try {
        this.#door = await openServed(bind, (place) =>
          this.#web.openForLinks({ ...place, port, identity: authority }),
        );
        return;
      } catch (thrown) {
        this.#trouble = { code: 'station.links-shut', args: { port, why: errorCode(thrown) } };
      }
    }
  }

  async #shut(): Promise<void> {
    const door = this.#door;
    this.#door = null;
    this.#trouble = null;
    await door?.close();
  }
}

/** Names and addresses by which a device may call this computer: those its certificate holds. */
export function ownHosts(): readonly string[] {
  const name = hostname().toLowerCase();
  const local = localName();
  return [
    ...ownAddresses().map(({ address }) => address.toLowerCase().split('%')[0] ?? address),
    'localhost',
    name,
    ...(local === null ? [] : [local]),
  ];
}

function servedHere(bind: string | null): ReturnType<typeof ownAddresses> {
  if (bind === null || bind === '::') return ownAddresses();
  if (bind === '0.0.0.0') return ownAddresses().filter((entry) => entry.family === 'IPv4');
  const family = bind.includes(':') ? 'IPv6' : 'IPv4';
  // Named by the operator, so served whatever it is.
  return [{ address: bind, family, interface: '', private: true, beside: false }];
}

/** The name by which multicast DNS (RFC 6762) finds this computer; null where its own is no host name. */
function localName(): string | null {
  const first = (hostname().split('.')[0] ?? '').toLowerCase();
  return /^[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?$/.test(first) ? `${first}.local` : null;
}
