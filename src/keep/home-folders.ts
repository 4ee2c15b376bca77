import { dirname, join } from 'node:path';
import { errorCode } from '../base/index.ts';
import type { OriginalPath } from './core/original-path.ts';
import { foldName, numberedName } from './core/safe-name.ts';
import type { Disk } from './disk.ts';

/** The folders of a home that keep uses. Paths within are `/`-separated in the journal, absolute on the disk. */
export class HomeFolders {
  readonly home: string;
  readonly journal: string;
  readonly incomingFolder: string;
  readonly #disk: Disk;
  /** Folders known to be there, with their entries in their parents durable. */
  readonly #made = new Set<string>();
  /** Names in `originals/` that are taken or promised, in folded form. */
  readonly #claimed: Set<string> = new Set();
  /** The number that a name's next namesake is likely to get, so that a thousand of them do not ask a thousand times. */
  readonly #nextNumber = new Map<string, number>();

  constructor(disk: Disk, home: string) {
    this.#disk = disk;
    this.home = home;
    this.journal = join(home, 'journal');
    this.incomingFolder = join(home, 'incoming');
  }

  incoming(name: string): string {
    return join(this.incomingFolder, name);
  }

  original(path: string): string {
    return join(this.home, ...path.split('/'));
  }

  /** Makes the home's own folders, durable. */
  async makeAll(): Promise<void> {
    for (const folder of [this.journal, this.incomingFolder, join(this.home, 'jobs')])
      await this.make(folder);
  }

  /**
   * Makes a folder and what is missing above it; each new name is durable in its parent when this settles, also where
   * the folder was there already: a station that died may have made it and not got round to the sync.
   */
  async make(folder: string): Promise<void> {
    if (this.#made.has(folder)) return;
    const parent = dirname(folder);
    const isThere = (await this.#disk.stat(folder))?.kind === 'folder';
    if (!isThere) {
      await this.make(parent);
      await this.#disk.makeFolder(folder);
    }
    if (parent !== folder) await this.#syncParent(parent, isThere && folder === this.home);
    this.#made.add(folder);
  }

  /** What lies above a home that was there may be closed to this user: then others saw to it. */
  async #syncParent(parent: string, mayRefuse: boolean): Promise<void> {
    try {
      await this.#disk.syncFolder(parent);
    } catch (cause) {
      if (!mayRefuse || !['EACCES', 'EPERM'].includes(errorCode(cause))) throw cause;
    }
  }

  claimKnown(paths: readonly string[]): void {
    for (const path of paths) this.#claimed.add(foldName(path));
  }

  /**
   * A path for a new original where nothing lies and nobody else is going: the wanted name, or it numbered.
   * The claim lasts until the process ends.
   */
  async claimOriginal(wanted: OriginalPath): Promise<string> {
    const base = `${wanted.folder}/${wanted.name}`;
    for (let number = this.#nextNumber.get(base) ?? 1; ; number++) {
      const name = number === 1 ? wanted.name : numberedName(wanted.name, number);
      const path = `${wanted.folder}/${name}`;
      if (this.#claimed.has(foldName(path))) continue;
      this.#claimed.add(foldName(path));
      this.#nextNumber.set(base, number + 1);
      if ((await this.#disk.stat(this.original(path))) === null) return path;
    }
  }
}
