import { createHash, randomBytes } from 'node:crypto';
import { type EpochMs, epochMsToRfc3339, SetsideError } from '../../base/index.ts';
import type { Link } from '../../contract/index.ts';
import type { EnterAnswer, Line, LinkHolder, Scope, Share } from '../../serve/index.ts';
import { devicesMax, type KeptLink, linksMax, withWord } from './core/kept-link.ts';
import { parseToken, tokenFromBytes } from './core/token.ts';
import { readLinks, writeLinks } from './link-file.ts';

export interface LinkWish {
  readonly scope: Scope;
  readonly name: string;
  readonly share: Share | null;
  /** From now on. */
  readonly lastsMs: number;
}

/** Timers reach no further than 24 days; a day is as good. */
const timerMsMax = 86_400_000;

/**
 * Who may look in by a link, now. The station is the only writer of `keys/links.json`. What was promised is on the disk
 * before anybody is told: an ended link stays ended after a crash.
 */
export class LinkBook {
  readonly #keysFolder: string;
  readonly #now: () => EpochMs;
  #links: readonly KeptLink[];
  readonly #lastSeenMs = new Map<string, EpochMs>();
  readonly #endListeners = new Set<(link: string) => void>();
  readonly #outListeners = new Set<(device: string) => void>();
  readonly #changeListeners = new Set<() => void>();
  #turn: Promise<unknown> = Promise.resolve();
  #timer: NodeJS.Timeout | null = null;

  private constructor(keysFolder: string, now: () => EpochMs, links: readonly KeptLink[]) {
    this.#keysFolder = keysFolder;
    this.#now = now;
    this.#links = links;
  }

  /** Rejects `bad-settings` where the file holds no links. */
  static async open(keysFolder: string, now: () => EpochMs): Promise<LinkBook> {
    const book = new LinkBook(keysFolder, now, await readLinks(keysFolder));
    book.#watchEnds();
    return book;
  }

  /** Those that have not ended, the newest first. */
  all(): Link[] {
    return this.#living()
      .map((link) => this.#shape(link))
      .reverse();
  }

  /** Hears the id of each link that ends. */
  onEnd(listener: (link: string) => void): () => void {
    this.#endListeners.add(listener);
    return () => this.#endListeners.delete(listener);
  }

  /** Hears the name of each device that is out though its link goes on. */
  onDeviceOut(listener: (device: string) => void): () => void {
    this.#outListeners.add(listener);
    return () => this.#outListeners.delete(listener);
  }

  /** Hears that links were made or ended. */
  onChange(listener: () => void): void {
    this.#changeListeners.add(listener);
  }

  /** A new link with its token, which is told this once. Rejects `too-many-links`. */
  make({ lastsMs, ...wish }: LinkWish): Promise<{ readonly link: Link; readonly token: string }> {
    return this.#inTurn(async () => {
      const living = this.#living();
      if (living.length >= linksMax) throw new SetsideError('too-many-links', `there are ${linksMax} links`);
      const token = newSecret();
      const madeMs = this.#now();
      const link: KeptLink = {
        ...wish,
        id: randomBytes(6).toString('hex'),
        madeMs,
        endsMs: madeMs + lastsMs,
        tokenHash: hashOf(token),
        devices: [],
      };
      await this.#keep([...living, link]);
      return { link: this.#shape(link), token };
    });
  }

