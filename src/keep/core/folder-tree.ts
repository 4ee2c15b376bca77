import type { EpochMs } from '../../base/index.ts';

/** One camera's folder as the camera sees it: names only; what a file is, its arrival says. */
export interface FolderNode {
  readonly kind: 'folder';
  readonly children: Map<string, TreeNode>;
  modifiedMs: EpochMs;
}

export interface FileNode {
  readonly kind: 'file';
  /** The arrival whose bytes are shown here. */
  arrival: string;
  /** Set by MFMT; null while nobody set it. */
  modifiedMs: EpochMs | null;
}

export type TreeNode = FolderNode | FileNode;

export class FolderTree {
  readonly root: FolderNode;

  constructor(madeMs: EpochMs) {
    this.root = { kind: 'folder', children: new Map(), modifiedMs: madeMs };
  }

  find(path: string): TreeNode | null {
    let node: TreeNode = this.root;
    for (const part of partsOf(path)) {
      const child: TreeNode | undefined = node.kind === 'folder' ? node.children.get(part) : undefined;
      if (child === undefined) return null;
      node = child;
    }
    return node;
  }

  /** Null where the parent is missing or a file. */
  parentOf(path: string): FolderNode | null {
    const node = this.find(parentPath(path));
    return node?.kind === 'folder' ? node : null;
  }

  /** Puts a node at a path; folders that a damaged journal lost on the way are made. */
  put(path: string, node: TreeNode, atMs: EpochMs): void {
    let folder = this.root;
    for (const part of partsOf(parentPath(path))) {
      const child = folder.children.get(part);
      if (child?.kind === 'folder') {
        folder = child;
      } else {
        const made: FolderNode = { kind: 'folder', children: new Map(), modifiedMs: atMs };
        folder.children.set(part, made);
        folder = made;
      }
    }
    folder.children.set(baseName(path), node);
    folder.modifiedMs = atMs;
  }

  take(path: string, atMs: EpochMs): TreeNode | null {
    const parent = this.parentOf(path);
    const node = parent?.children.get(baseName(path)) ?? null;
    if (parent === null || node === null) return null;
    parent.children.delete(baseName(path));
    parent.modifiedMs = atMs;
    return node;
  }
}

/** Every file at or below a node, with its path. */
export function* filesBelow(path: string, node: TreeNode): Generator<{ path: string; file: FileNode }> {
  if (node.kind === 'file') {
    yield { path, file: node };
    return;
  }
  for (const [name, child] of node.children) yield* filesBelow(joinPath(path, name), child);
}

export function joinPath(folder: string, name: string): string {
  return folder === '/' ? `/${name}` : `${folder}/${name}`;
}

export function baseName(path: string): string {
  return path.slice(path.lastIndexOf('/') + 1);
}

export function parentPath(path: string): string {
  return path.slice(0, path.lastIndexOf('/')) || '/';
}

function partsOf(path: string): string[] {
  return path.split('/').filter((part) => part !== '');
}
