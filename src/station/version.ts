import { readFileSync } from 'node:fs';

/** Version of Setside, from package.json, which lies two folders up both in src/ and in dist/. */
export const version: string = readVersion();

function readVersion(): string {
  const data: unknown = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  if (typeof data === 'object' && data !== null && 'version' in data) return String(data.version);
  throw new Error('package.json names no version');
}