  /** Gives the link that was ended; null where there was none of that id. */
  end(id: string): Promise<Link | null> {
    return this.#inTurn(async () => {
      const link = this.#living().find((each) => each.id === id);
      if (link === undefined) return null;
      await this.#keep(this.#living().filter((each) => each.id !== id));
      return this.#shape(link);
    });
  }

  /** See `LinkCalls.enterLink`. */
  enter(typed: string, known: string | null, line: Line): Promise<EnterAnswer> {
    return this.#inTurn(async () => {
      const token = parseToken(typed);
      const link = token === null ? undefined : this.#byToken(token);
      if (link === undefined) return null;
      if (link.scope === 'operator' && line === 'here-in-clear') return 'encrypted-only';
      if (link.scope === 'operator' && line === 'in-clear') {
        await this.#keep(this.#living().filter(({ id }) => id !== link.id));
        return 'ended-in-clear';
      }
      const isKnown = known !== null && this.#ofDevice(known)?.id === link.id;
      const secret = isKnown ? known : newSecret();
      if (!isKnown)
        await this.#keep(
          this.#living().map((each) => (each.id === link.id ? this.#withDevice(link, secret) : each)),
        );
      return {
        ...this.#holderOf(link, secret),
        secret,
        seconds: Math.ceil((link.endsMs - this.#now()) / 1000),
      };
    });
  }

  /** See `LinkCalls.holder`. */
  holder(secret: string): LinkHolder | null {
    const link = this.#ofDevice(secret);
    if (link === undefined) return null;
    this.#lastSeenMs.set(link.id, this.#now());
    return this.#holderOf(link, secret);
  }

  /** Whether an agreement was given on a device (`Who.device`). */
  gaveWord(device: string, agreement: string): boolean {
    return this.#links.some(({ devices }) =>
      devices.some(({ secretHash, words }) => secretHash === device && words.includes(agreement)),
    );
  }

  /** An agreement is about to be given on a device; one that is out by now is nobody. */
  noteWord(device: string, agreement: string): Promise<void> {
    return this.#inTurn(async () => {
      const living = this.#living();
      if (!living.some(({ devices }) => devices.some(({ secretHash }) => secretHash === device))) return;
      await this.#keep(living.map((link) => withWord(link, device, agreement)));
    });
  }

  leave(secret: string): Promise<void> {
    return this.#inTurn(async () => {
      const link = this.#ofDevice(secret);
      if (link === undefined) return;
      const hash = hashOf(secret);
      const devices = link.devices.filter(({ secretHash }) => secretHash !== hash);
      await this.#keep(this.#living().map((each) => (each.id === link.id ? { ...link, devices } : each)));
    });
  }

  close(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#endListeners.clear();
    this.#outListeners.clear();
    this.#changeListeners.clear();
  }

  #living(): readonly KeptLink[] {
    const nowMs = this.#now();
    return this.#links.filter(({ endsMs }) => endsMs > nowMs);
  }

  /** Hashes are compared, so that the time this takes says nothing of a secret. */
  #byToken(token: string): KeptLink | undefined {
    const hash = hashOf(token);
    return this.#living().find(({ tokenHash }) => tokenHash === hash);
  }

  #ofDevice(secret: string): KeptLink | undefined {
    const hash = hashOf(secret);
    return this.#living().find(({ devices }) => devices.some(({ secretHash }) => secretHash === hash));
  }

  #withDevice(link: KeptLink, secret: string): KeptLink {
    const device = { secretHash: hashOf(secret), sinceMs: this.#now(), words: [] };
    return { ...link, devices: [...link.devices.slice(1 - devicesMax), device] };
  }

  #holderOf({ id, scope, name, share, endsMs }: KeptLink, secret: string): LinkHolder {
    return { who: { scope, name, link: id, device: hashOf(secret), share }, ends: epochMsToRfc3339(endsMs) };
  }

  async #keep(links: readonly KeptLink[]): Promise<void> {
    await writeLinks(this.#keysFolder, links);
    this.#take(links);
  }

  #take(links: readonly KeptLink[]): void {
    const gone = this.#links.filter(({ id }) => !links.some((link) => link.id === id));
    const out = devicesOut(this.#links, links);
    this.#links = links;
    for (const device of out) for (const listener of this.#outListeners) listener(device);
    for (const { id } of gone) {
      this.#lastSeenMs.delete(id);
      for (const listener of this.#endListeners) listener(id);
    }
    for (const listener of this.#changeListeners) listener();
    this.#watchEnds();
  }

  /** Ends what has reached its end, and waits for the next. The file is tidied with the next change. */
  #watchEnds(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    const next = Math.min(...this.#links.map(({ endsMs }) => endsMs));
    if (next === Number.POSITIVE_INFINITY) return;
    const wait = Math.min(Math.max(next - this.#now(), 0), timerMsMax);
    this.#timer = setTimeout(() => {
      const living = this.#living();
      if (living.length < this.#links.length) this.#take(living);
      else this.#watchEnds();
    }, wait + 1);
    this.#timer.unref();
  }

  #shape({ id, scope, name, share, madeMs, endsMs, devices }: KeptLink): Link {
    const seenMs = this.#lastSeenMs.get(id);
    return {
      id,
      scope,
      name,
      share: share === null ? null : { job: share.job, shots: [...share.shots] },
      made: epochMsToRfc3339(madeMs),
      ends: epochMsToRfc3339(endsMs),
      devices: devices.length,
      lastSeen: seenMs === undefined ? null : epochMsToRfc3339(seenMs),
    };
  }

  /** One change after another: each begins with what the one before left. */
  #inTurn<T>(work: () => Promise<T>): Promise<T> {
    const done = this.#turn.then(work);
    this.#turn = done.catch(() => {});
    return done;
  }
}

/** Devices of links that go on which are not among these any more, by the hash of their secret. */
function devicesOut(before: readonly KeptLink[], after: readonly KeptLink[]): string[] {
  return before.flatMap(({ id, devices }) => {
    const left = after.find((link) => link.id === id)?.devices;
    if (left === undefined) return [];
    return devices
      .map(({ secretHash }) => secretHash)
      .filter((hash) => !left.some(({ secretHash }) => secretHash === hash));
  });
}

function hashOf(secret: string): string {
  return createHash('sha256').update(secret).digest('hex');
}

function newSecret(): string {
  const secret = tokenFromBytes(randomBytes(256));
  if (secret === null) throw new Error('256 random bytes gave no token: the odds are below 1 in 10^100');
  return secret;
}
