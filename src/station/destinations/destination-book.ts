import { mkdir, readdir, rm } from 'node:fs/promises';
import { join, resolve, sep } from 'node:path';
import { z } from 'zod';
import { readSecret, writeSecret } from '../../authority/index.ts';
import { errorCode, SetsideError } from '../../base/index.ts';
import {
  type Destination,
  type DestinationPlace,
  destinationName,
  destinationPlace,
} from '../../contract/index.ts';
import type { Specification } from '../../deliver/index.ts';
import { SendFailure } from '../../send/index.ts';
import { secretFrom } from './secret-of.ts';
import { type SecretSource, sameLogIn, secretSource } from './secret-source.ts';

/** Destinations of one station: clients, printers, storage. */
const destinationsMax = 200;

const placeFile = z.object({ version: z.literal(1), place: destinationPlace });

/**
 * Where deliveries are sent: `destinations/NAME.json` of the home says where, `keys/destination-NAME.json` (mode 0600) has the secret, or
 * says where it comes from. A file each, read anew whenever it is asked for: a command may change one while the station runs.
 */
export class DestinationBook {
  readonly #homePath: string;
  readonly #folder: string;
  readonly #keys: string;

  constructor(homePath: string) {
    this.#homePath = resolve(homePath);
    this.#folder = join(homePath, 'destinations');
    this.#keys = join(homePath, 'keys');
  }

  /** By name. Rejects `bad-settings` where a file holds something else. */
  async all(): Promise<readonly Destination[]> {
    const files = await readdir(this.#folder).catch((thrown: unknown) => {
      if (errorCode(thrown) === 'ENOENT') return [];
      throw thrown;
    });
    const names = files
      .map((file) => file.replace(/\.json$/, ''))
      .filter((name, index) => name !== files[index] && destinationName.safeParse(name).success);
    const found = await Promise.all(names.sort().map((name) => this.one(name)));
    return found.filter((each) => each !== null);
  }

  /** Null where there is none of that name. */
  async one(name: string): Promise<Destination | null> {
    if (!destinationName.safeParse(name).success) return null;
    const text = await readSecret(this.#folder, `${name}.json`);
    if (text === null) return null;
    const { place } = this.#parsed(placeFile, text, join(this.#folder, `${name}.json`));
    const source = await this.#source(name);
    return { name, place, secret: source?.from ?? null };
  }

  /**
   * Writes one down; `source` undefined leaves the secret as it was where it is for the same log-in, and drops it else. Rejects
   * `destination-in-home`, `too-many-destinations`.
   */
  async put(
    name: string,
    place: DestinationPlace,
    source: SecretSource | undefined,
  ): Promise<{ readonly destination: Destination; readonly isNew: boolean }> {
    if (place.kind === 'folder') this.#assertOutside(place.path);
    const before = await this.one(name);
    if (before === null && (await this.all()).length >= destinationsMax) {
      throw new SetsideError('too-many-destinations', `there are ${destinationsMax} destinations already`, {
        cure: 'Forget one that is not used any more.',
      });
    }
    const keeps = before !== null && sameLogIn(before.place, place);
    return { destination: await this.#write(name, place, source, keeps), isNew: before === null };
  }

  async #write(
    name: string,
    place: DestinationPlace,
    source: SecretSource | undefined,
    keeps: boolean,
  ): Promise<Destination> {
    await mkdir(this.#folder, { recursive: true });
    await mkdir(this.#keys, { recursive: true, mode: 0o700 });
    // First, so that no moment has the new place with a secret that is another server's.
    if (source === undefined && !keeps) await rm(join(this.#keys, secretName(name)), { force: true });
    if (source !== undefined) await writeSecret(this.#keys, secretName(name), `${JSON.stringify(source)}\n`);
    const text = `${JSON.stringify({ version: 1, place }, null, 2)}\n`;
    await writeSecret(this.#folder, `${name}.json`, text);
    return { name, place, secret: (await this.#source(name))?.from ?? null };
  }

  /** Rejects `no-destination`, `destination-there`. */
  async assertCanRename(name: string, to: string): Promise<void> {
    await this.#known(name);
    if ((await this.one(to)) === null) return;
    throw new SetsideError('destination-there', `there is a destination ${to} already`, {
      cure: 'Choose another name, or forget that one first.',
    });
  }

  /** Gives it another name, with its secret. Rejects `no-destination`, `destination-there`. */
  async rename(name: string, to: string): Promise<Destination> {
    await this.assertCanRename(name, to);
    const { place } = await this.#known(name);
    // The new one is whole before anything of the old one goes: a crash between leaves both, and loses none.
    const source = await this.#source(name);
    const renamed = await this.#write(to, place, source ?? undefined, false);
    await this.forget(name);
    return renamed;
  }

  /** Rejects `no-destination`. */
  async #known(name: string): Promise<Destination> {
    const found = await this.one(name);
    if (found !== null) return found;
    throw new SetsideError('no-destination', `there is no destination ${name}`, {
      cure: 'setside destination list shows those there are.',
    });
  }

  /** With its secret; false where there was none. */
  async forget(name: string): Promise<boolean> {
    if ((await this.one(name)) === null) return false;
    await rm(join(this.#keys, secretName(name)), { force: true });
    await rm(join(this.#folder, `${name}.json`), { force: true });
    return true;
  }

  /** The secret now; null where there is none. Rejects `SendFailure`. */
  async secretOf(name: string): Promise<string | null> {
    const source = await this.#source(name);
    return source === null ? null : secretFrom(source);
  }

  /** For a delivery: the place as it is now. Rejects `SendFailure` where it was forgotten. */
  async placeOf(name: string): Promise<DestinationPlace> {
    const found = await this.one(name);
    if (found === null) throw new SendFailure('stop', 'send.no-destination', { name });
    return found.place;
  }

  /** Rejects `no-destination`, `bad-destination`: before a delivery begins, not when its files are made. */
  async assertCanSendTo(destination: Specification['destination']): Promise<void> {
    if (destination.kind === 'folder') this.#assertOutside(destination.path);
    if (destination.kind === 'named') await this.#known(destination.name);
  }

  async #source(name: string): Promise<SecretSource | null> {
    const text = await readSecret(this.#keys, secretName(name));
    return text === null ? null : this.#parsed(secretSource, text, join(this.#keys, secretName(name)));
  }

  /** Deliveries lie in the home anyway, and nothing may be sent among the originals. */
  #assertOutside(path: string): void {
    const folder = resolve(path);
    if (folder !== path.replace(/(?<=.)[\\/]+$/, '')) {
      throw new SetsideError('bad-destination', `${path} does not begin at the root`, {
        cure: 'Name the whole path of the folder.',
      });
    }
    if (`${folder}${sep}`.startsWith(`${this.#homePath}${sep}`)) {
      throw new SetsideError('bad-destination', `${folder} lies inside the folder of the station`, {
        cure: 'Deliveries are there anyway. Choose a folder elsewhere.',
      });
    }
  }

  #parsed<T>(schema: z.ZodType<T>, text: string, file: string): T {
    try {
      return schema.parse(JSON.parse(text));
    } catch {
      // What is wrong with it may be part of a secret.
      throw new SetsideError('bad-settings', `${file} does not hold what a destination needs`, {
        cure: 'Take it away, and make the destination again with setside destination add.',
      });
    }
  }
}

function secretName(name: string): string {
  return `destination-${name}.json`;
}
