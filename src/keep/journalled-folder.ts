import type { EpochMs } from '../base/index.ts';
import type { Arrival, FolderEntry, KeptFolder, OpenHow } from './arrival-shapes.ts';
import type { KeepContext } from './context.ts';
import {
  baseName,
  type FileNode,
  type FolderNode,
  type FolderTree,
  type TreeNode,
} from './core/folder-tree.ts';
import type { RecordBody } from './core/records.ts';
import { diskError, folderError } from './errors.ts';
import { openArrival } from './open-arrival.ts';
import { Turnstile } from './turnstile.ts';

/**
 * One camera's folder as the camera sees it: a view over the journal. Each change is checked, journalled durably and
 * then shown, one at a time per camera, so that no two can be right alone and wrong together.
 */
export class JournalledFolder implements KeptFolder {
  readonly #context: KeepContext;
  readonly #camera: string;
  readonly #turnstile = new Turnstile();

  constructor(context: KeepContext, camera: string) {
    this.#context = context;
    this.#camera = camera;
  }

  async list(path: string): Promise<readonly FolderEntry[]> {
    const node = this.#need(path);
    if (node.kind === 'file') throw folderError('not-a-folder', `${path} is a file`);
    return [...node.children]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, child]) => this.#entry(name, child));
  }

  async stat(path: string): Promise<FolderEntry | null> {
    const node = this.#tree().find(checked(path));
    return node === null ? null : this.#entry(baseName(path), node);
  }

  makeFolder(path: string): Promise<void> {
    return this.#turnstile.pass(async () => {
      this.#needFree(path);
      this.#needParent(path);
      const { foldersPerCameraMax } = this.#context.limits;
      if (countFolders(this.#tree().root) >= foldersPerCameraMax) {
        throw folderError('too-many', `${this.#camera} has ${foldersPerCameraMax} folders`);
      }
      await this.#record({ type: 'folder-made', camera: this.#camera, path });
    });
  }

  removeFolder(path: string): Promise<void> {
    return this.#turnstile.pass(async () => {
      const node = this.#need(path);
      if (node.kind === 'file') throw folderError('not-a-folder', `${path} is a file`);
      if (node.children.size > 0 || path === '/') throw folderError('not-empty', `${path} is not empty`);
      await this.#record({ type: 'folder-removed', camera: this.#camera, path });
    });
  }

  rename(from: string, to: string): Promise<void> {
    return this.#turnstile.pass(async () => {
      const node = this.#need(from);
      if (from === to) return;
      if (from === '/' || to.startsWith(`${from}/`))
        throw folderError('exists', `${from} cannot go into itself`);
      // A client that missed our answer sends the file again and renames it again: both names show one original.
      const there = this.#tree().find(checked(to));
      const same = there?.kind === 'file' && node.kind === 'file' && there.arrival === node.arrival;
      if (there !== null && !same) throw folderError('exists', `${to} is there already`);
      this.#needParent(to);
      const arrival = node.kind === 'file' ? node.arrival : null;
      await this.#record({ type: 'renamed', camera: this.#camera, from, to, arrival });
    });
  }

  hide(path: string): Promise<void> {
    return this.#turnstile.pass(async () => {
      const { arrival } = this.#needFile(path);
      await this.#record({ type: 'hidden', camera: this.#camera, path, arrival });
    });
  }

  setModified(path: string, modifiedMs: EpochMs): Promise<void> {
    return this.#turnstile.pass(async () => {
      this.#need(path);
      await this.#record({ type: 'modified', camera: this.#camera, path, modifiedMs });
    });
  }

  open(path: string, how: OpenHow): Promise<Arrival> {
    return this.#turnstile.pass(async () => {
      this.#needParent(path);
      const node = this.#tree().find(path);
      if (node?.kind === 'folder') throw folderError('not-a-file', `${path} is a folder`);
      try {
        return await openArrival(this.#context, this.#camera, path, node, how);
      } catch (cause) {
        throw diskError(cause);
      }
    });
  }

  #tree(): FolderTree {
    return this.#context.state.folderOf(this.#camera, this.#context.now());
  }

  #need(path: string): TreeNode {
    const node = this.#tree().find(checked(path));
    if (node === null) throw folderError('not-found', `there is no ${path}`);
    return node;
  }

  #needFile(path: string): FileNode {
    const node = this.#need(path);
    if (node.kind === 'folder') throw folderError('not-a-file', `${path} is a folder`);
    return node;
  }

  #needParent(path: string): FolderNode {
    const parent = this.#tree().parentOf(checked(path));
    if (parent === null) throw folderError('not-found', `there is no folder to hold ${path}`);
    return parent;
  }

  #needFree(path: string): void {
    if (this.#tree().find(checked(path)) !== null) throw folderError('exists', `${path} is there already`);
  }

  async #record(body: RecordBody): Promise<void> {
    await this.#context.journal.append(body);
  }

  #entry(name: string, node: TreeNode): FolderEntry {
    if (node.kind === 'folder') return { name, kind: 'folder', sizeBytes: 0, modifiedMs: node.modifiedMs };
    const { sizeBytes, modifiedMs } = this.#shown(node.arrival);
    return { name, kind: 'file', sizeBytes, modifiedMs: node.modifiedMs ?? modifiedMs };
  }

  #shown(id: string): { sizeBytes: number; modifiedMs: EpochMs } {
    const live = this.#context.live.get(id);
    const known = this.#context.state.arrivals.get(id);
    if (known === undefined) return { sizeBytes: 0, modifiedMs: 0 };
    const modifiedMs = known.announcedMs;
    if (live !== undefined) return { sizeBytes: live.heldBytes, modifiedMs: live.lastByteMs ?? modifiedMs };
    const { phase } = known;
    if (phase.kind === 'kept') {
      return { sizeBytes: phase.file.sizeBytes, modifiedMs: phase.file.lastByteMs ?? modifiedMs };
    }
    return phase.kind === 'broken-off'
      ? { sizeBytes: phase.sizeBytes, modifiedMs: phase.lastByteMs ?? modifiedMs }
      : { sizeBytes: 0, modifiedMs };
  }
}

/** The session has normalised the path; anything else is its mistake, and must not get further than here. */
function checked(path: string): string {
  const wellFormed =
    path === '/' ||
    (path.startsWith('/') &&
      path
        .slice(1)
        .split('/')
        .every((part) => part !== '' && part !== '.' && part !== '..'));
  if (!wellFormed)
    throw folderError('not-found', `${JSON.stringify(path)} is not a path in a camera's folder`);
  return path;
}

function countFolders(folder: FolderNode): number {
  let count = 1;
  for (const child of folder.children.values()) if (child.kind === 'folder') count += countFolders(child);
  return count;
}
