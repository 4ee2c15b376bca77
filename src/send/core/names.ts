/**
 * Under this name a file lies while it comes. Its hash is part of it, so that only the same bytes are ever gone on with, and nobody
 * else's file has it.
 */
export function partName(name: string, sha256: string): string {
  return `.${name}.${sha256.slice(0, 16)}.part`;
}

/** With slashes, as SFTP and S3 have them; empty pieces and `.` at the beginning of a prefix fall away. */
export function joined(base: string, ...names: readonly string[]): string {
  const root = base.startsWith('/') ? '/' : '';
  const pieces = [...base.split('/'), ...names].filter((piece) => piece !== '' && piece !== '.');
  return `${root}${pieces.join('/')}`;
}
