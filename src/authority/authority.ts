import type { EpochMs } from '../base/index.ts';
import { SetsideError } from '../base/index.ts';
import { lastsAWhile, rootLifetime, serverLifetime } from './core/lifetimes.ts';
import { covers, type ServerNames, tidyNames } from './core/server-names.ts';
import { withinTerritory } from './core/territory.ts';
import { authorityUnreadable, authorityUnwritable } from './errors.ts';
import { type Held, namesOf, parseHeld, textOf } from './held.ts';
import { type Issued, issueRoot, issueServer } from './issue.ts';
import { openSecretFolder, readSecret, writeSecret } from './secret-file.ts';
import type { RootCertificate, ServerCredentials } from './shapes.ts';

export interface AuthorityOptions {
  /** Where the keys lie; made if it is missing. Absolute. */
  readonly folder: string;
  readonly now: () => EpochMs;
  /** That many bytes that nobody can guess: serial numbers and the station's invented name. */
  readonly random: (count: number) => Uint8Array;
}

/** The station's own certificate authority, open. */
export interface Authority {
  readonly root: RootCertificate;
  /** Whether the root is new: made at this start, so that no camera knows it yet. */
  readonly isNew: boolean;
  /** The server's certificate now. */
  readonly credentials: ServerCredentials;
  /**
   * Makes a new server certificate where the present one does not hold all of these names or will end within two
   * months; true where it did. Names outside the root's territory (`core/territory.ts`) are left out. Cheap when nothing
   * is to be done. Rejects `authority-unwritable`; the present certificate stays.
   */
  refresh(names: ServerNames): Promise<boolean>;
}

const rootFile = 'authority.pem';
const serverFile = 'server.pem';

/**
 * Opens the authority of a folder, making the root at the first start (and again when its ten years are nearly over),
 * with a server certificate for `names`. Rejects `authority-unreadable`, `authority-unwritable`.
 */
export async function openAuthority(options: AuthorityOptions, names: ServerNames): Promise<Authority> {
  const { folder } = options;
  try {
    await openSecretFolder(folder);
    const { root, isNew } = await openRoot(options);
    const shelf = new Shelf(options, root);
    const credentials = await shelf.open(names);
    return new OpenAuthority(shelf, rootCertificate(root), isNew, credentials);
  } catch (trouble) {
    throw explained(folder, trouble);
  }
}

class OpenAuthority implements Authority {
  readonly root: RootCertificate;
  readonly isNew: boolean;
  credentials: ServerCredentials;
  readonly #shelf: Shelf;
  #refreshing: Promise<boolean> | null = null;

  constructor(shelf: Shelf, root: RootCertificate, isNew: boolean, credentials: ServerCredentials) {
    this.#shelf = shelf;
    this.root = root;
    this.isNew = isNew;
    this.credentials = credentials;
  }

  refresh(names: ServerNames): Promise<boolean> {
    this.#refreshing ??= this.#refresh(names).finally(() => {
      this.#refreshing = null;
    });
    return this.#refreshing;
  }

  async #refresh(names: ServerNames): Promise<boolean> {
    if (this.#shelf.isGoodFor(names)) return false;
    try {
      this.credentials = await this.#shelf.renew(names);
      return true;
    } catch (trouble) {
      throw explained(this.#shelf.folder, trouble);
    }
  }
}

/** The server's certificate on disk, under one root. */
class Shelf {
  readonly #options: AuthorityOptions;
  readonly #root: Held;
  #server: Held | null = null;
  /** Names that the server's certificate was found to cover: asked for again and again, and seldom others. */
  #covered: string | null = null;

  constructor(options: AuthorityOptions, root: Held) {
    this.#options = options;
    this.#root = root;
  }

  get folder(): string {
    return this.#options.folder;
  }

  /** What lies there, if it is of this root and good for the names; else a new one. It is derived, so nobody is asked. */
  async open(names: ServerNames): Promise<ServerCredentials> {
    const text = await readSecret(this.folder, serverFile);
    const held = text === null ? null : parseHeld(text);
    this.#server = held?.x509.verify(this.#root.x509.publicKey) === true ? held : null;
    return this.#server !== null && this.isGoodFor(names)
      ? this.#credentials(this.#server)
      : this.renew(names);
  }

  isGoodFor(names: ServerNames): boolean {
    const held = this.#server;
    if (held === null || !lastsAWhile(held, this.#options.now())) return false;
    const asked = JSON.stringify(names);
    if (asked === this.#covered) return true;
    const isCovered = covers(namesOf(held), withinTerritory(tidyNames(names)));
    if (isCovered) this.#covered = asked;
    return isCovered;
  }

  async renew(names: ServerNames): Promise<ServerCredentials> {
    const { now, random, folder } = this.#options;
    const issued = await issueServer(this.#root, withinTerritory(tidyNames(names)), {
      organisation: organisationOf(this.#root),
      serial: random(16),
      lifetime: serverLifetime(now(), this.#root),
    });
    await writeSecret(folder, serverFile, textOf(issued));
    this.#server = readBack(issued);
    this.#covered = null;
    return this.#credentials(this.#server);
  }

  #credentials({ key, certificate, notAfterMs }: Held): ServerCredentials {
    return Object.freeze({ key, chain: `${certificate}${this.#root.certificate}`, notAfterMs });
  }
}

/** The root that lies there while it is good; a damaged file is refused, since cameras may trust what it held. */
async function openRoot(options: AuthorityOptions): Promise<{ root: Held; isNew: boolean }> {
  const { folder, now, random } = options;
  const text = await readSecret(folder, rootFile);
  if (text !== null) {
    const root = parseHeld(text);
    if (root === null || !root.x509.ca) throw authorityUnreadable(`${folder}/${rootFile}`);
    if (lastsAWhile(root, now())) return { root, isNew: false };
  }
  const organisation = `Setside station ${Buffer.from(random(3)).toString('hex')}`;
  const issued = await issueRoot({ organisation, serial: random(16), lifetime: rootLifetime(now()) });
  await writeSecret(folder, rootFile, textOf(issued));
  return { root: readBack(issued), isNew: true };
}

function readBack(issued: Issued): Held {
  const held = parseHeld(textOf(issued));
  if (held === null) throw new Error('a certificate was issued that cannot be read back');
  return held;
}

function rootCertificate({ x509, certificate, notAfterMs }: Held): RootCertificate {
  return Object.freeze({
    name: subjectField(x509.subject, 'CN'),
    pem: certificate,
    der: new Uint8Array(x509.raw),
    fingerprint: x509.fingerprint256,
    notAfterMs,
  });
}

function organisationOf({ x509 }: Held): string {
  return subjectField(x509.subject, 'O');
}

/** Node writes a subject one attribute to a line. */
function subjectField(subject: string, field: string): string {
  const line = subject.split('\n').find((entry) => entry.startsWith(`${field}=`));
  return line?.slice(field.length + 1) ?? '';
}

function explained(folder: string, trouble: unknown): unknown {
  if (trouble instanceof SetsideError || !isSystemError(trouble)) return trouble;
  return authorityUnwritable(folder, trouble);
}

function isSystemError(trouble: unknown): boolean {
  return trouble instanceof Error && 'syscall' in trouble;
}
