import type { DoorLimits } from './limits.ts';

/** The bounds of names, the same at every door. */
export type NameLimits = Pick<DoorLimits, 'nameBytesMax' | 'pathDepthMax'>;

/** A path as the folder wants it, or why the name cannot be used. */
export type ResolvedPath =
  | { readonly kind: 'path'; readonly path: string }
  | { readonly kind: 'refused'; readonly why: NameTrouble };

export type NameTrouble = 'control-character' | 'name-too-long' | 'too-deep';

/**
 * The absolute path within the camera's folder that `argument` means when sent from `cwd`.
 *
 * `..` at the root stays at the root (RFC 1123 section 4.1.3.1 leaves it open; never above). A backslash parts names
 * as `/` does: some small clients send it, and it must never reach a file system where it means the same.
 * Refused are C0 and C1 control characters, names past 255 bytes and paths deeper than 16.
 */
export function resolvePath(cwd: string, argument: string, limits: NameLimits): ResolvedPath {
  if (hasControlCharacter(argument)) return { kind: 'refused', why: 'control-character' };
  const unified = argument.replaceAll('\\', '/');
  const names = unified.startsWith('/') ? [] : pathNames(cwd);
  for (const name of pathNames(unified)) {
    if (name === '..') names.pop();
    else if (name !== '.') names.push(name);
  }
  if (names.length > limits.pathDepthMax) return { kind: 'refused', why: 'too-deep' };
  if (names.some((name) => utf8Length(name) > limits.nameBytesMax)) {
    return { kind: 'refused', why: 'name-too-long' };
  }
  return { kind: 'path', path: `/${names.join('/')}` };
}

/** The folder a path lies in; the root's is the root. */
export function parentOf(path: string): string {
  return `/${pathNames(path).slice(0, -1).join('/')}`;
}

/** The last name of a path; empty for the root. */
export function nameOf(path: string): string {
  return pathNames(path).at(-1) ?? '';
}

/** NUL, C0, DEL and C1: what could steer a terminal, a log or the control connection itself. */
export function hasControlCharacter(text: string): boolean {
  return /\p{Cc}/u.test(text);
}

function pathNames(path: string): string[] {
  return path.split('/').filter((name) => name !== '');
}

function utf8Length(text: string): number {
  return new TextEncoder().encode(text).length;
}
